import { describe, expect, test } from "vitest";
import type { DayAnswer } from "../../src/calc/day/answer.js";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { RoundPart } from "../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { kmAhead, leftOut } from "../../src/records/map/leave-out.js";
import { shiftPlansOf } from "../../src/records/map/shift-plan.js";
import { MINUTE_MS } from "../../src/units/numbers.js";
import { utcMsAt } from "../../src/units/zone.js";
import { leaveOut } from "../../src/work/advice.js";
import { anyCase } from "./any-case.js";

// What was said about a day is held against the same day planned once more. A seed in a message gives its day: `anyCase(seed)`.
const answerOf = (given: DayCase): DayAnswer => planDay(dayInputOf(given));
const days = (count: number) => Array.from({ length: count }, (_, i) => anyCase(i + 1, 32));
const quantile = (values: readonly number[], level: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor(level * (values.length - 1))] as number;

describe("km left out", () => {
  const partsOf = (given: DayCase): readonly RoundPart[] =>
    shiftPlansOf(given.vehicle, given.rounds, given.shifts, given.date).flatMap((plan) => plan.round.parts);
  const sum = (parts: readonly RoundPart[], of: (part: RoundPart) => number) =>
    parts.reduce((total, part) => total + of(part), 0);
  const km = (part: RoundPart) => (part.kind === "leg" ? part.km : 0);
  const stopMin = (part: RoundPart) => (part.kind === "stop" ? part.minutes : 0);

  test.each(["end", "everyLeg"] as const)(
    "from %s: so many km less, stops as they were, and nothing of what is driven",
    (from) => {
      for (const given of days(20)) {
        const before = partsOf(given);
        const leaveUtcMs = utcMsAt(given.date, given.vehicle.usual.leaveMinute, given.yard.zone);
        const nowUtcMs = leaveUtcMs + 0.4 * sum(before, (part) => part.minutes) * MINUTE_MS;
        const under = { ...given, nowUtcMs };
        const ahead = kmAhead(under);
        expect(ahead).toBeLessThan(kmAhead(given));
        const after = partsOf(leftOut(under, ahead / 2, from));
        expect(sum(after, km)).toBeCloseTo(sum(before, km) - ahead / 2, 9);
        expect(sum(after, stopMin)).toBeCloseTo(sum(before, stopMin), 9);
        expect(after[0]).toEqual(before[0]); // behind by then
      }
    },
  );
});

test("with the km left out the day is enough, however they are left out; with one km less it is not", () => {
  let said = 0;
  for (const given of days(150)) {
    const { verdict } = answerOf(given);
    if (verdict !== "short" && verdict !== "tight") continue;
    const km = leaveOut(given);
    if (km === null) continue;
    said++;
    const verdicts = (less: number) =>
      (["end", "everyLeg"] as const).map((from) => answerOf(leftOut(given, less, from)).verdict);
    expect(verdicts(km), given.vehicle.id).toEqual(["enough", "enough"]);
    if (km > 1) expect(verdicts(km - 1), given.vehicle.id).not.toEqual(["enough", "enough"]);
  }
  expect(said).toBeGreaterThan(60);
});

test("short by N km: with the last N km left out the likely day comes home at the line, within 5 % of N", () => {
  const ratios: number[] = [];
  for (const given of days(120)) {
    const answer = answerOf(given);
    const { km } = answer;
    if (answer.verdict !== "short" || answer.stuck) continue;
    const isOver = (less: number) => {
      const { lowest, reserveShare } = answerOf(leftOut(given, less, "end"));
      return lowest.p50 >= reserveShare;
    };
    let [enough, less] = [0.98 * km, 0];
    if (!isOver(enough)) continue; // standing alone is too much
    while (enough - less > 0.02) {
      const middle = (enough + less) / 2;
      if (isOver(middle)) enough = middle;
      else less = middle;
    }
    if (enough > 3) ratios.push(-answer.kmLeft.p50 / enough);
  }
  expect(ratios.length).toBeGreaterThan(50);
  expect(Math.abs(quantile(ratios, 0.5) - 1)).toBeLessThan(0.02);
  // the other days: the sun of the hours that the rest of the day then moves into
  expect(ratios.filter((ratio) => Math.abs(ratio - 1) < 0.05).length / ratios.length).toBeGreaterThan(0.8);
  for (const ratio of ratios) expect(Math.abs(ratio - 1)).toBeLessThan(0.3);
});

test("N km left: without a roof a way so much longer uses them up, within 5 % of N", () => {
  let seen = 0;
  for (const roofed of days(120)) {
    const given = { ...roofed, vehicle: { ...roofed.vehicle, roof: { ...roofed.vehicle.roof, faces: [] } } };
    const { kmLeft, reserveShare, stuck } = answerOf(given);
    if (kmLeft.p50 < 5 || stuck) continue;
    seen++;
    const lowestWith = (more: number) => answerOf(leftOut(given, -more, "everyLeg")).lowest.p50;
    expect(lowestWith(0.95 * kmLeft.p50), given.vehicle.id).toBeGreaterThan(reserveShare);
    expect(lowestWith(1.05 * kmLeft.p50), given.vehicle.id).toBeLessThan(reserveShare);
  }
  expect(seen).toBeGreaterThan(10);
});
