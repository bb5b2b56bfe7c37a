import { describe, expect, test } from "vitest";
import {
  careOf,
  cutOffShare,
  cyclesOfDay,
  fullChargeDueIn,
  type SetUse,
  setLife,
  tripShare,
} from "../../../src/calc/battery/index.js";
import { FLOODED, LFP, SEALED } from "./fixtures.js";

const daily = (depth: number, more: Partial<SetUse> = {}): SetUse => ({
  levels: [1, 1 - depth],
  cellC: 25,
  chargeRatePerH: 0.2,
  daysBetweenFull: 1,
  kmPerDay: 60,
  ...more,
});
const today = "2027-02-10";

describe("life of a set", () => {
  test("a day that repeats closes all of its cycles, wherever it begins", () => {
    const whole = cyclesOfDay([1, 0.4, 0.7, 0.3]);
    expect(whole.every((cycle) => cycle.count % 0.5 === 0)).toBe(true);
    expect(whole.map(({ range }) => Number(range.toFixed(6)))).toEqual([0.3, 0.7, 0.7]); // one full and two halves, ASTM E1049
    const turned = cyclesOfDay([0.7, 0.3, 1, 0.4]);
    expect(turned.map(({ range, count }) => [Number(range.toFixed(6)), count])).toEqual(
      whole.map(({ range, count }) => [Number(range.toFixed(6)), count]),
    );
  });
  test("daily 80 % on flooded lead-acid: 6 to 12 months in service is within the band (battery/cycle-life.json)", () => {
    const { lifeDays } = setLife(FLOODED, daily(0.8), { today });
    expect(lifeDays.low).toBeCloseTo(180, 0);
    expect(lifeDays.likely).toBeCloseTo(225, 0); // average in field use, deep-cycle FAQ 7.5
    expect(lifeDays.high).toBeGreaterThan(365);
  });
  test("sealed at daily 50 %: from Calder's 370 cycles to a data sheet's 1,100", () => {
    const { lifeDays } = setLife(SEALED, daily(0.5), { today });
    expect(lifeDays.low).toBeCloseTo(370, 0);
    expect(lifeDays.high).toBeCloseTo(1100, 0);
    expect(lifeDays.likely).toBeGreaterThan(370);
    expect(lifeDays.likely).toBeLessThan(1100);
  });
  test("LFP at daily 80 %: the generic 3,500 cycles lie within the band (battery/cycle-life.json)", () => {
    const { lifeDays } = setLife(LFP, daily(0.8, { chargeRatePerH: 0.3 }), { today });
    expect(lifeDays.low).toBeLessThan(3500);
    expect(lifeDays.high).toBeGreaterThan(3500);
    expect(lifeDays.low).toBeGreaterThan(1000);
  });
  test("lead-acid life halves at 35 C and does not gain in the cool (from memory)", () => {
    const at = (cellC: number) => setLife(FLOODED, daily(0.5, { cellC }), { today }).lifeDays.likely;
    expect(at(35)).toBeCloseTo(at(25) / 2, 6);
    expect(at(15)).toBeCloseTo(at(25), 6);
  });
  test("deeper days, heat and missed full charges never lengthen a life", () => {
    const life = (use: SetUse) => setLife(SEALED, use, { today }).lifeDays.likely;
    expect(life(daily(0.7))).toBeLessThan(life(daily(0.4)));
    expect(life(daily(0.5, { daysBetweenFull: 20 }))).toBeLessThan(life(daily(0.5)));
    const hot = setLife(LFP, daily(0.2, { cellC: 42 }), { today });
    expect(hot.lifeDays.likely).toBeLessThan(setLife(LFP, daily(0.2), { today }).lifeDays.likely);
  });
  test("a used set has less left than a new one; at the end it has none and is due today", () => {
    for (const battery of [LFP, FLOODED]) {
      const left = (health: number) => setLife({ ...battery, health }, daily(0.6), { today });
      expect(left(0.9).leftDays.likely).toBeLessThan(left(1).leftDays.likely);
      expect(left(0.8).leftDays).toEqual({ low: 0, likely: 0, high: 0 });
      expect(left(0.5).replaceOn).toEqual({ early: today, likely: today, late: today });
      expect(left(0.9).leftDays.low).toBeGreaterThan(0);
    }
  });
  test("dates and kilometres follow the days", () => {
    const life = setLife(FLOODED, daily(0.8), { today });
    expect(life.replaceOn.likely).toBe("2027-09-23"); // 225 days on, counted on a calendar
    expect(life.lifeKm.likely).toBeCloseTo(225 * 60, 0);
    expect(life.fadePerDay.likely).toBeCloseTo(0.2 / 225, 8);
  });
  test("a set that stands still ages all the same, within twenty years", () => {
    for (const battery of [LFP, FLOODED, SEALED]) {
      const { lifeDays } = setLife(battery, daily(0, { levels: [0.6] }), { today });
      expect(lifeDays.low).toBeGreaterThan(300);
      expect(lifeDays.high).toBeLessThanOrEqual(20 * 365);
      expect(lifeDays.low).toBeLessThanOrEqual(lifeDays.likely);
    }
  });
});

describe("stopping with charge left", () => {
  test("battery/start-current-sag.json T4: aged blocks trip a 150 A start at any charge; new ones only when low", () => {
    const trip = (resistanceOhm: number) =>
      tripShare({ ...FLOODED, resistanceOhm }, { startA: 150, cutOffV: 42, cellC: 25 });
    expect(trip(0.12)).toBe(1);
    expect(trip(0.05)).toBeGreaterThan(0.5);
    expect(trip(0.05)).toBeLessThan(0.9); // T3: at 90 % the margin is 0.98 V
  });
  test("battery/start-current-sag.json T1, T2: 16 LFP cells start warm and trip at 20 % in the cold", () => {
    const trip = (cellC: number) => tripShare(LFP, { startA: 150, cutOffV: 42, cellC });
    expect(trip(25)).toBeLessThan(0.2);
    expect(trip(0)).toBeGreaterThan(0.2);
  });
  test("a gentle start goes on to lower charge than a full one, and a cut-off of nothing never stops it", () => {
    const controller = { controllerMaxA: 150, cutOffV: 42 };
    expect(cutOffShare(FLOODED, controller)).toBeLessThan(tripShare(FLOODED, { startA: 150, cutOffV: 42, cellC: 25 }));
    expect(cutOffShare(LFP, { controllerMaxA: 100, cutOffV: 20 })).toBe(0);
  });
  test("the voltage at that charge is the cut-off (sweep and return)", () => {
    for (const startA of [50, 75, 100]) {
      const share = tripShare(FLOODED, { startA, cutOffV: 44, cellC: 25 });
      if (share > 0 && share < 1) {
        const steps = [1.893, 1.918, 1.943, 1.969, 1.993, 2.017, 2.04, 2.062, 2.083, 2.103, 2.122]; // deep-cycle table
        const at = Math.floor(share * 10);
        const cellV = (steps[at] ?? 0) + ((steps[at + 1] ?? 0) - (steps[at] ?? 0)) * (share * 10 - at);
        expect(24 * cellV - startA * 0.05).toBeCloseTo(44, 4);
      }
    }
  });
});

describe("care", () => {
  const state = { daysSinceFull: 3, daysSinceWater: 10, fullChargeEveryDays: null, cellC: 25, share: 0.6 };
  const codes = (battery: { chemistry: "lfp" | "floodedLead" | "sealedLead" }, more: Partial<typeof state> = {}) =>
    careOf(battery, { ...state, ...more })
      .filter((item) => item.dueInDays <= 0)
      .map((item) => item.code);
  test("lead-acid wants a full charge every week, lithium every month, or as the record says (common practice)", () => {
    expect(codes(FLOODED, { daysSinceFull: 7 })).toEqual(["fullCharge"]);
    expect(codes(LFP, { daysSinceFull: 7 })).toEqual([]);
    expect(codes(LFP, { daysSinceFull: 30 })).toEqual(["fullCharge"]);
    expect(fullChargeDueIn("sealedLead", { daysSinceFull: 3, fullChargeEveryDays: 14 })).toBe(11);
    expect(fullChargeDueIn("sealedLead", { daysSinceFull: null, fullChargeEveryDays: 14 })).toBe(0);
  });
  test("cold lithium is not charged below 0 C and slowly up to 10 C (battery/temperature-limits.json); lead-acid may", () => {
    expect(codes(LFP, { cellC: -2 })).toEqual(["noColdCharge"]);
    expect(codes(LFP, { cellC: 4 })).toEqual(["slowColdCharge"]);
    expect(codes(LFP, { cellC: 58 })).toEqual(["noHotCharge"]);
    expect(codes(FLOODED, { cellC: -2 })).toEqual([]);
  });
  test("flooded sets want water monthly and oftener in heat, sealed ones never (common practice)", () => {
    expect(codes(FLOODED, { daysSinceWater: 20 })).toEqual([]);
    expect(codes(FLOODED, { daysSinceWater: 20, cellC: 40 })).toEqual(["water"]);
    expect(codes(SEALED, { daysSinceWater: 90 })).toEqual([]);
  });
  test("lead-acid is not left flat", () => expect(codes(SEALED, { share: 0.2 })).toEqual(["notFlat"]));
});
