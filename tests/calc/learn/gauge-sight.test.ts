import { expect, test } from "vitest";
import { hear } from "../../../src/calc/learn/belief.js";
import { type GaugeSeen, gaugeSight, grounded } from "../../../src/calc/learn/gauge-sight.js";
import { leanWith } from "../../../src/calc/learn/limits.js";
import { newLearned, placeOf } from "../../../src/calc/learn/parts.js";
import { worldDice } from "../../replay/world.js";

const LEVEL = placeOf("level");
const N = Math.sqrt(newLearned("v").belief.cov.length);

/** Only the level is in doubt. */
function held(mean: number, sd: number) {
  const { belief } = newLearned("v");
  return {
    mean: belief.mean.map((_, i) => (i === LEVEL ? mean : 0)),
    cov: belief.cov.map((_, k) => (k === LEVEL * (N + 1) ? sd * sd : 0)),
  };
}
const seen = (share: number, more: Partial<GaugeSeen> = {}): GaugeSeen => ({
  atUtcMs: 1,
  share,
  sdShare: 0.03,
  low: share,
  high: share,
  full: false,
  slips: [],
  sure: false,
  ...more,
});

test("well above empty a gauge is a plain sight: Bayes' rule for normal values", () => {
  const sight = gaugeSight(held(0.5, 0.05), seen(0.45));
  expect(sight.expected).toBeCloseTo(0.5, 12);
  expect(sight.seen).toBe(0.45);
  expect(sight.variance).toBeCloseTo(0.0009, 12);
});

// What Bayes' rule gives for max(0, level) + noise is drawn here with dice, by weighing each drawn level with its likelihood.
test.each([
  [0.1, 0.1, 0.02],
  [0.05, 0.08, 0],
  [-0.1, 0.1, 0.03],
  [0.2, 0.1, 0],
])("held %d give or take %d, shown %d: as many weighed draws have it", (mean, sd, shown) => {
  const dice = worldDice(3);
  let [total, sum] = [0, 0];
  for (let i = 0; i < 200_000; i++) {
    const level = mean + sd * dice.normal();
    const weight = Math.exp(-0.5 * ((shown - Math.max(0, level)) / 0.03) ** 2);
    total += weight;
    sum += weight * level;
  }
  const belief = held(mean, sd);
  const { belief: after } = hear(belief, gaugeSight(belief, seen(shown)), [], true);
  expect(Math.abs((after.mean[LEVEL] as number) - sum / total)).toBeLessThan(0.004);
});

test("an empty gauge where more than a full set was asked for says nothing against it", () => {
  const belief = held(-0.3, 0.05);
  const { belief: after } = hear(belief, gaugeSight(belief, seen(0)), [], true);
  expect(after.mean[LEVEL]).toBeCloseTo(-0.3, 3);
});

test("a gauge at its upper end does not say how far beyond", () => {
  const belief = held(1.02, 0.02);
  const sight = gaugeSight(belief, seen(0.98, { high: 1.1 }));
  expect(Math.abs(sight.seen - sight.expected) / Math.sqrt(sight.variance)).toBeLessThan(0.1);
});

// Mean of max(0, X) for a standard normal X: 1 / sqrt(2 pi). Variance: 1/2 - 1/(2 pi).
test("a level held below empty is an empty set", () => {
  const after = grounded(held(0, 0.2));
  expect(after.mean[LEVEL]).toBeCloseTo(0.2 / Math.sqrt(2 * Math.PI), 6);
  expect(after.cov[LEVEL * (N + 1)]).toBeCloseTo(0.04 * (0.5 - 1 / (2 * Math.PI)), 6);
  const far = held(0.9, 0.05);
  expect(grounded(far)).toBe(far);
});

test("one slip does not make the days lean; the same side day after day does", () => {
  expect(leanWith(0, 9)).toBe(1.5);
  expect([1, 1, 1, 1].reduce(leanWith, 0)).toBeCloseTo(2, 12);
  expect([1, -1, 1, -1, 1, -1].reduce(leanWith, 0)).toBeCloseTo(0, 12);
});
