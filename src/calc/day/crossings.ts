import { HOUR_MS } from "../../units/numbers.js";
import type { StepColumns } from "./simulate.js";

/** Last instant at or above `lineWh` before the level first goes below it between leaving and home; null when it never does. */
export function firstBelow(
  levelsWh: Float64Array,
  columns: StepColumns,
  startWh: number,
  lineWh: number,
): number | null {
  for (let i = columns.lowestFrom; i < columns.lowestTo; i++) {
    const now = levelsWh[i] as number;
    if (now >= lineWh) continue;
    const before = i > 0 ? (levelsWh[i - 1] as number) : startWh;
    const part = before > lineWh ? (before - lineWh) / (before - now) : 0;
    return Math.round((columns.fromUtcMs[i] as number) + part * (columns.hours[i] as number) * HOUR_MS);
  }
  return null;
}
