import { HOUR_MS } from "../../units/numbers.js";
import type { StepColumns } from "./simulate.js";

/** Levels at the ends of a walk's steps. `lowestUtcMs` is when the walk was first at its lowest: an empty set was so before its step ended. */
export interface WalkedLevels {
  readonly levelsWh: Float64Array;
  readonly startWh: number;
  readonly lowestUtcMs: number;
}

/** Last instant at or above `lineWh` before the level first goes below it between leaving and home, leaving where it is below already; null when it never does. */
export function firstBelow(
  { levelsWh, startWh, lowestUtcMs }: WalkedLevels,
  columns: StepColumns,
  lineWh: number,
): number | null {
  for (let i = columns.lowestFrom; i < columns.lowestTo; i++) {
    const now = levelsWh[i] as number;
    const before = i > 0 ? (levelsWh[i - 1] as number) : startWh;
    if (now >= lineWh && before >= lineWh) continue;
    const part = before > lineWh ? (before - lineWh) / (before - now) : 0;
    const fromUtcMs = columns.fromUtcMs[i] as number;
    const toUtcMs = now > 0 ? fromUtcMs + (columns.hours[i] as number) * HOUR_MS : lowestUtcMs;
    return Math.round(fromUtcMs + part * (toUtcMs - fromUtcMs));
  }
  return null;
}
