export * from "./charging.js";
export { cellsOf, coldFactor, restedVoltage } from "./curves.js";
export * from "./reading.js";
export * from "./sag.js";
export * from "./store.js";
export * from "./types.js";
