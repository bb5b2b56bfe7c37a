import fc from "fast-check";
import { expect, test } from "vitest";
import { allocate, evenShare, toMinor } from "../../../src/calc/money/index.js";

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

test("halves go away from zero, also where the binary product falls short of them", () => {
  // 1.005 * 100 is 100.49999999999999 in binary, 100.5 in decimals.
  expect([toMinor(1.005 * 100), toMinor(-1.005 * 100), toMinor(0.5), toMinor(-0.5), toMinor(2.4999)]).toEqual([
    101, -101, 1, -1, 2,
  ]);
  expect(Object.is(toMinor(-0.2), 0)).toBe(true);
  expect(() => toMinor(2 ** 54)).toThrow(RangeError);
  expect(() => toMinor(Number.NaN)).toThrow(RangeError);
});

test("largest remainders, by the textbook election of ten seats", () => {
  // Votes and Hare-quota seats as in the common textbook table of the method (from memory): 5, 2, 1, 1, 1, 0.
  expect(allocate(10, [47_000, 16_000, 15_800, 12_000, 6_100, 3_100])).toEqual([5, 2, 1, 1, 1, 0]);
});

test("shares close exactly whatever the weights, differ from the even share by less than a coin, and keep the sign", () => {
  const weights = fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(fc.integer({ min: -1e12, max: 1e12 }), weights, (amount, list) => {
      const shares = allocate(amount, list);
      expect(total(shares)).toBe(amount);
      expect(shares.every(Number.isInteger)).toBe(true);
      const sum = total(list);
      for (const [i, share] of shares.entries()) {
        const exact = sum > 0 ? (amount * (list[i] ?? 0)) / sum : amount / list.length;
        expect(Math.abs(share - exact)).toBeLessThanOrEqual(1 + 1e-3);
      }
    }),
    { seed: 71, numRuns: 500 },
  );
});

test("nothing to share it among takes nothing", () => {
  expect(allocate(100, [])).toEqual([]);
  expect(allocate(7, [0, 0, 0])).toEqual([3, 2, 2]);
});

test("an even spread closes exactly and no two days differ by more than a coin", () => {
  fc.assert(
    fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 1, max: 400 }), (amount, parts) => {
      const shares = Array.from({ length: parts }, (_, i) => evenShare(amount, parts, i));
      expect(total(shares)).toBe(amount);
      expect(Math.max(...shares) - Math.min(...shares)).toBeLessThanOrEqual(1);
    }),
    { seed: 72, numRuns: 300 },
  );
  expect(() => evenShare(10, 3, 3)).toThrow(RangeError);
});
