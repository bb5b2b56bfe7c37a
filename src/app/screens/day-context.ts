import { shiftId } from "../../records/ids.js";
import type { Shift, Vehicle, Yard } from "../../records/index.js";
import { dateAsked } from "../../records/map/next-shift.js";
import { shiftPlanOf } from "../../records/map/shift-plan.js";
import type { CivilDate } from "../../units/zone.js";
import { answers, current } from "../answers.js";
import { book, listed, shiftOn, yardOf } from "../fleet.js";
import { nowUtcMs } from "../state.js";
import type { TodayModel } from "./today-model.js";
import { todayModelOf } from "./today-of.js";

/** The vehicle and the day that Today and its keys speak of. */
export interface DayContext {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly date: CivilDate;
}

export function dayContext(): DayContext | null {
  const vehicle = current.value;
  const yard = vehicle && yardOf(vehicle);
  if (!vehicle || !yard) return null;
  const rounds = listed(book.value, "round");
  const shifts = listed(book.value, "shift");
  return { vehicle, yard, date: dateAsked({ yard, vehicle, rounds, shifts }, nowUtcMs.value) };
}

/** What Today shows of a vehicle; null until its answer is there. */
export function modelOf(vehicleId: string): TodayModel | null {
  const answered = answers.value.get(vehicleId);
  return answered ? todayModelOf(answered, nowUtcMs.value) : null;
}

/** The shift of the day: the one that was set, or the usual one made out as one. Null when no round is known. */
export function shiftFor({ vehicle, date }: DayContext): Shift | null {
  const set = shiftOn(vehicle.id, date);
  if (set) return set;
  const plan = shiftPlanOf(vehicle, listed(book.value, "round"), [], date);
  if (!plan) return null;
  return {
    id: shiftId(vehicle.id, date),
    v: 1,
    vehicleId: vehicle.id,
    roundId: plan.round.id,
    date,
    leaveMinute: plan.leaveMinute,
    loadKg: null,
    loadClass: vehicle.usual.loadClass,
    driver: null,
  };
}
