import { DAY_MS, MINUTE_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Round, Shift, Vehicle, Yard } from "../index.js";
import { plannedMinutes, shiftPlansOf } from "./shift-plan.js";

/**
 * The day that a question asked now is about: that of the first shift that is not over (its planned minutes past leaving), among yesterday's,
 * which may pass midnight or leave after it, and today's; else tomorrow. With no shift known it is tomorrow from noon on.
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
  const runs = runsOn(given, today);
  const [next] = [...runsOn(given, plusDays(today, -1)), ...runs]
    .filter(({ toUtcMs }) => nowUtcMs < toUtcMs)
    .sort((a, b) => a.fromUtcMs - b.fromUtcMs);
  if (next) return next.date;
  return runs.length > 0 ? plusDays(today, 1) : civilDate(nowUtcMs + DAY_MS / 2, given.yard.zone);
}

function runsOn({ yard, vehicle, rounds, shifts }: Parameters<typeof dateAsked>[0], date: CivilDate) {
  return shiftPlansOf(vehicle, rounds, shifts, date).map(({ leaveMinute, round }) => {
    const fromUtcMs = utcMsAt(date, leaveMinute, yard.zone);
    return { date, fromUtcMs, toUtcMs: fromUtcMs + plannedMinutes(round) * MINUTE_MS };
  });
}
