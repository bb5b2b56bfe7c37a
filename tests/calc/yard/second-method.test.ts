// A second method, written apart: every session of the grid as a column of an integer program, solved aim by aim by HiGHS
// (J. A. J. Hall et al., an open solver). Small nights of all kinds, seeds named; the planner must reach the same eight numbers.
// SMALL_NIGHTS=200 runs all of them: SMALL_NIGHTS=200 npx vitest run --project unit tests/calc/yard/second-method.test.ts
import loadHighs from "highs";
import { expect, test } from "vitest";
import { planNight } from "../../../src/calc/yard/plan-night.js";
import { checkPlan } from "../../tools/depot-score.mjs";
import { optimum } from "./oracle.js";
import { smallNight } from "./small-nights.js";

const COUNT = Number(process.env.SMALL_NIGHTS ?? 24);
const FIRST_SEED = 1;
const SOLVES_BEFORE_FRESH = 40; // the solver's memory only grows
const OPTIONS = { seed: 3, clockMs: () => 0, budgetMs: 1, steps: 10_000 };

let highs = await loadHighs();
let solved = 0;
const seeds = Array.from({ length: COUNT }, (_, k) => FIRST_SEED + k);

test.each(seeds)("night of seed %i: the optimum in all eight aims", async (seed) => {
  if (++solved % SOLVES_BEFORE_FRESH === 0) highs = await loadHighs();
  const night = smallNight(seed);
  const best = optimum(night, highs);
  expect(best, "the second method must finish").not.toBeNull();
  const { plan, bounds } = planNight(night, OPTIONS);
  const { broken, score } = checkPlan({ format: "depot-night/1", ...night }, plan);
  expect(broken).toEqual([]);
  const own = [
    score.short,
    score.shortWeight,
    Math.round(score.missingKwh * 100),
    score.changes,
    score.fullMissed,
    score.money * 100,
    score.handling,
    score.readySlots,
  ];
  for (const [aim, value] of own.entries())
    expect(value, `aim ${aim + 1} of ${own} against ${best}`).toBeCloseTo(best?.[aim] as number, aim === 5 ? 0 : 6);
  expect(bounds.short).toBeLessThanOrEqual(best?.[0] as number);
  expect(bounds.money ?? 0).toBeLessThanOrEqual((best?.[5] as number) / 100 + 0.006);
});
