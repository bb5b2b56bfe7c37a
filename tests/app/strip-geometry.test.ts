import * as fc from "fast-check";
import { expect, test } from "vitest";
import { flagSpot, frameOf, keptSide, type Point, STRIP_SIZES, thinned } from "../../src/app/parts/strip-geometry.js";
import { levelAt } from "../../src/app/parts/strip-model.js";
import { TODAY } from "./fixtures/today.js";

const heights = fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 2, maxLength: 400 });
const lineOf = (ys: readonly number[]): Point[] => ys.map((y, i) => [i, y]);
/** Height of a line at x, straight between its points (similar triangles). */
const heightAt = (line: readonly Point[], x: number): number =>
  levelAt(
    line.map(([px]) => px),
    line.map(([, py]) => py),
    x,
  );

test("a thinned line keeps its ends and never more than 60 points", () => {
  void fc.assert(
    fc.property(heights, (ys) => {
      const line = lineOf(ys);
      const left = thinned(line);
      expect(left.length).toBeLessThanOrEqual(60);
      expect(left[0]).toEqual(line[0]);
      expect(left.at(-1)).toEqual(line.at(-1));
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("thinning moves no point by more than a third of a pixel where 60 points are enough", () => {
  void fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 2, maxLength: 50 }), (ys) => {
      const line = lineOf(ys);
      const left = thinned(line);
      for (const [x, y] of line) expect(Math.abs(heightAt(left, x) - y)).toBeLessThanOrEqual(0.35 + 1e-9);
    }),
    { seed: 8, numRuns: 200 },
  );
});

test("the part above the line never crosses it, and meets it where the line is crossed", () => {
  void fc.assert(
    fc.property(heights, fc.double({ min: 1, max: 299, noNaN: true }), (ys, edge) => {
      const line = lineOf(ys);
      const above = keptSide(line, edge, "above");
      for (const [x, y] of above) {
        expect(y).toBeLessThanOrEqual(edge);
        expect(y).toBeCloseTo(Math.min(edge, heightAt(line, x)), 6);
      }
    }),
    { seed: 9, numRuns: 200 },
  );
});

test("both sides of the line together are the whole line", () => {
  const line: Point[] = [
    [0, 10],
    [10, 30],
    [20, 10],
  ];
  // By similar triangles a fall of 20 over 10 crosses 20 half way, at 5 and at 15.
  expect(keptSide(line, 20, "above")).toEqual([
    [0, 10],
    [5, 20],
    [10, 20],
    [15, 20],
    [20, 10],
  ]);
  expect(keptSide(line, 20, "below")).toEqual([
    [0, 20],
    [5, 20],
    [10, 30],
    [15, 20],
    [20, 20],
  ]);
});

test.each(Object.keys(TODAY))(
  "on the day '%s' full charge is the top of the lane and the worst guess is on it",
  (name) => {
    const strip = TODAY[name]?.strip;
    if (!strip) throw new Error(`No strip for ${name}`);
    const size = STRIP_SIZES.card;
    const frame = frameOf(strip, size, 360);
    expect(frame.y(1)).toBeCloseTo(frame.levelTop, 9);
    expect(frame.y(strip.reserve)).toBeCloseTo(frame.lineY, 9);
    expect(frame.lineY).toBeLessThanOrEqual(frame.levelBottom - 0.14 * size.level);
    const worst = Math.min(...strip.low);
    if (strip.known && worst > strip.reserve - 0.5) expect(frame.y(worst)).toBeLessThanOrEqual(frame.levelBottom);
    expect(frame.x(strip.fromH)).toBeCloseTo(size.side, 9);
    expect(frame.x(strip.toH)).toBeCloseTo(360 - size.side, 9);
  },
);

test("the words at the lowest hour never stand on words that are already there", () => {
  const strip = TODAY.enough?.strip;
  if (!strip?.lowest) throw new Error("The day has no lowest hour");
  const size = STRIP_SIZES.card;
  const frame = frameOf(strip, size, 360);
  const ask = { model: strip, frame, size, x: frame.x(strip.lowest.hour), wide: 90, tall: 35 };
  const free = flagSpot({ ...ask, avoid: null });
  expect(free?.clear).toBe(true);
  const taken = { left: 0, right: 360, top: 0, bottom: frame.lineY };
  expect(flagSpot({ ...ask, avoid: taken })).toBeNull();
  const flat = { ...size, level: 40 }; // neither clear ground nor mass enough
  expect(flagSpot({ ...ask, size: flat, frame: frameOf(strip, flat, 360), avoid: null })).toBeNull();
});
