export * from "./curve.js";
export * from "./day.js";
export * from "./glass.js";
export * from "./panel.js";
export * from "./power.js";
export * from "./roof.js";
export * from "./shade.js";
export * from "./string.js";
