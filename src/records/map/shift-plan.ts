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

/** The shifts of a date in order of leaving, else the usual round, else none: then nobody has said where the vehicle goes. */
export function shiftPlansOf(
  vehicle: Vehicle,
  rounds: readonly Round[],
  shifts: readonly Shift[],
  date: CivilDate,
): ShiftPlan[] {
  const set = shifts.filter((shift) => shift.vehicleId === vehicle.id && shift.date === date);
  const asked = set.length > 0 ? set : [{ ...vehicle.usual, loadKg: null }];
  return asked
    .flatMap(({ roundId, leaveMinute, loadKg, loadClass }): ShiftPlan[] => {
      const round = rounds.find((each) => each.id === roundId);
      return round ? [{ date, round, leaveMinute, loadKg: loadKg ?? LOAD_SHARE[loadClass] * vehicle.fullLoadKg }] : [];
    })
    .sort((a, b) => a.leaveMinute - b.leaveMinute);
}

/** The first of them, or null. */
export const shiftPlanOf = (...of: Parameters<typeof shiftPlansOf>): ShiftPlan | null => shiftPlansOf(...of)[0] ?? null;

/** Minutes that a round takes as it is written down. */
export const plannedMinutes = (round: Round): number => round.parts.reduce((total, part) => total + part.minutes, 0);
