import type { DayAnswer } from "../calc/day/answer.js";
import { planDay } from "../calc/day/plan-day.js";
import type { ComparedDay } from "../calc/sizing/compare.js";
import { type Site, type SunTimes, sunTimes } from "../calc/sun/index.js";
import { type DayCase, dayInputOf } from "../records/map/day.js";
import type { CompareAsk, Moved, Reach } from "./what-if.js";

/** What the day worker answers; the same functions serve when there is no worker. */
export const dayCalls = {
  /** Sun of the day that holds an instant. */
  sunOf: ({ utcMs, ...site }: Site & { readonly utcMs: number }): SunTimes => sunTimes(utcMs, site),
  answerDay: (given: DayCase): DayAnswer => planDay(dayInputOf(given)),
  // fetched when first asked for: the first answer does not wait for it
  moves: async (given: DayCase): Promise<Moved> => (await import("./what-if.js")).moves(given),
  compare: async (sides: readonly CompareAsk[]): Promise<ComparedDay[]> =>
    (await import("./what-if.js")).compare(sides),
  reaches: async (given: DayCase): Promise<Reach[]> => (await import("./what-if.js")).reaches(given),
};
export type DayCalls = typeof dayCalls;
