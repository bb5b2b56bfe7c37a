export * from "./air.js";
export * from "./defaults.js";
export { legDrain } from "./drain.js";
export * from "./load.js";
export * from "./motor.js";
export * from "./pace.js";
export * from "./types.js";
