export * from "./air.js";
export * from "./clear.js";
export * from "./cloud.js";
export * from "./extraterrestrial.js";
export * from "./instant.js";
export * from "./plane.js";
export * from "./position.js";
export * from "./times.js";
export type * from "./types.js";
