import fc from "fast-check";
import { expect, test } from "vitest";
import { charge, readSunMeter } from "../../../src/calc/learn/charge.js";
import { learnedFactors, learnedLevel, withKm } from "../../../src/calc/learn/doubt.js";
import type { GaugeSeen } from "../../../src/calc/learn/gauge-sight.js";
import { type DriveSeen, driveDay, passDays } from "../../../src/calc/learn/learn-day.js";
import {
  daySdLog,
  isGuess,
  newLearned,
  partsShown,
  placeOf,
  type VehicleLearned,
} from "../../../src/calc/learn/parts.js";
import { readGauge } from "../../../src/calc/learn/read-gauge.js";

// Days are worked out by hand here: level at home = 1 - factor x 4200 Wh / 6000 Wh. Nothing of the learning makes them.
const PLAIN = { wet: false, load: "half", driver: null } as const;
const USABLE_WH = 6000;
const DRIVE_WH = 4200;
const drive = (more: Partial<DriveSeen> = {}): DriveSeen => ({
  kind: PLAIN,
  km: 50,
  written: "yes",
  kmSdLog: 0,
  driveWh: DRIVE_WH,
  otherWh: 0,
  openSunWh: 0,
  shadeSunWh: 0,
  sunSdLog: 0,
  plugWh: 0,
  usableWh: USABLE_WH,
  endUtcMs: 1,
  ...more,
});
const gauge = (share: number, more: Partial<GaugeSeen> = {}): GaugeSeen => ({
  atUtcMs: 2,
  share,
  sdShare: 0.03,
  low: share,
  high: share,
  full: false,
  slips: [],
  sure: false,
  ...more,
});
const full = (learned: VehicleLearned) => readGauge(learned, gauge(1, { full: true, sdShare: 0.01 }));
const day = (learned: VehicleLearned, share: number, more: Partial<DriveSeen> = {}) =>
  readGauge(driveDay(full(learned), drive(more)), gauge(share));
const homeShare = (factor: number) => 1 - (factor * DRIVE_WH) / USABLE_WH;
const days = (count: number, factor: number, from = newLearned("v")) =>
  Array.from({ length: count }).reduce<VehicleLearned>((learned) => day(learned, homeShare(factor)), from);
const driveNow = (learned: VehicleLearned) => {
  const { driveMiddle, capacity } = learnedFactors(learned, PLAIN);
  return driveMiddle / capacity;
};

test.each([0.8, 0.9, 1.15, 1.3])("a steady factor of %d is found within 4 %% after ten days", (factor) => {
  const learned = days(10, factor);
  expect(driveNow(learned) / factor).toBeGreaterThan(0.96);
  expect(driveNow(learned) / factor).toBeLessThan(1.04);
  expect(isGuess(days(9, factor))).toBe(true);
  expect(isGuess(learned)).toBe(false);
});

test("the doubt of the drive factor starts at 20 % (methods 4) and shrinks with the days", () => {
  const spread = (learned: VehicleLearned) => learnedFactors(learned, PLAIN).driveSdLog;
  const first = learnedFactors(newLearned("v", { capacitySdLog: 0 }), { ...PLAIN, driver: null });
  expect(Math.hypot(0.2, daySdLog(newLearned("v")))).toBeCloseTo(Math.hypot(first.driveSdLog, 0.06), 1);
  expect(spread(days(5, 1))).toBeLessThan(spread(newLearned("v")));
  expect(spread(days(20, 1))).toBeLessThan(0.12);
});

test("a day without news moves no middle; a trip under 5 km and a day nobody wrote teach nothing", () => {
  const learned = { ...days(12, 1.2), lastDate: "2027-01-20" };
  const later = passDays(learned, "2027-03-20");
  expect(later.belief.mean).toEqual(learned.belief.mean);
  expect(learnedFactors(later, PLAIN).driveSdLog).toBeGreaterThan(learnedFactors(learned, PLAIN).driveSdLog);
  for (const more of [{ km: 4.9 }, { written: "no" as const }, { written: "doubtful" as const, kmSdLog: 0.1 }]) {
    const after = day(learned, 0.1, more);
    expect(after.days).toBe(learned.days);
    expect(after.belief.mean[placeOf("drive")]).toBe(full(learned).belief.mean[placeOf("drive")]);
  }
});

test("whatever one gauge shows, it moves the next day's energy by less than 3 %", () => {
  const learned = full(days(12, 1.1));
  const before = learnedFactors(learned, PLAIN).driveMiddle;
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
      const after = readGauge(driveDay(learned, drive()), gauge(share));
      const z = (share - homeShare(driveNow(learned))) / 0.03;
      // A value that fits may teach more: it is no slip.
      if (Math.abs(z) < 2) return;
      expect(Math.abs(learnedFactors(after, PLAIN).driveMiddle / before - 1)).toBeLessThan(0.03);
    }),
  );
});

test("a reading that does not fit is set aside once; the second one is believed", () => {
  const learned = driveDay(full(days(12, 1)), drive());
  const once = readGauge(learned, gauge(0.95));
  expect(learnedLevel(once)?.share).toBeCloseTo(0.3, 1);
  const twice = readGauge(once, gauge(0.95));
  expect(learnedLevel(twice)?.share).toBeGreaterThan(0.85);
});

test("a level with the point slipped is not believed where ten times as much fits", () => {
  const learned = driveDay(full(days(3, 1)), drive());
  const slipped = readGauge(learned, gauge(0.03, { slips: [0.3] }));
  expect(learnedLevel(slipped)?.share).toBeGreaterThan(0.2);
});

test("a confirmed reading counts in full", () => {
  const learned = driveDay(full(days(12, 1)), drive());
  expect(learnedLevel(readGauge(learned, gauge(0.8, { sure: true, sdShare: 0.01 })))?.share).toBeGreaterThan(0.6);
});

test("two drivers are kept apart, a third counts as unknown", () => {
  let learned = newLearned("v");
  for (let i = 0; i < 30; i++) {
    const driver = i % 2 === 0 ? "first" : "second";
    learned = day(learned, homeShare(driver === "first" ? 0.94 : 1.06), { kind: { ...PLAIN, driver } });
  }
  const of = (driver: string) => learnedFactors(learned, { ...PLAIN, driver }).driveMiddle;
  expect(of("second") / of("first")).toBeGreaterThan(1.06);
  expect(of("third")).toBeGreaterThan(of("first"));
  expect(of("third")).toBeLessThan(of("second"));
});

test("meter and full charges tell how much the set holds", () => {
  // A set that holds 80 % of the record: 0.7 of it is 0.7 x 4800 Wh, which is 3360 / 0.85 = 3953 Wh at the meter.
  let learned = newLearned("v", { capacitySdLog: 0.08 });
  for (let i = 0; i < 40; i++) {
    learned = readGauge(driveDay(full(learned), drive({ driveWh: 3360 })), gauge(0.3));
    const seen = { atUtcMs: 3, usableWh: USABLE_WH, inTime: true, fullLevel: { share: 0.99, sdShare: 0.008 } };
    learned = charge(learned, { kind: "meter", gridWh: 3953, efficiency: 0.85, ...seen });
  }
  expect(learnedFactors(learned, PLAIN).capacity).toBeGreaterThan(0.74);
  expect(learnedFactors(learned, PLAIN).capacity).toBeLessThan(0.89);
});

test("the roof's meter teaches the roof, without bias in the sum", () => {
  const bring = [900, 300, 700, 1100, 200, 800]; // Wh expected; 0.8 of it comes
  let learned = newLearned("v");
  for (let i = 0; i < 60; i++) {
    const openSunWh = bring[i % bring.length] as number;
    const swing = i % 2 === 0 ? 1.2 : 0.8;
    learned = readSunMeter(learned, {
      seenWh: 0.8 * swing * openSunWh,
      openSunWh,
      shadeSunWh: 0,
      sdWh: 0.25 * openSunWh,
    });
  }
  const roof = learnedFactors(learned, PLAIN).roofMiddle;
  expect(roof).toBeGreaterThan(0.8 * 0.97);
  expect(roof).toBeLessThan(0.8 * 1.03);
});

test("a day's own scatter replaces the first figure", () => {
  let learned = newLearned("v");
  for (let i = 0; i < 60; i++) learned = day(learned, homeShare(i % 2 === 0 ? 1.12 : 0.88), {});
  expect(daySdLog(learned)).toBeGreaterThan(0.085);
  expect(daySdLog(days(60, 1))).toBeLessThan(0.06);
});

test("kilometres over the plan become a habit, another round does not", () => {
  let learned = newLearned("v");
  for (let i = 0; i < 40; i++) learned = withKm(learned, Math.log(1.08));
  expect(Math.exp(learned.kmHabit.middleLog)).toBeCloseTo(1.08, 1);
  expect(withKm(learned, Math.log(2)).kmHabit).toEqual(learned.kmHabit);
});

test("every part can be looked at, with its band", () => {
  for (const { low, middle, high } of partsShown(days(5, 1.1))) {
    expect(low).toBeLessThanOrEqual(middle);
    expect(middle).toBeLessThanOrEqual(high);
  }
});
