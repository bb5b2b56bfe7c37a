import { readFileSync } from "node:fs";
import { type Leg, type Trace, traceOfPoints, traceOfSeconds } from "../../../src/calc/road/index.js";

/** A level town leg of 10 km in 30 minutes. */
export const legOf = (more: Partial<Leg> = {}): Leg => ({
  km: 10,
  minutes: 30,
  climbM: 0,
  dropM: 0,
  surface: "asphalt",
  wet: false,
  stopsPerKm: 1.5,
  payloadKg: 0,
  airDensityKgM3: 1.2,
  ...more,
});

const FOLDER = "shared/reference/vehicle";
export const dataOf = (file: string): Record<string, unknown> =>
  JSON.parse(readFileSync(`${FOLDER}/${file}.json`, "utf8")).data;

export function cycleOf(file: string): Trace {
  const data = dataOf(file);
  if (data.breakpoints) return traceOfPoints(data.breakpoints as [number, number][]);
  return traceOfSeconds((data.speedKmh as number[][]).flat());
}
