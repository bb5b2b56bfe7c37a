import { describe, expect, test } from "vitest";
import { allIn, dayLine, dayLines, monthPack, valueOn } from "../../../src/calc/money/index.js";
import { reportOf } from "../../../src/records/export/money-report.js";
import type { Entry, PriceRecord } from "../../../src/records/index.js";
import { type MoneyCase, moneyTermsOf, tariffChange } from "../../../src/records/map/money.js";
import { dayLogsOf } from "../../../src/records/map/money-days.js";
import { examples } from "../examples.js";

const { yard, vehicle, baseline, price, setCost, fixedCost, loan, lease, standstill, kitCost } = examples;
const diesel: PriceRecord = { ...price, id: "p2", of: { kind: "fuel", fuel: "diesel", perUnitMinor: 10_900 } };
const given: MoneyCase = {
  yard,
  vehicle,
  vehicleIds: ["v1", "v2", "v3"],
  baselines: [baseline],
  prices: [diesel],
  setCosts: [setCost],
  fixedCosts: [],
  loans: [],
  leases: [],
  until: "2027-12-31",
};
const entry = (date: string, more: Partial<Entry> = {}): Entry => ({
  ...examples.entry,
  id: `v1/${date}`,
  date,
  odometerKm: null,
  km: 50,
  gridKwh: 5,
  paidMinor: null,
  pluggedAt: "23:30",
  ...more,
});
const logs = (entries: readonly Entry[], more: object = {}) =>
  dayLogsOf({ vehicle, entries, standstills: [], ...more });

describe("terms out of records", () => {
  test("the yard's tariff counts for every day as long as it was never changed", () => {
    const { terms, problems } = moneyTermsOf(given);
    expect(problems).toEqual([]);
    expect(valueOn(terms.tariff, "2020-01-01")).toMatchObject({
      kind: "bands",
      otherwisePerKwhMinor: 1000,
      currency: "BDT",
    });
    expect(valueOn(terms.tariff, "2020-01-01")?.bands[0]).toEqual({
      fromMinute: 1380,
      toMinute: 360,
      perKwhMinor: 700,
    });
  });
  test("a changed tariff is kept with its date, and the days before stay as they were", () => {
    const after = { ...yard, tariff: { ...yard.tariff, bands: [], otherwisePerKwhMinor: 2000 } };
    const kept = tariffChange(yard, after, { date: "2027-02-11", nowUtcMs: 1_802_300_000_000, hasDated: false });
    const { terms } = moneyTermsOf({ ...given, yard: after, prices: [diesel, ...kept] });
    const power = (date: string) => dayLine(logs([entry(date)]).logs[0] as never, terms).sums.power;
    expect([power("2027-02-10"), power("2027-02-11")]).toEqual([3500, 10_000]);
    expect(
      tariffChange(yard, { ...yard, name: "other" }, { date: "2027-02-11", nowUtcMs: 1, hasDated: false }),
    ).toEqual([]);
  });
  test("a price in a new currency changes the currency from its day", () => {
    const { terms } = moneyTermsOf({
      ...given,
      prices: [diesel, { ...diesel, id: "p3", from: "2027-06-01", currency: "USD" }],
    });
    expect([valueOn(terms.currency, "2027-05-31"), valueOn(terms.currency, "2027-06-01")]).toEqual(["BDT", "USD"]);
  });
  test("prices and baselines of other vehicles and yards do not come in", () => {
    const others = [
      { ...diesel, id: "p4", yardId: "y9", of: { ...diesel.of, perUnitMinor: 1 } } as PriceRecord,
      { ...diesel, id: "p5", vehicleId: "v9" },
    ];
    const { terms, problems } = moneyTermsOf({
      ...given,
      prices: others,
      baselines: [{ ...baseline, vehicleId: "v9" }],
    });
    expect(terms.fuelPrice).toEqual({});
    expect(problems.map(({ code }) => code)).toEqual(["baselineMissing"]);
  });
  test("price zero, an unknown currency and a loan that cannot be are told with their place", () => {
    const { problems } = moneyTermsOf({
      ...given,
      yard: { ...yard, currency: "XYZ" },
      prices: [{ ...diesel, of: { kind: "fuel", fuel: "diesel", perUnitMinor: 0 } }],
      loans: [{ ...loan, firstDue: "2026-01-01" }],
    });
    expect(problems.map(({ code, where }) => `${code} ${where}`)).toEqual([
      "currencyUnknown yard.currency",
      "priceZero prices.p2",
      "loanDates loans.l1.firstDue",
    ]);
  });
  test("rent of the yard is shared among its vehicles to the last coin; loan and lease come as instalments", () => {
    const shares = ["v1", "v2", "v3"].map((id) => {
      const { terms } = moneyTermsOf({
        ...given,
        vehicle: { ...vehicle, id },
        fixedCosts: [{ ...fixedCost, amountMinor: 1_000_000 }],
      });
      return terms.fixed[0]?.amountMinor ?? 0;
    });
    expect(shares).toEqual([333_334, 333_333, 333_333]);
    const { terms, loans } = moneyTermsOf({ ...given, loans: [loan], leases: [{ ...lease, to: "2027-03-31" }] });
    expect(loans[0]?.plan.instalments.length).toBe(24);
    expect(terms.fixed.filter((cost) => cost.amountMinor === 1_200_000).map(({ to }) => to)).toEqual([
      "2027-01-31",
      "2027-02-28",
      "2027-03-31",
    ]);
  });
  test("a yearly cost runs from its day to the day before the next year's", () => {
    const insurance = { ...fixedCost, vehicleId: "v1", cost: "insurance", every: "year", from: "2026-03-01" } as const;
    const { terms } = moneyTermsOf({ ...given, fixedCosts: [insurance] });
    expect(terms.fixed.map(({ from, to }) => [from, to])).toEqual([
      ["2026-03-01", "2027-02-28"],
      ["2027-03-01", "2028-02-29"],
    ]);
  });
});

describe("days out of entries", () => {
  test("km typed, or the odometer's step since the day before", () => {
    const { logs: found } = logs([
      entry("2027-02-09", { odometerKm: 1000 }),
      entry("2027-02-10", { odometerKm: 1052, km: null }),
      entry("2027-02-12", { odometerKm: 1150, km: null }),
    ]);
    expect(found.map(({ km, kmHow }) => [km, kmHow])).toEqual([
      [50, "typed"],
      [52, "odometer"],
      [null, "typed"],
    ]);
  });
  test("typed km that the odometer bears out count as read; far apart they are told", () => {
    const near = logs([entry("2027-02-09", { odometerKm: 1000 }), entry("2027-02-10", { odometerKm: 1051 })]);
    expect([near.logs[1]?.kmHow, near.problems]).toEqual(["odometer", []]);
    const far = logs([entry("2027-02-09", { odometerKm: 1000 }), entry("2027-02-10", { odometerKm: 1100 })]);
    expect(far.problems).toEqual([
      { code: "kmOdometerDiffer", where: "entries.v1/2027-02-10.km", figures: { km: 50, odometerKm: 100 } },
    ]);
    expect(far.logs[1]).toMatchObject({ km: 50, kmHow: "typed" });
  });
  test("units of the meter, of an estimate, money paid, none, and nobody knows", () => {
    const charges = (more: Partial<Entry>, estimates = new Map()) =>
      logs([entry("2027-02-10", more)], { estimates }).logs[0]?.charges;
    expect(charges({})).toMatchObject([{ kwh: 5, kwhHow: "meter", fromMinute: 1410 }]);
    expect(charges({ gridKwh: null }, new Map([["2027-02-10", { gridKwh: 4, sunKwh: null }]]))).toMatchObject([
      { kwh: 4, kwhHow: "estimated" },
    ]);
    expect(charges({ gridKwh: null, paidMinor: 9000 })).toMatchObject([{ kwh: null, paidMinor: 9000 }]);
    expect(charges({ gridKwh: 0 })).toEqual([]);
    expect(charges({ gridKwh: null, pluggedAt: null })).toBeNull();
  });
  test("the time on the plug is units over the charger's power at the meter", () => {
    const kw = vehicle.charger.ratedW / vehicle.charger.efficiency / 1000;
    const [charge] = logs([entry("2027-02-10", { gridKwh: kw * 2 })]).logs[0]?.charges ?? [];
    expect(charge?.toMinute).toBe((1410 + 120) % 1440);
  });
  test("sun typed from a counter is measured, sun worked out is estimated", () => {
    const sun = (more: Partial<Entry>, estimates = new Map()) =>
      logs([entry("2027-02-10", more)], { estimates }).logs[0]?.sun;
    expect(sun({ sunKwh: 1.1 })).toEqual({ kwh: 1.1, how: "measured" });
    expect(sun({ sunKwh: null }, new Map([["2027-02-10", { gridKwh: null, sunKwh: 0.9 }]]))).toEqual({
      kwh: 0.9,
      how: "estimated",
    });
    expect(sun({ sunKwh: null })).toBeNull();
  });
  test("a repair makes days off the road; a day worked within it stays a day worked", () => {
    const { logs: found } = logs([entry("2027-02-04"), entry("2027-02-06")], { standstills: [standstill] });
    expect(found.map(({ date, state }) => `${date} ${state}`)).toEqual([
      "2027-02-03 offRoad",
      "2027-02-04 worked",
      "2027-02-05 offRoad",
      "2027-02-06 worked",
    ]);
  });
  test("a day written in two parts, one a shift, is one day: km and charges of both", () => {
    const parts = logs([
      entry("2027-02-10", { id: "v1/2027-02-10/1", km: 30 }),
      entry("2027-02-10", { id: "v1/2027-02-10/2", km: 25, gridKwh: null, pluggedAt: null }),
    ]);
    expect(parts.problems).toEqual([]);
    expect(parts.logs).toMatchObject([{ km: 55, state: "worked", charges: [{ kwh: 5 }] }]);
  });
  test("a day entered twice is told and not counted twice", () => {
    const twice = logs([entry("2027-02-10"), entry("2027-02-10", { id: "v1/other", km: 70 })]);
    expect(twice.problems.map(({ code, where }) => `${code} ${where}`)).toEqual(["dayTwice days.2027-02-10"]);
    expect(twice.logs.length).toBe(1);
  });
});

describe("the one page for lender, cooperative or family", () => {
  const { terms, loans } = moneyTermsOf({ ...given, loans: [loan] });
  const entries = ["01", "02", "05", "06", "08"].map((n) => entry(`2027-02-${n}`));
  const found = logs([...entries, entry("2027-02-09", { gridKwh: null, pluggedAt: null })], {
    standstills: [standstill],
  }).logs;
  const lines = dayLines(found, terms, "2027-02-01", "2027-02-10");
  const report = reportOf({
    from: "2027-02-01",
    to: "2027-02-28",
    currency: "BDT",
    vehicles: [
      {
        plate: "01",
        lines,
        terms,
        baselines: [baseline],
        kit: [kitCost],
        loans: loans.map(({ record, plan }) => ({ lender: record.lender, plan })),
        payback: null,
      },
    ],
    chainHead: null,
  });
  test("its parts add up to the all-in line, which is the month's", () => {
    expect(report.parts.reduce((sum, { minor }) => sum + minor, 0)).toBe(report.allIn.likelyMinor);
    const pack = monthPack("v1", found, terms, { month: "2027-02", until: "2027-02-10" });
    expect(report.allIn.likelyMinor).toBe(allIn(pack.byCurrency[0]?.sums ?? report.sums));
    expect(report.allIn.lowMinor).toBeLessThan(report.allIn.likelyMinor);
  });
  test("gaps are listed as days with their reasons, never filled in", () => {
    expect(report.missing).toEqual([
      { plate: "01", from: "2027-02-07", to: "2027-02-07" },
      { plate: "01", from: "2027-02-10", to: "2027-02-10" },
    ]);
    expect(report.open).toEqual([{ plate: "01", from: "2027-02-09", to: "2027-02-09", gaps: ["chargeMissing"] }]);
    expect(report.offRoad).toEqual([{ plate: "01", from: "2027-02-03", to: "2027-02-04" }]);
  });
  test("baseline, price and date, loan and carbon factor stand on the page", () => {
    expect(report.baselines).toEqual([
      { plate: "01", from: "2027-01-01", fuel: "diesel", per100Km: 4, how: "receipts" },
    ]);
    expect(report.fuelPrices).toEqual([{ fuel: "diesel", from: "2027-01-01", perUnitMinor: 10_900 }]);
    expect(report.debts[0]).toMatchObject({ lender: "Savings group", ends: "2029-01-01" });
    expect(report.debts[0]?.leftMinor).toBe(loans[0]?.plan.instalments[0]?.leftMinor);
    expect(report.carbon).toMatchObject({
      days: 7, // five driven, two in repair
      factors: [{ country: "Bangladesh", year: "2022", source: "typed in" }],
    });
    expect(report.kitMinor).toBe(12_000_000);
  });
});
