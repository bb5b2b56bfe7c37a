export type { Change } from "./changes.js";
export { askToKeep, type Kept, space } from "./space.js";
export * from "./store.js";
