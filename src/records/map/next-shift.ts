import { DAY_MS, MINUTE_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Round, Shift, Vehicle, Yard } from "../index.js";
import { plannedMinutes, shiftPlansOf } from "./shift-plan.js";

/**
 * The day that a question asked now is about: yesterday while its shift still runs past midnight, today while today's last shift is not yet
 * over (its planned minutes past leaving), else tomorrow. With no shift known it is tomorrow from noon on.
 */
export function dateAsked(
  given: {
    readonly yard: Yard;
    readonly vehicle: Vehicle;
    readonly rounds: readonly Round[];
    readonly shifts: readonly Shift[];
  },
  nowUtcMs: number,
): CivilDate {
  const today = civilDate(nowUtcMs, given.yard.zone);
  const yesterday = plusDays(today, -1);
  const out = runsOn(given, yesterday).some(({ fromUtcMs, toUtcMs }) => fromUtcMs <= nowUtcMs && nowUtcMs < toUtcMs);
  if (out) return yesterday;
  const runs = runsOn(given, today);
  if (runs.length === 0) return civilDate(nowUtcMs + DAY_MS / 2, given.yard.zone);
  return runs.some(({ toUtcMs }) => nowUtcMs < toUtcMs) ? today : plusDays(today, 1);
}

function runsOn({ yard, vehicle, rounds, shifts }: Parameters<typeof dateAsked>[0], date: CivilDate) {
  return shiftPlansOf(vehicle, rounds, shifts, date).map(({ leaveMinute, round }) => {
    const fromUtcMs = utcMsAt(date, leaveMinute, yard.zone);
    return { fromUtcMs, toUtcMs: fromUtcMs + plannedMinutes(round) * MINUTE_MS };
  });
}
