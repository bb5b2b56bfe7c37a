import { describe, expect, test } from "vitest";
import { addSums, allIn, loanPlan } from "../../../src/calc/money/index.js";
import { type DemoName, demoFleets } from "../../../src/records/demo/index.js";
import { type ReportCase, reportOf } from "../../../src/records/export/money-report.js";
import type { Yard } from "../../../src/records/index.js";
import { moneyBookOf } from "../../../src/records/map/money-book.js";

const TODAY = "2027-02-09";
function reportCase(name: DemoName): ReportCase {
  const fleet = demoFleets[name](TODAY);
  const books = fleet.vehicles.map((vehicle) =>
    moneyBookOf({
      ...fleet,
      yard: fleet.yards[0] as Yard,
      vehicle,
      vehicleIds: fleet.vehicles.map(({ id }) => id),
      round: fleet.rounds.find(({ id }) => id === vehicle.usual.roundId) ?? null,
      today: TODAY,
      fill: false,
    }),
  );
  return {
    from: "2027-01-01",
    to: TODAY,
    currency: books[0]?.currency ?? "",
    chainHead: null,
    vehicles: books.map((book) => ({
      plate: book.vehicle.plate,
      lines: book.lines,
      terms: book.terms,
      baselines: fleet.baselines.filter(({ vehicleId }) => vehicleId === book.vehicle.id),
      kit: book.kit,
      loans: book.loans.map(({ record, plan }) => ({ lender: record.lender, plan })),
      payback: book.payback?.answer ?? null,
    })),
  };
}

describe.each(["quay", "stand", "cart"] as const)("the page of the %s", (name) => {
  const given = reportCase(name);
  const report = reportOf(given);
  test("its lines add up to what was saved, and that to the days of the log, to the last coin", () => {
    expect(report.parts.reduce((sum, { minor }) => sum + minor, 0)).toBe(report.allIn.likelyMinor);
    const days = given.vehicles.flatMap(({ lines }) => lines).filter(({ date }) => date <= report.to);
    expect(report.allIn.likelyMinor).toBe(allIn(addSums(days.map(({ sums }) => sums))));
  });
  test("every missing day stands in one of its spans", () => {
    const daysIn = ({ from, to }: { from: string; to: string }) => (Date.parse(to) - Date.parse(from)) / 86_400_000 + 1;
    expect(report.missing.reduce((sum, span) => sum + daysIn(span), 0)).toBe(report.sums.missingDays);
  });
  test("a shorter span counts fewer days, none outside of it", () => {
    const week = reportOf({ ...given, from: "2027-02-01", to: "2027-02-07" });
    expect(week.sums.days).toBe(7 * given.vehicles.length);
  });
});

test("every debt is told: the loans of a lender together, what is left when the last day's instalments are paid", () => {
  // numpy-financial manual, ipmt: of 2,500.00 at 8.24 % over twelve months 2,299.42 are left after one, 2,097.46 after two (from memory)
  const plan = loanPlan({
    principalMinor: 250_000,
    ratePerYear: 0.0824,
    payments: 12,
    every: "month",
    startDate: "2027-01-05",
    firstDue: "2027-02-05",
    method: "reducing",
    feeMinor: 0,
    instalmentMinor: null,
  });
  if (!plan.ok) throw new Error("the loan is refused");
  const owing = (lender: string) => ({ lender, plan: plan.value });
  const given = reportCase("stand");
  const debtsOn = (to: string) =>
    reportOf({
      ...given,
      to,
      vehicles: given.vehicles.map((vehicle, i) => ({ ...vehicle, loans: [owing(i < 3 ? "three" : "others")] })),
    }).debts;
  const others = given.vehicles.length - 3;
  expect(debtsOn("2027-02-04").map(({ leftMinor }) => leftMinor)).toEqual([3 * 250_000, others * 250_000]);
  const [three, rest] = debtsOn("2027-02-05");
  expect(three).toMatchObject({ lender: "three", loans: 3, ends: "2028-01-05" });
  expect(three?.leftMinor).toBeCloseTo(3 * 229_942, -1);
  expect(rest?.leftMinor).toBeCloseTo(others * 229_942, -1);
  expect((debtsOn("2027-03-05")[0]?.leftMinor ?? 0) / 3).toBeCloseTo(209_746, -1);
  expect(debtsOn("2028-01-05")[0]?.leftMinor).toBe(0);
});
