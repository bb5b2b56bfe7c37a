import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Charge,
  chargeCost,
  fairCharge,
  fairMonth,
  meanUnitPrice,
  type Tariff,
  unitPriceAt,
  unitsByBand,
} from "../../../src/calc/money/index.js";
import { nightTariff } from "./fixture.js";

const charge = (more: Partial<Charge>): Charge => ({
  kwh: 6,
  kwhHow: "meter",
  fromMinute: null,
  toMinute: null,
  paidMinor: null,
  ...more,
});
const flat: Tariff = { ...nightTariff, kind: "flatFee", bands: [], feeMinor: 20_000 };

describe("bands over midnight", () => {
  test("the price at each edge: 22:00 is night, 06:00 is day", () => {
    expect([21 * 60 + 59, 22 * 60, 0, 5 * 60 + 59, 6 * 60, 1440 + 60].map((m) => unitPriceAt(nightTariff, m))).toEqual([
      900, 500, 500, 500, 900, 500,
    ]);
  });
  test("four bands as an order of the trade sets them (6-10 and 18-22 dear, 22-06 cheap, S40 of the field notes)", () => {
    const dear = { perKwhMinor: 800 };
    const tariff: Tariff = {
      ...nightTariff,
      bands: [
        { ...dear, fromMinute: 360, toMinute: 600 },
        { ...dear, fromMinute: 1080, toMinute: 1320 },
        { fromMinute: 1320, toMinute: 360, perKwhMinor: 600 },
      ],
      otherwisePerKwhMinor: 700,
    };
    // 17:00 to 23:00: one hour usual, four dear, one cheap of six units.
    expect(unitsByBand(tariff, 6, 17 * 60, 23 * 60)).toEqual([
      { perKwhMinor: 700, wh: 1000 },
      { perKwhMinor: 800, wh: 4000 },
      { perKwhMinor: 600, wh: 1000 },
    ]);
    expect(meanUnitPrice(tariff)).toBeCloseTo((8 * 800 + 8 * 600 + 8 * 700) / 24, 9);
  });
  test("units of the bands add up to the charge to the last Wh, whatever the hours", () => {
    const minute = fc.integer({ min: 0, max: 1439 });
    fc.assert(
      fc.property(minute, minute, fc.integer({ min: 1, max: 30_000 }), (from, to, wh) => {
        const units = unitsByBand(nightTariff, wh / 1000, from, to);
        expect(units.reduce((sum, unit) => sum + unit.wh, 0)).toBe(wh);
      }),
      { seed: 76, numRuns: 300 },
    );
  });
  test("a band to 24:00 and one of the whole day", () => {
    const evening = { ...nightTariff, bands: [{ fromMinute: 1320, toMinute: 1440, perKwhMinor: 1 }] };
    expect([unitPriceAt(evening, 1439), unitPriceAt(evening, 0)]).toEqual([1, 900]);
    const whole = { ...nightTariff, bands: [{ fromMinute: 0, toMinute: 1440, perKwhMinor: 3 }] };
    expect(meanUnitPrice(whole)).toBe(3);
  });
});

describe("what a charge cost", () => {
  test("read units in a known band: 6 units at 5.00", () => {
    expect(chargeCost(charge({ fromMinute: 23 * 60, toMinute: 5 * 60 }), nightTariff)).toMatchObject({
      lowMinor: 3000,
      likelyMinor: 3000,
      highMinor: 3000,
      from: "bands",
    });
  });
  test("at an unknown hour: cheapest and dearest price as low and high, and it says so", () => {
    const cost = chargeCost(charge({}), nightTariff);
    expect(cost).toMatchObject({ lowMinor: 3000, highMinor: 5400, from: "hourUnknown" });
    expect(cost?.likelyMinor).toBe(4600); // 8 h at 5.00 and 16 h at 9.00: mean 7.667
  });
  test("estimated units are in doubt by 15 %", () => {
    const cost = chargeCost(charge({ kwhHow: "estimated", fromMinute: 0, toMinute: 60 }), nightTariff);
    expect(cost).toMatchObject({ lowMinor: 2550, likelyMinor: 3000, highMinor: 3450 });
  });
  test("money paid counts before any tariff; a flat fee needs no units", () => {
    expect(chargeCost(charge({ kwh: null, paidMinor: 12_000 }), nightTariff)?.likelyMinor).toBe(12_000);
    expect(chargeCost(charge({ kwh: null }), flat)).toMatchObject({ likelyMinor: 20_000, from: "fee" });
  });
  test("nothing is invented without units, price or payment", () => {
    expect(chargeCost(charge({ kwh: null }), nightTariff)).toBeNull();
    expect(chargeCost(charge({}), null)).toBeNull();
    expect(chargeCost(charge({}), { ...nightTariff, kind: "none" })).toBeNull();
  });
});

describe("what a charge should have cost", () => {
  const paid = charge({ paidMinor: 12_000, fromMinute: 23 * 60, toMinute: 5 * 60 });
  test("units times the lawful price beside what was paid (Delhi: 4.50 a unit lawful, 200 a night taken; S30, S8 of the field notes)", () => {
    const lawful: Tariff = { ...nightTariff, bands: [], otherwisePerKwhMinor: 450 };
    const fair = fairCharge({ ...paid, kwh: 7.2, paidMinor: 20_000 }, lawful);
    expect(fair).toMatchObject({ fairMinor: 3240, paidMinor: 20_000, over: true });
    expect(fair?.times).toBeCloseTo(6.17, 2);
  });
  test("within the doubt of estimated units nobody is accused", () => {
    expect(fairCharge({ ...paid, kwhHow: "estimated", paidMinor: 3400 }, nightTariff)?.over).toBe(false);
    expect(fairCharge({ ...paid, kwhHow: "estimated", paidMinor: 3500 }, nightTariff)?.over).toBe(true);
    expect(fairCharge({ ...paid, kwhHow: "estimated", kwhHigh: 8, paidMinor: 3900 }, nightTariff)?.over).toBe(false);
  });
  test("a month: sums of the judged, count of the others", () => {
    const judged = fairCharge(paid, nightTariff);
    const month = fairMonth([judged, judged, fairCharge({ ...paid, kwh: null }, nightTariff), fairCharge(paid, flat)]);
    expect(month).toMatchObject({ judged: 2, notJudged: 2, fairMinor: 6000, paidMinor: 24_000 });
  });
});
