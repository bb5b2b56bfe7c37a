import { DAY_MS, MINUTE_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Round, Shift, Vehicle, Yard } from "../index.js";
import { plannedMinutes, shiftPlansOf } from "./shift-plan.js";

/**
 * The day that a question asked now is about: today while today's last shift is not yet over (its planned minutes past leaving), else tomorrow.
 * With no shift known it is tomorrow from noon on.
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
  const { yard, vehicle, rounds, shifts } = given;
  const today = civilDate(nowUtcMs, yard.zone);
  const plans = shiftPlansOf(vehicle, rounds, shifts, today);
  if (plans.length === 0) return civilDate(nowUtcMs + DAY_MS / 2, yard.zone);
  const ends = plans.map(
    ({ leaveMinute, round }) => utcMsAt(today, leaveMinute, yard.zone) + plannedMinutes(round) * MINUTE_MS,
  );
  return nowUtcMs < Math.max(...ends) ? today : plusDays(today, 1);
}
