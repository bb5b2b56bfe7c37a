import { civilDate } from "../../units/zone.js";
import type { Entry, Reading } from "../index.js";

/**
 * Readings without those that only repeat the gauge of a day's entry: writing a day in keeps its gauge as a reading too, for answers that know
 * no learning, and what was seen once must not be heard twice.
 */
export function withoutEchoes(
  readings: readonly Reading[],
  entries: readonly Pick<Entry, "date" | "level">[],
  zone: string,
): readonly Reading[] {
  const seen = new Set(entries.flatMap(({ date, level }) => (level ? [`${date} ${level.kind} ${level.value}`] : [])));
  return readings.filter(
    ({ atUtcMs, kind, value, restedMin }) =>
      restedMin !== null || !seen.has(`${civilDate(atUtcMs, zone)} ${kind} ${value}`),
  );
}
