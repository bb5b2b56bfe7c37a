import { expect, test } from "vitest";
import { checkEntry, type EntryPast, type EntryTyped } from "../../../src/calc/learn/check.js";

// What people slip on is common practice, no source: a nought too many, figures turned round, a block for the set, a new odometer.
const typed = (more: Partial<EntryTyped> = {}): EntryTyped => ({
  date: "2027-02-10",
  enteredUtcMs: 2_000_000_000,
  km: 55,
  odometerKm: 12_055,
  gauge: { kind: "percent", value: 40, perBlock: false },
  gridKwh: 5,
  sunKwh: 1,
  ...more,
});
const past = (more: Partial<EntryPast> = {}): EntryPast => ({
  today: "2027-02-10",
  usualKm: 52,
  lastOdometer: { date: "2027-02-09", km: 12_000 },
  alreadyWritten: false,
  lastEnteredUtcMs: 1_990_000_000,
  bars: 5,
  setNominalV: 48,
  blocks: 4,
  usableWh: 6000,
  roofRatedW: 400,
  expectedLevel: { share: 0.4, sdShare: 0.06 },
  typedLevel: 0.4,
  ...more,
});
const asked = (of: Partial<EntryTyped>, more: Partial<EntryPast> = {}) =>
  checkEntry(typed(of), past(more)).map(({ field, code, likely }) => [field, code, likely]);

test("an entry that fits is asked nothing", () => {
  expect(asked({})).toEqual([]);
  expect(asked({ km: null, odometerKm: null, gauge: null, gridKwh: null, sunKwh: null })).toEqual([]);
  expect(asked({ km: 0, odometerKm: null })).toEqual([]);
});

test.each<[string, Partial<EntryTyped>, Partial<EntryPast>, unknown[]]>([
  ["ten times the kilometres", { km: 550, odometerKm: null }, {}, ["km", "tenTimes", 55]],
  ["a tenth of them", { km: 5.5, odometerKm: null }, {}, ["km", "tenTimes", 55]],
  ["less than nothing", { km: -55, odometerKm: null }, {}, ["km", "negative", 55]],
  ["figures turned round", { km: 15, odometerKm: null }, {}, ["km", "farFromUsual", 51]],
  ["odometer less than last time", { odometerKm: 11_050 }, {}, ["odometerKm", "odometerBack", 12_055]],
  ["a new odometer", { odometerKm: 48 }, {}, ["odometerKm", "odometerReplaced", null]],
  ["a figure too many on the odometer", { odometerKm: 120_550 }, {}, ["odometerKm", "tenTimes", 12_055]],
  ["odometer against kilometres", { km: 55, odometerKm: 12_150 }, {}, ["odometerKm", "odometerAndKmDiffer", 12_055]],
  ["the day is there already", {}, { alreadyWritten: true }, ["date", "twoEntries", null]],
  ["a day to come", { date: "2027-02-11", odometerKm: null }, {}, ["date", "dayToCome", null]],
  ["the clock went back", { enteredUtcMs: 1_900_000_000 }, {}, ["date", "clockBack", null]],
  ["volts of one block", { gauge: { kind: "volts", value: 12.4, perBlock: false } }, {}, ["level", "oneBlock", 49.6]],
  [
    "volts of the set for a block",
    { gauge: { kind: "volts", value: 49.6, perBlock: true } },
    {},
    ["level", "wholeSet", 12.4],
  ],
  [
    "volts without the point",
    { gauge: { kind: "volts", value: 496, perBlock: false } },
    {},
    ["level", "voltsOutOfRange", 49.6],
  ],
  [
    "more bars than there are",
    { gauge: { kind: "bars", value: 7, perBlock: false } },
    {},
    ["level", "barsOutOfRange", null],
  ],
  [
    "percent without the point",
    { gauge: { kind: "percent", value: 405, perBlock: false } },
    {},
    ["level", "percentOutOfRange", 40.5],
  ],
  ["a gauge nobody expected", {}, { typedLevel: 0.95 }, ["level", "gaugeNotExpected", null]],
  ["units the set cannot take", { gridKwh: 50 }, {}, ["gridKwh", "moreThanTheSetHolds", 5]],
  ["sun the roof cannot bring", { sunKwh: 12 }, {}, ["sunKwh", "moreThanTheRoofGives", 1.2]],
])("%s", (_, of, more, want) => expect(asked(of, more)).toContainEqual(want));

test("nothing is swallowed: every question gives back what was typed", () => {
  for (const question of checkEntry(typed({ km: 550, gridKwh: 50 }), past()))
    expect(question.typed).toBe(question.field === "km" ? 550 : question.field === "gridKwh" ? 50 : 12_055);
});
