import { describe, expect, test } from "vitest";
import {
  allIn,
  always,
  type Dated,
  type DayLog,
  dayLine,
  energyOnly,
  inOrder,
  type Price,
  type Terms,
  valueOn,
} from "../../../src/calc/money/index.js";
import { day, nightTariff, terms } from "./fixture.js";

const line = (log: Partial<DayLog> = {}, more: Partial<Terms> = {}) =>
  dayLine({ ...day, ...log }, { ...terms, ...more });

describe("a day worked out by hand", () => {
  const { sums, counted, gaps } = line();
  test("60 km at 4 l and 90.00: 2.4 l, 216.00; 6 units at 5.00: 30.00; saving on energy 186.00", () => {
    expect([counted, gaps]).toEqual([true, []]);
    expect([sums.fuelMl, sums.fuelThen, sums.power, energyOnly(sums)]).toEqual([2400, 21_600, 3000, 18_600]);
  });
  test("with the set put aside: 36,000.00 over 18,000 km is 2.00 a km, 120.00; upkeep 36.00 then, 15.00 now; 87.00 left", () => {
    expect([sums.setAside, sums.upkeepThen, sums.upkeepNow, allIn(sums)]).toEqual([12_000, 3600, 1500, 8700]);
  });
  test("low and high: km within 2 %, litres within 10 %, together 10.2 %; set 12,000 to 24,000 km", () => {
    const doubt = Math.hypot(0.02, 0.1);
    expect(sums.energyLow).toBe(Math.round(21_600 * (1 - doubt)) - 3000);
    expect(sums.energyHigh).toBe(Math.round(21_600 * (1 + doubt)) - 3000);
    expect(sums.allInLow).toBe(sums.energyLow + 2100 - 18_000);
    expect(sums.allInHigh).toBe(sums.energyHigh + 2100 - 9000);
  });
  test("sun: measured and estimated apart; 1.2 units spare 1.5 at the socket, at the day's mean price 7.667", () => {
    expect([sums.sunWh, sums.sunGuessWh, sums.sunWorth]).toEqual([0, 1200, 1150]);
    expect(line({ sun: { kwh: 1.2, how: "measured" } }).sums).toMatchObject({ sunWh: 1200, sunGuessWh: 0 });
  });
  test("carbon: 2.4 l of diesel by the 2006 IPCC defaults, 6 units by the Indian factor of 2024-25", () => {
    expect(sums.fuelCo2G).toBe(6424); // 2.4 l x 2.67649 kg
    expect(sums.gridCo2G).toBe(4270); // 6 x 0.7117 kg
    expect(line({}, { grid: [] }).sums).toMatchObject({ fuelCo2G: 0, carbonDays: 0 });
  });
});

describe("prices with dates", () => {
  const diesel: readonly Dated<Price>[] = [
    { from: "2027-01-01", value: { perUnitMinor: 9000, currency: "INR" } },
    { from: "2027-02-11", value: { perUnitMinor: 10_000, currency: "INR" } },
  ];
  const then = (date: string, history = diesel) => line({ date }, { fuelPrice: { diesel: history } }).sums.fuelThen;
  test("a new price holds from its day and leaves every day before alone", () => {
    expect([then("2027-02-10"), then("2027-02-11"), then("2027-03-01")]).toEqual([21_600, 24_000, 24_000]);
    const later = inOrder([{ from: "2027-02-20", value: { perUnitMinor: 1, currency: "INR" } }, ...diesel]);
    expect([then("2027-02-10", later), then("2027-02-19", later)]).toEqual([21_600, 24_000]);
  });
  test("before the first price there is none", () => {
    expect(line({ date: "2026-12-31" }, { fuelPrice: { diesel } })).toMatchObject({
      counted: false,
      gaps: ["fuelPriceMissing"],
    });
  });
  test("of two prices for one day the one written later counts", () => {
    const twice = inOrder<number>([
      { from: "2027-01-01", value: 2, writtenUtcMs: 9 },
      { from: "2027-01-01", value: 1, writtenUtcMs: 5 },
    ]);
    expect(valueOn(twice, "2027-06-01")).toBe(2);
  });
});

describe("what is missing is shown, never made up", () => {
  const open = (log: Partial<DayLog>, more: Partial<Terms> = {}) => {
    const { counted, gaps, sums } = line(log, more);
    expect([counted, sums.countedDays, sums.fuelThen, sums.power, sums.setAside]).toEqual([false, 0, 0, 0, 0]);
    return gaps;
  };
  test("each gap by its name", () => {
    expect(open({ km: null })).toEqual(["kmMissing"]);
    expect(open({ charges: null })).toEqual(["chargeMissing"]);
    expect(open({}, { baseline: [] })).toEqual(["baselineMissing"]);
    expect(open({}, { fuelPrice: {} })).toEqual(["fuelPriceMissing"]);
    expect(open({}, { tariff: [] })).toEqual(["tariffMissing"]);
    expect(open({}, { currency: [] })).toEqual(["currencyMissing"]);
    expect(open({}, { fuelPrice: { diesel: always({ perUnitMinor: 0, currency: "INR" }) } })).toEqual([
      "fuelPriceZero",
    ]);
  });
  test("a price in another currency is never added in", () => {
    expect(open({}, { fuelPrice: { diesel: always({ perUnitMinor: 120, currency: "USD" }) } })).toEqual([
      "otherCurrency",
    ]);
    expect(open({}, { tariff: always({ ...nightTariff, currency: "USD" }) })).toEqual(["otherCurrency"]);
  });
  test("without a set price the energy line still stands, and the gap is told", () => {
    const { counted, gaps, sums } = line({}, { set: [] });
    expect([counted, gaps, energyOnly(sums)]).toEqual([true, ["setCostMissing"], 18_600]);
  });
  test("a missing day is a missing day: no km, no money, but its fixed costs run", () => {
    const rent = { kind: "rent", amountMinor: 28_000, currency: "INR", from: "2027-02-01", to: "2027-02-28" } as const;
    const { sums } = line({ state: "missing", km: null, charges: null }, { fixed: [rent] });
    expect([sums.missingDays, sums.countedDays, sums.rent, allIn(sums)]).toEqual([1, 0, 1000, -1000]);
    expect([sums.allInLow, sums.allInHigh]).toEqual([-1000, -1000]);
  });
  test("a day of rest or repair needs no km, no fuel price and no entry of charging", () => {
    for (const state of ["rest", "offRoad"] as const) {
      const { counted, gaps, sums } = line({ state, km: null, charges: null }, { fuelPrice: {}, baseline: [] });
      expect([counted, gaps, energyOnly(sums)]).toEqual([true, [], 0]);
    }
  });
});

test("a day that costs more than fuel is a minus, not a zero", () => {
  const dear = line({ charges: [{ kwh: null, kwhHow: "meter", fromMinute: null, toMinute: null, paidMinor: 30_000 }] });
  expect(energyOnly(dear.sums)).toBe(-8400);
  expect(dear.counted).toBe(true);
});

test("gas is counted by the kilogram: 60 km at 3 kg per 100 km is 1.8 kg and 4.85 kg of carbon dioxide (2.6928 a kg)", () => {
  const { sums } = line(
    {},
    {
      baseline: always({ fuel: "cng", per100Km: 3, doubtShare: 0.1, upkeepPerKmMinor: 0 }),
      fuelPrice: { cng: always({ perUnitMinor: 8000, currency: "INR" }) },
    },
  );
  expect([sums.fuelG, sums.fuelMl, sums.fuelThen, sums.fuelCo2G]).toEqual([1800, 0, 14_400, 4847]);
});
