export * from "./day.js";
export { clockOfMinute, type DeepReadonly, minuteOfClock } from "./fields.js";
export * from "./fleet.js";
export type { AnyKind, Kind, RecordOf } from "./kind.js";
export * from "./kinds.js";
export * from "./read.js";
export * from "./round.js";
export * from "./vehicle.js";
export * from "./yard.js";
