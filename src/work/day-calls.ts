import type { DayAnswer } from "../calc/day/answer.js";
import { planDay } from "../calc/day/plan-day.js";
import { type Site, type SunTimes, sunTimes } from "../calc/sun/index.js";
import { type DayCase, dayInputOf } from "../records/map/day.js";

/** What the day worker answers; the same functions serve when there is no worker. */
export const dayCalls = {
  /** Sun of the day that holds an instant. */
  sunOf: ({ utcMs, ...site }: Site & { readonly utcMs: number }): SunTimes => sunTimes(utcMs, site),
  answerDay: (given: DayCase): DayAnswer => planDay(dayInputOf(given)),
};
export type DayCalls = typeof dayCalls;
