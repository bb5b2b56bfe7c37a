import { describe, expect, test } from "vitest";
import { addSums, allIn, energyOnly } from "../../../src/calc/money/index.js";
import { type DemoName, demoFleets } from "../../../src/records/demo/index.js";
import type { Vehicle, Yard } from "../../../src/records/index.js";
import { type BookCase, moneyBookOf } from "../../../src/records/map/money-book.js";
import { examples } from "../examples.js";

const TODAY = "2027-02-09";
function caseOf(name: DemoName, index = 0): BookCase {
  const fleet = demoFleets[name](TODAY);
  const vehicle = fleet.vehicles[index] as Vehicle;
  return {
    ...fleet,
    yard: fleet.yards[0] as Yard,
    vehicle,
    vehicleIds: fleet.vehicles.map(({ id }) => id),
    round: fleet.rounds.find(({ id }) => id === vehicle.usual.roundId) ?? null,
    today: TODAY,
    fill: false,
  };
}
const cases = (["quay", "stand", "cart"] as const).flatMap((name) =>
  demoFleets[name](TODAY).vehicles.map((vehicle, i) => ({ name: `${name} ${vehicle.plate}`, given: caseOf(name, i) })),
);

describe("the invented fleets", () => {
  test.each(cases)("$name has a book without gaps in its prices, and an answer on payback", ({ given }) => {
    const book = moneyBookOf(given);
    expect(book.problems).toEqual([]);
    expect(book.lines.length).toBeGreaterThan(20);
    const sums = addSums(book.lines.map((line) => line.sums));
    expect(sums.openDays).toBe(0);
    expect(sums.countedDays + sums.missingDays).toBe(sums.days);
    expect(energyOnly(sums)).toBeGreaterThan(0);
    expect(sums.sunWh).toBe(0); // nobody read a counter: what is there is an estimate and stands apart
    expect(book.payback).not.toBeNull();
    expect(book.swings.length).toBe(8);
  });
  test("some pay and some do not, and the app says so", () => {
    const verdicts = new Set(cases.map(({ given }) => moneyBookOf(given).payback?.answer.verdict));
    expect(verdicts.has("doesNotPay")).toBe(true);
    expect(verdicts.has("pays") || verdicts.has("unsure")).toBe(true);
  });
});

describe("one book", () => {
  const given = caseOf("quay");
  const book = moneyBookOf(given);
  test("today stands in it only when it was written", () => {
    expect(book.lines.at(-1)?.date).toBe("2027-02-08");
    const written = moneyBookOf({
      ...given,
      entries: [...given.entries, { ...examples.entry, vehicleId: given.vehicle.id, id: "x", date: TODAY }],
    });
    expect(written.lines.at(-1)?.date).toBe(TODAY);
  });
  test("filling is a wish: the days are then marked, and the sum of fixed costs is the same", () => {
    const filled = addSums(moneyBookOf({ ...given, fill: true }).lines.map((line) => line.sums));
    const plain = addSums(book.lines.map((line) => line.sums));
    expect([plain.filledDays, filled.filledDays]).toEqual([0, plain.missingDays]);
    expect(filled.instalment).toBe(plain.instalment);
    expect(filled.fuelThen).toBeGreaterThan(plain.fuelThen);
  });
  test("saved so far leaves the instalments out, as the payback counts price and interest itself", () => {
    const own = addSums(book.lines.map((line) => line.sums));
    expect(book.payback?.of.savedMinor).toBe(allIn(own) + own.instalment);
    expect(book.payback?.of.priceMinor).toBe(book.kit[0]?.priceMinor);
  });
  test("without kit, baseline or days there is no payback but a reason", () => {
    expect(moneyBookOf({ ...given, kitCosts: [] }).payback).toBeNull();
    const bare = moneyBookOf({ ...given, baselines: [] });
    expect([bare.year.ok, bare.payback, bare.problems.map(({ code }) => code)]).toEqual([
      false,
      null,
      ["baselineMissing"],
    ]);
    const blank = moneyBookOf({ ...given, entries: [] });
    expect([blank.lines, blank.year.ok]).toEqual([[], false]);
  });
  test("a loan longer than the kit lives is told; a lease says how its month stands", () => {
    const loan = { ...examples.loan, vehicleId: given.vehicle.id, currency: "KES", payments: 120 };
    expect(moneyBookOf({ ...given, loans: [loan] }).problems.map(({ code, where }) => `${code} ${where}`)).toEqual([
      "loanOutlivesVehicle loans.l1.payments",
    ]);
    const lease = { ...examples.lease, vehicleId: given.vehicle.id, from: "2026-12-20", to: null, ceilingKm: 900 };
    expect(moneyBookOf({ ...given, leases: [lease] }).lease).toMatchObject({ code: "warn" });
  });
  test("a figure the owner gives for the years to come counts before the book's", () => {
    const plan = { ...examples.moneyPlan, vehicleId: given.vehicle.id, kmPerDay: 99, workDaysPerYear: 250 };
    const year = moneyBookOf({ ...given, moneyPlans: [plan] }).year;
    expect(year.ok && [year.value.terms.kmPerDay, year.value.terms.workDaysPerYear]).toEqual([99, 250]);
  });
});
