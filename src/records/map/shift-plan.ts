import type { CivilDate } from "../../units/zone.js";
import type { Round, Shift, Vehicle } from "../index.js";

// Apart from the run of a shift: the first screen asks for the plan alone and must stay small.

/** What a vehicle is to do on a date: a shift somebody set, or its usual round. */
export interface ShiftPlan {
  readonly date: CivilDate;
  readonly round: Round;
  readonly leaveMinute: number;
  readonly loadKg: number;
}

export const LOAD_SHARE = { empty: 0, half: 0.5, full: 1 } as const;

/** The shift of a date, else the usual round, else null: then nobody has said where the vehicle goes. */
export function shiftPlanOf(
  vehicle: Vehicle,
  rounds: readonly Round[],
  shifts: readonly Shift[],
  date: CivilDate,
): ShiftPlan | null {
  const set = shifts.find((shift) => shift.vehicleId === vehicle.id && shift.date === date);
  const roundId = set ? set.roundId : vehicle.usual.roundId;
  const round = rounds.find((each) => each.id === roundId);
  if (!round) return null;
  const loadClass = set ? set.loadClass : vehicle.usual.loadClass;
  return {
    date,
    round,
    leaveMinute: set ? set.leaveMinute : vehicle.usual.leaveMinute,
    loadKg: set?.loadKg ?? LOAD_SHARE[loadClass] * vehicle.fullLoadKg,
  };
}
