import { turnBackKm } from "../../calc/day/turn-back.js";
import type { Answered } from "../answers.js";
import { levelAt } from "../parts/strip-model.js";

/** km that the charge above the reserve carries from now on, on a bad day. */
export function badDayRangeKm({ answer }: Answered, nowUtcMs: number): number {
  if (answer.whPerKm <= 0) return 0;
  const level = levelAt(answer.lines.atUtcMs, answer.lines.p10, nowUtcMs);
  return Math.max(0, ((level - answer.reserveShare) * answer.usableWh) / answer.whPerKm);
}

/** Whole km from the yard at which to turn, on a bad day. */
export const turnBackOf = (answered: Answered, nowUtcMs: number, outKm: number): number =>
  Math.floor(turnBackKm(badDayRangeKm(answered, nowUtcMs), outKm));
