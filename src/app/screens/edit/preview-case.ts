import type { Reading, Round, Shift, Sky, Vehicle, Yard } from "../../../records/index.js";
import type { DayCase } from "../../../records/map/day.js";
import { MINUTE_MS } from "../../../units/numbers.js";
import { type CivilDate, utcMsAt } from "../../../units/zone.js";

/** Fewer than for the day's own answer: this one is asked for at every tap. */
const DRAWS = 150;

/** A day as it would be if a vehicle left full: what a round or a sky does to it, apart from tonight's level. */
export function fullCase(of: {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly round: Round;
  readonly date: CivilDate;
  readonly shift: Shift | undefined;
  readonly skies: readonly Sky[];
}): DayCase {
  const { vehicle, yard, round, date, shift, skies } = of;
  const leaveUtcMs = utcMsAt(date, shift?.leaveMinute ?? vehicle.usual.leaveMinute, yard.zone);
  const full: Reading = {
    id: "preview",
    v: 1,
    vehicleId: vehicle.id,
    atUtcMs: leaveUtcMs - MINUTE_MS,
    kind: "full",
    value: 100,
    restedMin: null,
    perBlock: false,
  };
  return {
    yard,
    vehicle: { ...vehicle, usual: { ...vehicle.usual, roundId: round.id } },
    rounds: [round],
    shifts: shift ? [{ ...shift, roundId: round.id }] : [],
    skies,
    readings: [full],
    date,
    nowUtcMs: leaveUtcMs,
    draws: DRAWS,
  };
}
