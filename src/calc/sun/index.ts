export * from "./air.js";
export * from "./extraterrestrial.js";
export type * from "./types.js";
