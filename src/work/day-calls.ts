import type { DayAnswer } from "../calc/day/answer.js";
import { planDay } from "../calc/day/plan-day.js";
import { type DayCase, dayInputOf } from "../records/map/day.js";

/** What the day worker answers; the same functions serve when there is no worker. */
export const dayCalls = {
  answerDay: (given: DayCase): DayAnswer => planDay(dayInputOf(given)),
};
export type DayCalls = typeof dayCalls;
