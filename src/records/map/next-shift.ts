import { DAY_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Round, Shift, Vehicle, Yard } from "../index.js";
import { shiftPlanOf } from "./shift-plan.js";

/**
 * The day that a question asked now is about: today while today's shift is not yet over (its planned minutes past leaving), else tomorrow.
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
  const plan = shiftPlanOf(vehicle, rounds, shifts, today);
  if (!plan) return civilDate(nowUtcMs + DAY_MS / 2, yard.zone);
  const plannedMinutes = plan.round.parts.reduce((total, part) => total + part.minutes, 0);
  const homeUtcMs = utcMsAt(today, plan.leaveMinute, yard.zone) + plannedMinutes * 60_000;
  return nowUtcMs < homeUtcMs ? today : plusDays(today, 1);
}
