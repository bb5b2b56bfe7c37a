import { MINUTE_MS } from "../../units/numbers.js";
import { utcMsAt } from "../../units/zone.js";
import { shiftId } from "../ids.js";
import type { Round, RoundPart, Shift, StopPart, Vehicle, Yard } from "../index.js";
import { plannedMinutes, type ShiftPlan, shiftPlansOf } from "./shift-plan.js";

/** A break taken now: how long, in what light, on which socket. */
export interface Break {
  readonly minutes: number;
  readonly shade: StopPart["shade"];
  readonly socketKw: number | null;
  readonly name: string;
}

/**
 * The same round with a break `sinceLeaveMin` minutes after leaving, by the planned minutes: a leg is cut there, a longer stop is the break
 * itself for as long as it lasts. Before leaving the break comes first, after coming home last.
 */
export function withBreak(round: Round, sinceLeaveMin: number, taken: Break): Round {
  const stop: StopPart = {
    kind: "stop",
    name: taken.name,
    minutes: taken.minutes,
    shade: taken.shade,
    sideDeg: null,
    payloadChangeKg: 0,
    socketKw: taken.socketKw,
  };
  const parts: RoundPart[] = [];
  let at = 0;
  let put = sinceLeaveMin <= 0;
  if (put) parts.push(stop);
  for (const part of round.parts) {
    const gone = sinceLeaveMin - at;
    at += part.minutes;
    if (put || gone >= part.minutes) parts.push(part);
    else {
      parts.push(...cut(part, gone, stop));
      put = true;
    }
  }
  return { ...round, parts: put ? parts : [...parts, stop] };
}

function cut(part: RoundPart, gone: number, stop: StopPart): RoundPart[] {
  const rest = part.minutes - gone;
  if (part.kind === "stop") {
    const left = Math.max(0, rest - stop.minutes);
    const first = gone > 0 ? [{ ...part, minutes: gone, payloadChangeKg: 0 }] : [];
    // Goods go on or off when the planned stop ends.
    return [
      ...first,
      { ...stop, payloadChangeKg: left > 0 ? 0 : part.payloadChangeKg },
      ...(left > 0 ? [{ ...part, minutes: left }] : []),
    ];
  }
  const share = part.minutes > 0 ? gone / part.minutes : 0;
  const piece = (of: number, minutes: number): RoundPart => ({
    ...part,
    km: part.km * of,
    minutes,
    climbM: part.climbM * of,
    dropM: part.dropM * of,
  });
  return share > 0 ? [piece(share, gone), stop, piece(1 - share, rest)] : [stop, part];
}

/** What is known of a day's shifts, as far as changing one of them needs it. */
export interface ShiftsOfDay {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly shifts: readonly Shift[];
  readonly date: string;
  readonly nowUtcMs: number;
}

const leaveUtcMsOf = ({ date, yard }: ShiftsOfDay, { leaveMinute }: ShiftPlan): number =>
  utcMsAt(date, leaveMinute, yard.zone);

/** The shift that runs now, else the next one, else the last. */
export function planNow(given: ShiftsOfDay): ShiftPlan | null {
  const plans = shiftPlansOf(given.vehicle, given.rounds, given.shifts, given.date);
  const ends = (plan: ShiftPlan) => leaveUtcMsOf(given, plan) + plannedMinutes(plan.round) * MINUTE_MS;
  return plans.find((plan) => ends(plan) > given.nowUtcMs) ?? plans.at(-1) ?? null;
}

/** The day with another round for one of its shifts; other shifts and other days on the same round stay as they are. */
export function withRoundFor<D extends ShiftsOfDay>(given: D, plan: ShiftPlan, round: Round): D {
  const { vehicle, date, shifts } = given;
  const was = shifts.find(
    (shift) =>
      shift.vehicleId === vehicle.id &&
      shift.date === date &&
      shift.roundId === plan.round.id &&
      shift.leaveMinute === plan.leaveMinute,
  );
  const usual = { id: shiftId(vehicle.id, date), v: 1, vehicleId: vehicle.id, loadKg: null, driver: null } as const;
  const own = { ...round, id: `${plan.round.id}/${plan.leaveMinute}` };
  const shift: Shift = { ...(was ?? { ...usual, ...vehicle.usual }), date, roundId: own.id };
  return { ...given, rounds: [...given.rounds, own], shifts: [...shifts.filter((one) => one !== was), shift] };
}

/** The day with a break put into a shift at this moment. */
export const withBreakNow = <D extends ShiftsOfDay>(given: D, plan: ShiftPlan, taken: Break): D =>
  withRoundFor(given, plan, withBreak(plan.round, (given.nowUtcMs - leaveUtcMsOf(given, plan)) / MINUTE_MS, taken));
