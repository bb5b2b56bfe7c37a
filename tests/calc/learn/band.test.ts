import { expect, test } from "vitest";
import { bandScale } from "../../../src/calc/learn/doubt.js";
import { worldDice } from "../../replay/world.js";

const normals = (count: number, sd: number, seed: number): number[] => {
  const dice = worldDice(seed);
  return Array.from({ length: count }, () => sd * dice.normal());
};

test("no misses, no change; few misses, little change", () => {
  expect(bandScale([])).toBe(1);
  expect(bandScale([3, -3])).toBeLessThan(1.2);
});

// A band that is k times too narrow is to be widened by k: the quantiles of a normal distribution scale with its spread.
test.each([1, 1.4, 1.8])("misses %d times as wide as said widen the band by that", (k) => {
  const many = normals(60, k, 5)
    .concat(normals(60, k, 6))
    .slice(-60);
  const scale = bandScale(many);
  const aim = (60 * k + 20) / 80; // the honest band counts for twenty days
  expect(scale).toBeGreaterThan(aim * 0.82);
  expect(scale).toBeLessThan(aim * 1.22);
});

// Smallest to largest of n past errors covers (n-1)/(n+1): anchors A6, split-conformal bands (Vovk, Gammerman and Shafer 2005).
test("heavy-tailed misses: the re-fitted 80 % band holds 78 to 84 % of 4000 later days, the plain one fewer", () => {
  const dice = worldDice(11);
  const heavy = () => (dice.chance(0.15) ? 3.2 : 1.15) * dice.normal();
  let misses: number[] = [];
  let [inside, plain] = [0, 0];
  for (let i = 0; i < 4000; i++) {
    const z = heavy();
    if (Math.abs(z) < 1.2816 * bandScale(misses)) inside++;
    if (Math.abs(z) < 1.2816) plain++;
    misses = [...misses, z].slice(-60);
  }
  expect(plain / 4000).toBeLessThan(0.72);
  expect(inside / 4000).toBeGreaterThan(0.76);
  expect(inside / 4000).toBeLessThan(0.84);
});
