import { HOUR_MS } from "../../units/numbers.js";
import type { DayCase } from "./day.js";
import { runShift, shiftPlanOf } from "./shift.js";
import { skiesByDate } from "./weather.js";

/** One leg of a round as this vehicle drives it. */
export interface LegProfile {
  readonly km: number;
  readonly climbM: number;
  readonly dropM: number;
  /** Over the whole leg, its stops included. */
  readonly kmh: number;
  /** Out of the set, less what braking gives back, by what this vehicle was found to take. */
  readonly whPerKm: number;
}

const NO_WAY_KM = 1e-3;

/** The legs of the round that a vehicle is to drive on a date, one after the other; none without a round. */
export function legProfiles(given: DayCase): readonly LegProfile[] {
  const { yard, vehicle } = given;
  const plan = shiftPlanOf(vehicle, given.rounds, given.shifts, given.date);
  if (!plan) return [];
  const { drains } = runShift(plan, { yard, vehicle, skies: skiesByDate(given.skies, yard.id) });
  const factor = vehicle.learned?.driveFactor ?? 1;
  return plan.round.parts.flatMap((part, n): LegProfile[] => {
    const drain = drains.get(n);
    if (part.kind !== "leg" || !drain || part.km < NO_WAY_KM) return [];
    const { km, climbM, dropM } = part;
    const hours = Math.max(drain.minutes * 60_000, 1) / HOUR_MS;
    return [{ km, climbM, dropM, kmh: km / hours, whPerKm: (factor * (drain.batteryWh - drain.regenWh)) / km }];
  });
}
