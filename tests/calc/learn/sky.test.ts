import { expect, test } from "vitest";
import {
  coverSpread,
  dayTogether,
  learnGain,
  learnScatter,
  learnSky,
  newPlaceSky,
  type PlaceSky,
  skyFromMeters,
  skyGain,
  skyOfDay,
  steadier,
  type ThreeSkies,
  threeOf,
  usualSky,
  yesterdayShare,
} from "../../../src/calc/learn/sky.js";
import { cloudFactor, coverOf, DAY_TOGETHER, SKY_CHANCES } from "../../../src/calc/sun/index.js";
import { plusDays } from "../../../src/units/zone.js";
import { worldDice } from "../../replay/world.js";

const BRIGHT = threeOf("bright");
const DARK = threeOf("dark");
const FROM = "2026-01-01";

/** A chain of bright and dark days that stays as it is with chance `stays`, else is drawn anew. */
function chain(stays: number, shareBright: number, days: number, seed: number): PlaceSky {
  const dice = worldDice(seed);
  let place = newPlaceSky("y");
  let today: ThreeSkies = BRIGHT;
  for (let d = 0; d < days; d++) {
    if (!dice.chance(stays)) today = dice.chance(shareBright) ? BRIGHT : DARK;
    place = learnSky(place, plusDays(FROM, d), today, null);
  }
  return place;
}

test("yesterday's share starts at a third (anchors A1: best mix 0.33 and 0.67 at De Bilt)", () => {
  expect(yesterdayShare(newPlaceSky("y"))).toBeCloseTo(0.33, 9);
});

// Such a chain's correlation from one day to the next is its chance to stay: second eigenvalue of the matrix, Grinstead and Snell, ch. 11.
test.each([0, 0.3, 0.6])("yesterday's share is learned: days that stay with %d", (stays) => {
  const learned = [1, 2, 3].map((seed) => yesterdayShare(chain(stays, 0.6, 500, seed)));
  expect(learned.reduce((a, b) => a + b, 0) / 3).toBeGreaterThan(stays - 0.12);
  expect(learned.reduce((a, b) => a + b, 0) / 3).toBeLessThan(stays + 0.13);
});

test("the usual sky follows what was seen, and what was typed where little was seen", () => {
  const seen = usualSky(chain(0, 0.75, 200, 4), 6, null);
  expect(seen[0]).toBeGreaterThan(0.6);
  expect(seen[1]).toBeLessThan(0.1);
  const typed = usualSky(newPlaceSky("y"), 6, { bright: 0.2, mixed: 0.3, dark: 0.5 });
  expect(typed.map((share) => Math.round(share * 1e9) / 1e9)).toEqual([0.2, 0.3, 0.5]);
});

test("never silently clear: with nothing known all three are equally likely, and yesterday fades over a gap", () => {
  const empty = skyOfDay(newPlaceSky("y"), "2026-05-01", null);
  expect(empty.bright).toBeCloseTo(1 / 3, 9);
  const place = learnSky(newPlaceSky("y"), "2026-05-01", DARK, null);
  const next = skyOfDay(place, "2026-05-02", null);
  const later = skyOfDay(place, "2026-05-12", null);
  expect(next.dark).toBeGreaterThan(later.dark);
  expect(next.bright + next.mixed + next.dark).toBeCloseTo(1, 9);
});

test("a day that comes twice or late is not counted twice", () => {
  const place = learnSky(newPlaceSky("y"), "2026-05-02", DARK, null);
  expect(learnSky(place, "2026-05-02", BRIGHT, null)).toBe(place);
  expect(learnSky(place, "2026-05-01", BRIGHT, null)).toBe(place);
});

// Bayes' rule with equal spreads: odds of two words are exp of half the difference of squared distances, times the odds before.
test("a meter tells the words apart by Bayes' rule", () => {
  const meter = { seenWh: 900, expectedWh: [1000, 700, 400] as const, scatter: [0.1, 1 / 7, 0.25] as const };
  const [bright, mixed] = skyFromMeters([0.5, 0.5, 0], [meter]);
  expect(bright / mixed).toBeCloseTo(Math.exp((4 - 1) / 2), 6);
  expect(skyFromMeters([0.2, 0.3, 0.5], [])[2]).toBeCloseTo(0.5, 9);
});

test("a word that always promises a fifth too much is corrected, and followed when the habit changes", () => {
  let place = newPlaceSky("y");
  for (let i = 0; i < 60; i++) place = learnGain(place, "bright", -0.2);
  expect(skyGain(place, "bright")).toBeLessThan(0.87);
  expect(skyGain(place, "dark")).toBe(1);
  for (let i = 0; i < 90; i++) place = learnGain(place, "bright", 0.1);
  expect(skyGain(place, "bright")).toBeGreaterThan(1.03);
});

test("hours hang together as much, and covers vary as little, as the days' sun scatters", () => {
  expect(dayTogether(newPlaceSky("y"))).toBeCloseTo(DAY_TOGETHER, 9);
  expect(coverSpread(newPlaceSky("y"))).toBeCloseTo(1, 9);
  const after = (z: number) =>
    Array.from({ length: 200 }, (_, i) => (i % 2 === 0 ? z : -z)).reduce(learnScatter, newPlaceSky("y"));
  // Misses of half and of a tenth more than the spread that is said, each day again: what is said follows until it fits.
  expect(coverSpread(after(0.5))).toBeLessThan(0.5);
  expect(dayTogether(after(0.5))).toBeCloseTo(DAY_TOGETHER, 9);
  expect(dayTogether(after(1.1))).toBeGreaterThan(DAY_TOGETHER);
  expect(coverSpread(after(1.1))).toBe(1);
});

// Law of total variance: a share of the spread and the rest at the mean keeps the mean and leaves that share of the variance.
test.each(["bright", "mixed", "dark"] as const)("a steadier %s hour brings the same light with less spread", (word) => {
  const of = (chances: readonly number[]) => {
    const mean = chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta), 0);
    const square = chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta) ** 2, 0);
    return { mean, variance: square - mean * mean };
  };
  const plain = coverOf(SKY_CHANCES[word]);
  const steady = steadier(plain, 0.4);
  expect(of(steady.chances).mean).toBeCloseTo(of(plain.chances).mean, 9);
  expect(of(steady.chances).variance / of(plain.chances).variance).toBeGreaterThan(0.39);
  // What whole oktas around a dark mean leave between them comes on top.
  expect(of(steady.chances).variance / of(plain.chances).variance).toBeLessThan(word === "dark" ? 0.75 : 0.5);
  expect(steadier(plain, 1)).toBe(plain);
});

test("what nobody said a word of has a gain of its own", () => {
  const place = Array.from({ length: 40 }).reduce<PlaceSky>((held) => learnGain(held, null, 0.3), newPlaceSky("y"));
  expect(skyGain(place, null)).toBeGreaterThan(1.15);
  expect(skyGain(place, "mixed")).toBe(1);
});
