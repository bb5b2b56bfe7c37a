import { expect, test } from "vitest";
import {
  drawWords,
  PERSISTENCE,
  pick,
  sharesOf,
  strayed,
  tomorrow,
  YEARS_SD_LOG,
} from "../../../src/calc/sizing/sky-chain.js";
import { cloudFactor, SKY_CHANCES } from "../../../src/calc/sun/index.js";
import { diceOf, normalQuantile } from "../../../src/units/dice.js";

const SHARES = [0.5, 0.3, 0.2] as const;
const words = drawWords({ shares: [SHARES], monthOfDay: new Uint8Array(300_000), dice: diceOf(3), straySdLog: 0 });

// Elementary theory of Markov chains (Feller, An Introduction to Probability Theory, vol. 1, ch. XV).
test("in the long run the chain has the month's shares", () => {
  SHARES.forEach((share, word) => {
    const found = words.filter((w) => w === word).length / words.length;
    expect(Math.abs(found - share)).toBeLessThan(0.005);
  });
});

test("a day is like the one before by persistence, and forgets it by its powers", () => {
  const bright = Float64Array.from(words, (w) => (w === 0 ? 1 : 0) - SHARES[0]);
  for (const lag of [1, 2, 3]) {
    let sum = 0;
    for (let i = lag; i < bright.length; i++) sum += (bright[i] as number) * (bright[i - lag] as number);
    const correlation = sum / (bright.length - lag) / (SHARES[0] * (1 - SHARES[0]));
    expect(Math.abs(correlation - PERSISTENCE ** lag)).toBeLessThan(0.01);
  }
});

test("a run of dark days lasts 1 / (1 - chance of staying) on average", () => {
  const stay = tomorrow(SHARES, 2)[2] as number;
  expect(stay).toBeCloseTo(0.33 + 0.67 * 0.2, 12);
  let runs = 0;
  words.forEach((w, i) => {
    if (w === 2 && words[i - 1] !== 2) runs++;
  });
  expect(Math.abs(words.filter((w) => w === 2).length / runs - 1 / (1 - stay))).toBeLessThan(0.02);
});

test("shares and chances add to one, and nothing known means equal", () => {
  expect(sharesOf({ bright: 0, mixed: 0, dark: 0 })).toEqual([1 / 3, 1 / 3, 1 / 3]);
  expect(sharesOf({ bright: 3, mixed: 1, dark: 0 })).toEqual([0.75, 0.25, 0]);
  const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
  for (const stray of [-2, -0.3, 0, 1]) expect(sum(strayed(SHARES, stray))).toBeCloseTo(1, 12);
  for (const today of [0, 1, 2]) expect(sum(tomorrow(SHARES, today))).toBeCloseTo(1, 12);
  expect([0, 0.499, 0.5, 0.79, 0.8, 0.999].map((u) => pick(SHARES, u))).toEqual([0, 0, 1, 1, 2, 2]);
});

test("the sun of a month strays by about a tenth from year to year (common practice, no source)", () => {
  const meanOf = (word: "bright" | "mixed" | "dark") =>
    SKY_CHANCES[word].reduce((sum, c, okta) => sum + c * cloudFactor(okta), 0);
  const brings = [meanOf("bright"), meanOf("mixed"), meanOf("dark")];
  const dice = diceOf(5);
  const months = Array.from({ length: 4000 }, () => {
    const shares = strayed([1 / 3, 1 / 3, 1 / 3], YEARS_SD_LOG * normalQuantile(dice()));
    let sum = 0;
    for (let day = 0; day < 30; day++) sum += brings[pick(shares, dice())] as number;
    return sum / 30;
  });
  const mean = months.reduce((a, b) => a + b, 0) / months.length;
  const sd = Math.sqrt(months.reduce((sum, m) => sum + (m - mean) ** 2, 0) / months.length);
  expect(sd / mean).toBeGreaterThan(0.07);
  expect(sd / mean).toBeLessThan(0.16);
});
