// Planning again while a plan is being followed: history stays, few promises move, nobody is dropped for it.
// Bounds: design target, at most 2 promises moved on average over 30 events of a forty-vehicle night; the checker decides on rules.
import { expect, test } from "vitest";
import type { Night, Session } from "../../../src/calc/yard/night.js";
import { planNight } from "../../../src/calc/yard/plan-night.js";
import { diceOf } from "../../../src/units/dice.js";
import { checkPlan } from "../../tools/depot-score.mjs";
import { inventNight } from "./nights.js";

const NO_CLOCK = { seed: 11, clockMs: () => 0, budgetMs: 1 };
const HOUR_MS = 3_600_000;
const night = inventNight({ seed: 77, vehicles: 40, sockets: 30, power: 1.25 });
const told = planNight(night, { ...NO_CLOCK, steps: 6000 }).plan.sessions;
const nowUtcMs = night.startUtcMs + 3.5 * HOUR_MS; // half past eight in the evening
const begun = (session: Session): boolean => session.plugUtcMs < nowUtcMs;

interface Event {
  readonly name: string;
  readonly after: Night;
}

function inventEvents(count: number): Event[] {
  const dice = diceOf(4711);
  const open = night.stays.filter((stay) => !told.some((session) => session.stay === stay.id && begun(session)));
  return Array.from({ length: count }, (_, k) => {
    const stay = open[Math.floor(dice() * open.length)] as (typeof open)[number];
    const late = k % 2 === 0;
    const quarters = 1 + Math.floor(dice() * 6);
    const changed = late
      ? {
          ...stay,
          arriveUtcMs: Math.min(Math.max(stay.arriveUtcMs, nowUtcMs) + quarters * 900_000, stay.departUtcMs - HOUR_MS),
        }
      : { ...stay, arriveKwh: Math.max(0, stay.arriveKwh - 1), needKwh: stay.needKwh + Math.min(1, stay.arriveKwh) };
    const stays = night.stays.map((one) => (one === stay ? changed : one));
    const name = late ? `${stay.id} comes ${quarters} quarters late` : `${stay.id} comes 1 kWh emptier`;
    return { name, after: { ...night, stays, published: { nowUtcMs, sessions: told } } };
  });
}

const events = inventEvents(30);
const moved: number[] = [];

test.each(events)("$name: history kept, nobody dropped", ({ after }) => {
  const { plan, score } = planNight(after, { ...NO_CLOCK, steps: 3000 });
  expect(checkPlan({ format: "depot-night/1", ...after }, plan).broken).toEqual([]);
  const fresh = planNight(
    { ...after, published: { nowUtcMs, sessions: told.filter(begun) } },
    { ...NO_CLOCK, steps: 3000 },
  );
  expect(score.short).toBeLessThanOrEqual(fresh.score.short);
  moved.push(score.changes);
});

test("few promises move", () => {
  expect(moved.length).toBe(events.length);
  const mean = moved.reduce((sum, one) => sum + one, 0) / moved.length;
  expect(mean).toBeLessThanOrEqual(2);
});
