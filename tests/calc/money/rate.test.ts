import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { daysFrom, netPresentValue, presentValue, ratesOfReturn, yearlyRates } from "../../../src/calc/money/index.js";

const only = (flows: readonly number[]) => {
  const { code, ratesPerYear } = yearlyRates(flows);
  expect(code).toBe("one");
  return ratesPerYear[0] as number;
};

describe("rates of return against published values", () => {
  test("the numpy-financial manual, irr (after Gitman, Principles of Managerial Finance)", () => {
    expect(only([-100, 39, 59, 55, 20])).toBeCloseTo(0.28095, 5);
    expect(only([-100, 0, 0, 74])).toBeCloseTo(-0.0955, 4);
    expect(only([-100, 100, 0, 7])).toBeCloseTo(0.06206, 5);
    expect(only([-250000, 100000, 150000, 200000, 250000, 300000])).toBeCloseTo(0.5672303344358536, 12);
  });
  test("the manual's two flows with more sign changes: its rate is among several, and that is said", () => {
    // The further zeros are roots of the same polynomials by numpy.roots 2.4.
    const loss = yearlyRates([-100, 100, 0, -7]);
    expect(loss.code).toBe("several");
    expect(loss.ratesPerYear[0]).toBeCloseTo(-0.67889, 5);
    expect(loss.ratesPerYear[1]).toBeCloseTo(-0.0833, 4);
    const three = yearlyRates([-5, 10.5, 1, -8, 1]);
    expect(three.ratesPerYear.map((rate) => Math.round(rate * 1e4) / 1e4)).toEqual([-0.8702, 0.0886, 0.7096]);
  });
  test("a spreadsheet vendor's manual: IRR and XIRR", () => {
    // 70,000 out, then 12,000 to 26,000 a year: 8.66 % after five years, -2.12 % after four (from memory).
    expect(only([-70_000, 12_000, 15_000, 18_000, 21_000, 26_000])).toBeCloseTo(0.0866, 4);
    expect(only([-70_000, 12_000, 15_000, 18_000, 21_000])).toBeCloseTo(-0.0212, 4);
    const dated: readonly (readonly [string, number])[] = [
      ["2008-01-01", -10_000],
      ["2008-03-01", 2750],
      ["2008-10-30", 4250],
      ["2009-02-15", 3250],
      ["2009-04-01", 2750],
    ];
    const flows = dated.map(([date, amount]) => ({ atYears: daysFrom("2008-01-01", date) / 365, amount }));
    expect(ratesOfReturn(flows).ratesPerYear[0]).toBeCloseTo(0.373362535, 8); // XIRR, seen
    expect(presentValue(0.09, flows)).toBeCloseTo(2086.647602, 5); // XNPV, from memory
  });
  test("Brealey and Myers (from memory): 25 % and 400 %, and flows without any rate", () => {
    const two = yearlyRates([-4000, 25_000, -25_000]);
    expect(two.code).toBe("several");
    expect(two.ratesPerYear[0]).toBeCloseTo(0.25, 9);
    expect(two.ratesPerYear[1]).toBeCloseTo(4, 9);
    expect(yearlyRates([1000, -3000, 2500])).toMatchObject({ code: "none", ratesPerYear: [], signChanges: 2 });
  });
  test("12 CFR 1026 appendix J (c): yearly rates of loans with equal, odd first and odd last payments", () => {
    const yearly = (payments: readonly number[]) => 12 * only([5000, ...payments.map((payment) => -payment)]);
    const level = (count: number) => Array.from({ length: count }, () => 230);
    expect(yearly(level(24))).toBeCloseTo(0.0969, 4); // (1)(i)
    expect(yearly([250, ...level(23)])).toBeCloseTo(0.1008, 4); // (2)(i)
    expect(yearly([...level(23), 280])).toBeCloseTo(0.105, 4); // (3)(i)
    expect(yearly([250, ...level(22), 280])).toBeCloseTo(0.109, 4); // (4)(i)
  });
});

test("a purchase with a new set half way: one rate of gain among several zeros, told by the sum of the flows (Norstrom's rule)", () => {
  // Zeros of -100 + 80x - 30x^2 + 80x^3 + 80x^4 - 5x^5 by numpy.roots 2.4, as rates: -0.94092 and 0.33938.
  const bought = yearlyRates([-100, 80, -30, 80, 80, -5]);
  expect([bought.code, bought.signChanges]).toEqual(["several", 4]);
  expect(bought.ratesPerYear[0]).toBeCloseTo(-0.94092, 5);
  expect(bought.theRate).toBeCloseTo(0.339377705, 8);
  expect(yearlyRates([-4000, 25_000, -25_000]).theRate).toBeNull();
  expect(yearlyRates([-100, 39, 59, 55, 20]).theRate).toBeCloseTo(0.28095, 5);
});

test("flows that all go one way have no rate", () => {
  expect(yearlyRates([-1, -2]).code).toBe("oneSign");
  expect(yearlyRates([5]).code).toBe("oneSign");
  expect(yearlyRates([]).code).toBe("oneSign");
  expect(yearlyRates([0, 0]).code).toBe("oneSign");
});

test("a rate that is only touched counts once: (x - 1.1)^2 has the double zero 10 %", () => {
  const { ratesPerYear } = yearlyRates([1, -2.2, 1.21]);
  expect(ratesPerYear.length).toBe(1);
  expect(ratesPerYear[0]).toBeCloseTo(0.1, 5);
});

test("flows built from chosen rates give exactly those rates back", () => {
  // A product of (1 + rate) - x terms: the polynomial's zeros are known beforehand.
  const rates = fc.uniqueArray(fc.integer({ min: -8, max: 40 }), { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(rates, (tenths) => {
      const wanted = tenths.map((tenth) => tenth / 10).sort((a, b) => a - b);
      let flows = [1];
      for (const rate of wanted) {
        const next = Array.from({ length: flows.length + 1 }, () => 0);
        for (const [i, flow] of flows.entries()) {
          next[i] = (next[i] ?? 0) - flow;
          next[i + 1] = (next[i + 1] ?? 0) + flow * (1 + rate);
        }
        flows = next;
      }
      const found = yearlyRates(flows).ratesPerYear;
      expect(found.length).toBe(wanted.length);
      for (const [i, rate] of wanted.entries()) expect(found[i]).toBeCloseTo(rate, 6);
    }),
    { seed: 73, numRuns: 300 },
  );
});

test("at every rate found the flows are worth nothing, over 40 years too", () => {
  const flow = fc.integer({ min: -5000, max: 5000 });
  fc.assert(
    fc.property(fc.array(flow, { minLength: 2, maxLength: 40 }), (flows) => {
      for (const rate of yearlyRates(flows).ratesPerYear) {
        const size = netPresentValue(rate, flows.map(Math.abs));
        expect(Math.abs(netPresentValue(rate, flows)) / size).toBeLessThan(1e-6);
      }
    }),
    { seed: 74, numRuns: 300 },
  );
});
