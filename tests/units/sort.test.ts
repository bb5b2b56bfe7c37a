import fc from "fast-check";
import { expect, test } from "vitest";
import { sortSpread } from "../../src/units/sort.js";

const sorted = (values: readonly number[]) =>
  Array.from(sortSpread(Float64Array.from(values), new Float64Array(values.length)));

test("agrees with the language's own sort, for spread, heaped, equal, tiny and huge values", () => {
  const any = fc.oneof(
    fc.array(fc.double({ noNaN: true, noDefaultInfinity: true })),
    fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 300 }),
    fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 200, maxLength: 300 }),
    fc.array(fc.constantFrom(0, 1e-300, 1e300, -1e300, 5), { maxLength: 50 }),
  );
  fc.assert(
    fc.property(any, (values) => {
      const plain = values.map((value) => value + 0); // no negative zero: it equals zero
      expect(sorted(plain)).toEqual([...plain].sort((a, b) => a - b));
    }),
    { numRuns: 1000 },
  );
});

test("one value far from all others does not make it slow or wrong", () => {
  const heap = Array.from({ length: 300 }, (_, i) => ((i * 7919) % 301) / 1e6);
  expect(sorted([...heap, 1e9])).toEqual([...heap.toSorted((a, b) => a - b), 1e9]);
});
