import { type BreakAdvice, breakAdvice, kmGained, leastLeftOut, turnBackAt } from "../calc/day/advice.js";
import { planDay } from "../calc/day/plan-day.js";
import type { LoadClass } from "../records/index.js";
import { type BreakAsk, breakInputsOf, lighterInputOf, loadClassNow, turnCaseOf } from "../records/map/advice.js";
import { answerInputOf } from "../records/map/answer-input.js";
import type { DayCase } from "../records/map/day.js";
import { kmAhead, leftOut } from "../records/map/leave-out.js";

export const adviseBreak = (ask: BreakAsk & { readonly given: DayCase }): BreakAdvice | null => {
  const inputs = breakInputsOf(ask.given, ask);
  return inputs && breakAdvice(inputs);
};

/** Where to turn, km from the yard, low guess, and what makes it less. */
export interface TurnPoint {
  readonly km: number;
  readonly night: boolean;
  readonly rain: boolean;
}

/** No three-wheeler goes farther out on one charge. */
const MOST_KM = 150;

export function turnPoint({ given, outKm }: { readonly given: DayCase; readonly outKm: number }): TurnPoint | null {
  const turn = turnCaseOf(given, outKm);
  if (!turn) return null;
  const km = turnBackAt(turn.inputTo, outKm, MOST_KM);
  return { km, night: turn.darkAt(Math.max(km, outKm)), rain: turn.wet };
}

/** Likely km won by taking half or nothing instead of what is on board. */
export interface Lighter {
  readonly to: LoadClass;
  readonly km: number;
}

export function lighterLoads(given: DayCase): Lighter[] {
  const now = loadClassNow(given);
  const less = { empty: [], half: ["empty"], full: ["half", "empty"] } as const;
  const as = planDay(answerInputOf(given));
  return (now === null ? ["empty" as const] : less[now]).map((to) => ({
    to,
    km: kmGained(as, planDay(lighterInputOf(given, to))),
  }));
}

/** Fewest whole km with which left out the day is enough, whether the last legs get shorter or all that are ahead; null where none do it. */
export const leaveOut = (given: DayCase): number | null =>
  leastLeftOut(
    (km) => [answerInputOf(leftOut(given, km, "end")), answerInputOf(leftOut(given, km, "everyLeg"))],
    kmAhead(given),
  );
