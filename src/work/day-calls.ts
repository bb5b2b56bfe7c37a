import type { BreakAdvice } from "../calc/day/advice.js";
import type { DayAnswer } from "../calc/day/answer.js";
import { planDay } from "../calc/day/plan-day.js";
import type { ComparedDay } from "../calc/sizing/compare.js";
import type { Site, SunTimes } from "../calc/sun/index.js";
import type { BreakAsk } from "../records/map/advice.js";
import { type DayCase, dayInputOf } from "../records/map/day.js";
import type { Lighter, TurnPoint } from "./advice.js";
import type { LearnAnswer, LearnAsk } from "./learned.js";
import type { CompareAsk, Moved, Reach } from "./what-if.js";

/** A later file: while it has not come, the day is answered without what was learned. */
const learnedInput = (given: DayCase) =>
  import("../records/map/answer-input.js").then(
    (part) => part.answerInputOf(given),
    () => dayInputOf(given),
  );

/** What the day worker answers; the same functions serve when there is no worker. */
export const dayCalls = {
  /** Sun of the day that holds an instant; a part of its own, as the first answer has no need of it. */
  sunOf: async ({ utcMs, ...site }: Site & { readonly utcMs: number }): Promise<SunTimes> =>
    (await import("../calc/sun/times.js")).sunTimes(utcMs, site),
  /** What was learned is taken in by a part of its own: nobody has learned anything at the first answer. */
  answerDay: async (given: DayCase): Promise<DayAnswer> =>
    planDay(given.learned || given.placeLearned ? await learnedInput(given) : dayInputOf(given)),
  // fetched when first asked for: the first answer does not wait for it
  learn: async (ask: LearnAsk): Promise<LearnAnswer> => (await import("./learned.js")).learnYard(ask),
  moves: async (given: DayCase): Promise<Moved> => (await import("./what-if.js")).moves(given),
  compare: async (sides: readonly CompareAsk[]): Promise<ComparedDay[]> =>
    (await import("./what-if.js")).compare(sides),
  reaches: async (given: DayCase): Promise<Reach[]> => (await import("./what-if.js")).reaches(given),
  breakNow: async (ask: BreakAsk & { readonly given: DayCase }): Promise<BreakAdvice | null> =>
    (await import("./advice.js")).adviseBreak(ask),
  turnPoint: async (ask: { readonly given: DayCase; readonly outKm: number }): Promise<TurnPoint | null> =>
    (await import("./advice.js")).turnPoint(ask),
  leaveOut: async (given: DayCase): Promise<number | null> => (await import("./advice.js")).leaveOut(given),
  lighter: async (given: DayCase): Promise<Lighter[]> => (await import("./advice.js")).lighterLoads(given),
};
export type DayCalls = typeof dayCalls;
