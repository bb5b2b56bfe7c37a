import fc from "fast-check";
import { expect, test } from "vitest";
import {
  addDoubt,
  type Belief,
  carry,
  DEAF_AT_SD,
  forget,
  hear,
  setAnew,
  varianceAlong,
} from "../../../src/calc/learn/belief.js";

const one = (mean: number, variance: number): Belief => ({ mean: [mean], cov: [variance] });
const sight = (seen: number, variance: number, expected = 0) => ({
  slopes: [[0, 1]] as const,
  expected,
  seen,
  variance,
});

// Normal prior and normal measurement: A. Gelman and others, Bayesian Data Analysis (3rd ed.), equation 2.10.
test.each([
  [0, 1, 0.5, 1],
  [2, 0.25, 2.2, 0.1],
  [-1, 4, -1.5, 9],
])("a sure value moves a normal belief as Bayes' rule does: %d, %d, %d, %d", (m, p, y, r) => {
  const { belief } = hear(one(m, p), sight(y, r, m), [], true);
  expect(belief.mean[0]).toBeCloseTo((m / p + y / r) / (1 / p + 1 / r), 12);
  expect(belief.cov[0]).toBeCloseTo(1 / (1 / p + 1 / r), 12);
});

// Beaton and Tukey (1974), Technometrics 16, 147: weight (1 - (z/c)^2)^2 within c, none beyond.
test("an odd value is listened to by Tukey's biweight", () => {
  for (const z of [0, 0.5, 1, 2, 3, 4.6]) {
    const { weight } = hear(one(0, 0.5), sight(z, 0.5), []);
    expect(weight).toBeCloseTo((1 - (z / 4.685) ** 2) ** 2, 12);
  }
  const deaf = hear(one(0, 0.5), sight(DEAF_AT_SD + 0.01, 0.5), []);
  expect(deaf.belief.mean[0]).toBe(0);
  expect(deaf.belief.cov[0]).toBe(0.5);
});

test("a limit holds the step, and the doubt stays larger for it", () => {
  const free = hear(one(0, 1), sight(0.5, 0.01), []);
  const held = hear(one(0, 1), sight(0.5, 0.01), [{ places: [0], most: 0.1 }]);
  expect(held.belief.mean[0]).toBeCloseTo(0.1, 12);
  expect(held.belief.cov[0]).toBeGreaterThan(free.belief.cov[0] as number);
});

const numbers = (n: number, low: number, high: number) =>
  fc.array(fc.double({ min: low, max: high, noNaN: true }), { minLength: n, maxLength: n });

// A covariance stays one: no sum of quantities ever gets a negative variance (definition of a positive semi-definite matrix).
test("whatever is seen, carried, limited and forgotten, variances stay non-negative", () => {
  const n = 4;
  fc.assert(
    fc.property(
      numbers(n, 0.01, 2),
      fc.array(
        fc.tuple(
          numbers(n, -2, 2),
          fc.double({ min: -5, max: 5, noNaN: true }),
          fc.double({ min: 0.001, max: 2, noNaN: true }),
          fc.nat(3),
        ),
        { minLength: 1, maxLength: 12 },
      ),
      numbers(n, -1, 1),
      (variances, steps, along) => {
        let belief: Belief = {
          mean: [0, 0, 0, 0],
          cov: variances.flatMap((v, i) => variances.map((_, j) => (i === j ? v : 0))),
        };
        for (const [slopes, seen, variance, place] of steps) {
          const pairs = slopes.map((slope, i) => [i, slope] as const);
          belief = hear(belief, { slopes: pairs, expected: 0, seen, variance }, [
            { places: [0, 1], most: 0.05 },
          ]).belief;
          belief = carry(belief, place, { value: 0.1, slopes: pairs, variance });
          belief = forget(addDoubt(belief, place, 0.01), 3, [0.01, 0, 0.01, 0], [4, 4, 4, 4]);
        }
        expect(
          varianceAlong(
            belief,
            along.map((slope, i) => [i, slope] as const),
          ),
        ).toBeGreaterThan(-1e-9);
        expect(varianceAlong(setAnew(belief, 2, 0, 0.3), [[2, 1]])).toBeCloseTo(0.3, 12);
      },
    ),
    { numRuns: 200 },
  );
});

test("forgetting moves no middle and stops at what was held before anything was seen", () => {
  const old = forget(one(0.3, 0.01), 10_000, [0.001], [0.04]);
  expect(old.mean[0]).toBe(0.3);
  expect(old.cov[0]).toBe(0.04);
});
