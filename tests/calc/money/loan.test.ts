import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  annuityFactor,
  type LoanTerms,
  levelPayment,
  loanCosts,
  loanOutlives,
  loanPlan,
  monthsLater,
  yearlyRates,
} from "../../../src/calc/money/index.js";

const base: LoanTerms = {
  principalMinor: 10_000_000,
  ratePerYear: 0.12,
  payments: 24,
  every: "month",
  startDate: "2027-01-31",
  firstDue: "2027-02-28",
  method: "reducing",
  feeMinor: 0,
  instalmentMinor: null,
};
const planOf = (terms: Partial<LoanTerms>) => {
  const plan = loanPlan({ ...base, ...terms });
  if (!plan.ok) throw new Error(plan.problems.map(({ code }) => code).join());
  return plan.value;
};

describe("instalments against published values", () => {
  test("payment functions of two manuals", () => {
    expect(levelPayment(200_000, 0.075 / 12, 180)).toBeCloseTo(1854.0247200054619, 8); // numpy-financial, pmt
    expect(levelPayment(10_000, 0.08 / 12, 10)).toBeCloseTo(1037.03, 2); // a spreadsheet vendor's PMT (from memory)
  });
  test("annuity tables of Brealey and Myers, and rate 0", () => {
    expect(annuityFactor(0.1, 5)).toBeCloseTo(3.791, 3);
    expect(annuityFactor(0.15, 4)).toBeCloseTo(2.855, 3);
    expect(annuityFactor(0, 7)).toBe(7);
  });
  test("2,500 at 8.24 % over twelve months, line by line (numpy-financial manual, ipmt; from memory)", () => {
    const principal = [200.58, 201.96, 203.35, 204.74, 206.15, 207.56, 208.99, 210.42, 211.87, 213.32, 214.79, 216.26];
    const interest = [17.17, 15.79, 14.4, 13.01, 11.6, 10.18, 8.76, 7.32, 5.88, 4.42, 2.96, 1.49];
    const plan = planOf({ principalMinor: 250_000, ratePerYear: 0.0824, payments: 12 });
    for (const [i, each] of plan.instalments.entries()) {
      expect(Math.abs(each.principalMinor / 100 - (principal[i] ?? 0))).toBeLessThan(0.03);
      expect(Math.abs(each.interestMinor / 100 - (interest[i] ?? 0))).toBeLessThan(0.011);
    }
    expect(plan.totalInterestMinor / 100).toBeCloseTo(112.98, 1);
  });
  test("a flat 12 % over a year is a true nominal 21.46 % (numpy.roots 2.4: 1.7881 % a month)", () => {
    const plan = planOf({ payments: 12, method: "flat" });
    expect(plan.totalInterestMinor).toBe(1_200_000);
    const flows = plan.instalments.map(({ amountMinor }) => -amountMinor);
    expect(yearlyRates([base.principalMinor, ...flows]).ratesPerYear[0]).toBeCloseTo(0.017880987, 6);
    expect(plan.trueRatePerYear).toBeGreaterThan(0.2146);
  });
});

test("every instalment is interest and principal, the principals are the loan, the last takes up the rounding", () => {
  const loans = fc.record({
    principalMinor: fc.integer({ min: 10_000, max: 1e9 }),
    ratePerYear: fc.double({ min: 0, max: 0.6, noNaN: true }),
    payments: fc.integer({ min: 1, max: 400 }),
    every: fc.constantFrom("month", "twoWeeks", "week", "day"),
    method: fc.constantFrom("reducing", "reducingByDays", "flat"),
  });
  fc.assert(
    fc.property(loans, (terms) => {
      const { instalments, levelMinor, totalInterestMinor } = planOf(terms as Partial<LoanTerms>);
      const sum = (pick: "amountMinor" | "interestMinor" | "principalMinor") =>
        instalments.reduce((total, each) => total + each[pick], 0);
      expect(sum("principalMinor")).toBe(terms.principalMinor);
      expect(sum("amountMinor")).toBe(terms.principalMinor + totalInterestMinor);
      expect(instalments.at(-1)?.leftMinor).toBe(0);
      for (const each of instalments.slice(0, -1)) expect(each.amountMinor).toBe(levelMinor);
    }),
    { seed: 75, numRuns: 300 },
  );
});

describe("real dates", () => {
  test("a loan due on the 31st falls on each month's last day and comes back to the 31st", () => {
    const dues = planOf({ startDate: "2026-12-31", firstDue: "2027-01-31", payments: 5 }).instalments.map((i) => i.due);
    expect(dues).toEqual(["2027-01-31", "2027-02-28", "2027-03-31", "2027-04-30", "2027-05-31"]);
    expect(monthsLater("2028-01-31", 1)).toBe("2028-02-29");
  });
  test("by real days a longer month costs more interest: 31 days of 12 % on 1,000 are 10.19", () => {
    const plan = planOf({
      principalMinor: 100_000,
      method: "reducingByDays",
      startDate: "2027-01-01",
      firstDue: "2027-02-01",
    });
    expect(plan.instalments[0]?.interestMinor).toBe(1019); // 100000 * 0.12 * 31 / 365 = 1019.18
  });
  test("each instalment is a cost of the days it pays for, without gap or overlap", () => {
    const plan = planOf({ payments: 3 });
    expect(loanCosts(plan, base.startDate, "INR").map(({ from, to }) => [from, to])).toEqual([
      ["2027-02-01", "2027-02-28"],
      ["2027-03-01", "2027-03-28"],
      ["2027-03-29", "2027-04-28"],
    ]);
  });
});

describe("what is wrong with a loan, and where", () => {
  const code = (terms: Partial<LoanTerms>) => {
    const plan = loanPlan({ ...base, ...terms });
    return plan.ok ? "fine" : plan.problems.map((problem) => `${problem.code} ${problem.where}`).join();
  };
  test("each bad figure by name", () => {
    expect(code({ principalMinor: 0 })).toBe("loanAmount principalMinor");
    expect(code({ principalMinor: 10.5 })).toBe("loanAmount principalMinor");
    expect(code({ ratePerYear: 12 })).toBe("loanRate ratePerYear");
    expect(code({ payments: 0 })).toBe("loanTerm payments");
    expect(code({ firstDue: "2027-01-01" })).toBe("loanDates firstDue");
  });
  test("an instalment that leaves most of the loan to the last one is refused: 12 % on 100,000 is 1,000 a month", () => {
    expect(code({ instalmentMinor: 99_999 })).toBe("instalmentTooSmall instalmentMinor");
    expect(code({ instalmentMinor: 470_000 })).toBe("fine");
  });
  test("a large instalment ends the loan early", () => {
    expect(planOf({ instalmentMinor: 5_000_000 }).instalments.length).toBe(3);
  });
  test("a loan longer than the vehicle lives is warned of with both dates", () => {
    const plan = planOf({ payments: 60 });
    expect(loanOutlives(plan, base.startDate, 4)).toEqual({
      code: "loanOutlivesVehicle",
      where: "payments",
      figures: { ends: "2032-01-28", wornOut: "2031-01-31" },
    });
    expect(loanOutlives(plan, base.startDate, 5)).toBeNull();
  });
  test("a fee kept back makes the true rate dearer", () => {
    const dear = planOf({ feeMinor: 300_000 }).trueRatePerYear ?? 0;
    expect(dear).toBeGreaterThan((planOf({}).trueRatePerYear ?? 1) + 0.02);
  });
});
