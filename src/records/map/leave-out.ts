import { MINUTE_MS } from "../../units/numbers.js";
import { utcMsAt } from "../../units/zone.js";
import type { LegPart, Round, RoundPart } from "../index.js";
import { type ShiftsOfDay, withRoundFor } from "./break.js";
import { type ShiftPlan, shiftPlansOf } from "./shift-plan.js";

/** A plan with the minutes of its round that lie behind by now. */
interface Ahead {
  readonly plan: ShiftPlan;
  readonly goneMin: number;
  readonly km: number;
}

/** Km of a leg that are still ahead, `at` minutes into its round. */
const aheadKm = (leg: LegPart, at: number, goneMin: number): number =>
  leg.km * (1 - Math.min(1, Math.max(0, leg.minutes > 0 ? (goneMin - at) / leg.minutes : goneMin > at ? 1 : 0)));

const startsOf = ({ parts }: Round): number[] => {
  let at = 0;
  return parts.map(({ minutes }) => {
    at += minutes;
    return at - minutes;
  });
};

const aheadOf = (given: ShiftsOfDay): Ahead[] =>
  shiftPlansOf(given.vehicle, given.rounds, given.shifts, given.date).map((plan) => {
    const goneMin = (given.nowUtcMs - utcMsAt(given.date, plan.leaveMinute, given.yard.zone)) / MINUTE_MS;
    const starts = startsOf(plan.round);
    const km = plan.round.parts.reduce(
      (sum, part, i) => sum + (part.kind === "leg" ? aheadKm(part, starts[i] as number, goneMin) : 0),
      0,
    );
    return { plan, goneMin, km };
  });

/** Km of the day's shifts that are still to drive, by the planned minutes. */
export const kmAhead = (given: ShiftsOfDay): number => aheadOf(given).reduce((sum, { km }) => sum + km, 0);

const shorter = (leg: LegPart, km: number): RoundPart[] => {
  const by = (leg.km - km) / leg.km;
  const piece = { ...leg, km: leg.km * by, minutes: leg.minutes * by, climbM: leg.climbM * by, dropM: leg.dropM * by };
  return by > 1e-9 ? [piece] : [];
};

/** The round with km of each leg left out as `without` says, from the last part to the first; stops stay as long as they are. */
function cutRound({ plan, goneMin }: Ahead, without: (aheadKm: number) => number): Round {
  const starts = startsOf(plan.round);
  const parts = plan.round.parts
    .map((part, i) => ({ part, at: starts[i] as number }))
    .reverse()
    .map(({ part, at }) =>
      part.kind === "leg" && part.km > 0 ? shorter(part, without(aheadKm(part, at, goneMin))) : [part],
    );
  return { ...plan.round, parts: parts.reverse().flat() };
}

/** The day with `km` of what is still to drive left out: from its end, or of every leg ahead by its share. */
export function leftOut<D extends ShiftsOfDay>(given: D, km: number, from: "end" | "everyLeg"): D {
  const ahead = aheadOf(given);
  const share = Math.min(1, km / ahead.reduce((sum, each) => sum + each.km, 0));
  let left = km;
  const fromEnd = (legKm: number): number => {
    const cut = Math.min(legKm, left);
    left -= cut;
    return cut;
  };
  const without = from === "end" ? fromEnd : (legKm: number) => legKm * share;
  return ahead.reduceRight((day, each) => withRoundFor(day, each.plan, cutRound(each, without)), given);
}
