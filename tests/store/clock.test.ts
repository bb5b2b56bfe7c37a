import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isStamp, laterStamp, msOfStamp, nextStamp, type Stamp } from "../../src/store/clock.js";

const anyMs = () => fc.integer({ min: 0, max: 4_102_444_800_000 });

// Source of the rules: Kulkarni, Demirbas et al. (2014), Logical Physical Clocks: order is kept, the clock follows the greatest time met
describe("the clock", () => {
  test("never goes back, whatever the phone's clock does", () => {
    fc.assert(
      fc.property(fc.array(anyMs(), { minLength: 2, maxLength: 50 }), (walls) => {
        let last: Stamp | null = null;
        for (const wallMs of walls) {
          const next: Stamp = nextStamp(last, wallMs, "phone1");
          expect(isStamp(next)).toBe(true);
          if (last !== null) expect(next > last).toBe(true);
          expect(msOfStamp(next)).toBeGreaterThanOrEqual(wallMs);
          last = next;
        }
      }),
    );
  });

  test("follows a stamp from a clock that is 400 days ahead, and goes on from there", () => {
    const ahead = nextStamp(null, 1.8e12 + 400 * 86_400_000, "other1");
    const next = nextStamp(laterStamp(nextStamp(null, 1.8e12, "phone1"), ahead), 1.8e12 + 1, "phone1");
    expect(next > ahead).toBe(true);
    expect(next.endsWith("phone1")).toBe(true);
  });

  test("gives a hundred thousand stamps within one frozen millisecond, all later than the last", () => {
    let last = nextStamp(null, 1.8e12, "a");
    for (let i = 0; i < 100_000; i++) {
      const next = nextStamp(last, 1.8e12, "a");
      if (!(next > last)) throw new Error(`${next} after ${last}`);
      last = next;
    }
    expect(msOfStamp(last)).toBeLessThan(1.8e12 + 10);
  });

  test("compares as text for any two times", () => {
    fc.assert(
      fc.property(anyMs(), anyMs(), (a, b) => {
        expect(nextStamp(null, a, "z") < nextStamp(null, b, "a")).toBe(a < b || (a === b && "z" < "a"));
      }),
    );
  });

  test("a clock that is no number at all still gives stamps", () => {
    expect(isStamp(nextStamp(null, Number.NaN, "a"))).toBe(true);
    expect(isStamp("")).toBe(false);
    expect(isStamp(null)).toBe(false);
  });
});
