import { expect, test } from "vitest";
import { healthAfter, setLife } from "../../../src/calc/battery/index.js";
import type { CareDone, Entry, Reading, Vehicle, Yard } from "../../../src/records/index.js";
import { batteryOf } from "../../../src/records/map/battery.js";
import { setCareOf } from "../../../src/records/map/care.js";
import { plusDays, utcMsAt } from "../../../src/units/zone.js";
import { examples } from "../examples.js";

const yard = examples.yard as unknown as Yard;
const example = examples.vehicle as unknown as Vehicle;
const vehicle: Vehicle = { ...example, gauge: { kind: "percent", bars: null } };
const first = "2027-01-01";

const morning = (day: number, value: number): Reading => ({
  id: `r${day}`,
  v: 1,
  vehicleId: vehicle.id,
  atUtcMs: utcMsAt(plusDays(first, day), 300, yard.zone),
  kind: value === 100 ? "full" : "percent",
  value,
  restedMin: 60,
  perBlock: false,
});
const evening = (day: number, value: number): Entry => ({
  id: `${vehicle.id}/${plusDays(first, day)}`,
  v: 1,
  vehicleId: vehicle.id,
  date: plusDays(first, day),
  km: 40,
  trips: null,
  odometerKm: null,
  level: { kind: "percent", value, perBlock: null },
  loadClass: null,
  pluggedAt: null,
  gridKwh: null,
  sunKwh: null,
  paidMinor: null,
  wet: null,
  driver: null,
  formerly: [],
});
const days = Array.from({ length: 10 }, (_, day) => day);
const careOver = (of: Vehicle, nowDay: number, cares: readonly CareDone[] = []) =>
  setCareOf({
    vehicle: of,
    yard,
    skies: [],
    cares,
    entries: days.map((day) => evening(day, 40)),
    readings: days.map((day) => morning(day, day < 7 ? 100 : 90)),
    nowUtcMs: utcMsAt(plusDays(first, nowDay), 600, yard.zone),
  });

// Worked by hand from ASTM E1049-85 counting: a half down counts half its range, and every way down but the last is followed by one up.
test("cycles of the log are its ways down and up, half each; the last full charge is found", () => {
  const care = careOver(vehicle, 10);
  const down = 7 * 0.6 + 3 * 0.5;
  const up = 6 * 0.6 + 3 * 0.5;
  // a gauge's step is read at its middle: a share or so beside the figure
  expect(Math.abs(care.cycles - (down + up) / 2)).toBeLessThan(0.15);
  expect(care.daysSinceFull).toBe(4); // full on the morning of 7 January, asked on the 11th
  expect(care.km).toBe(400);
  expect(care.levelDays).toBe(10);
});

test("units of the night stand for a morning that nobody read", () => {
  const { nominalV, ratedAh, health } = vehicle.battery;
  const half = (0.5 * nominalV * ratedAh * health) / 1000 / vehicle.charger.efficiency;
  const care = (gridKwh: number | null) =>
    setCareOf({
      vehicle,
      yard,
      skies: [],
      cares: [],
      entries: days.map((day) => ({ ...evening(day, 40), gridKwh })),
      readings: [],
      nowUtcMs: utcMsAt(plusDays(first, 10), 600, yard.zone),
    });
  // ten evenings at 40 %, ten nights that bring half a set: ten ways up and nine down
  expect(Math.abs(care(half).cycles - (19 * 0.5) / 2)).toBeLessThan(0.15);
  expect(care(null).cycles).toBe(0);
});

test("a full charge falls due when its days are over", () => {
  const weekly: Vehicle = { ...vehicle, battery: { ...vehicle.battery, fullChargeEveryDays: 7 } };
  const dueIn = (day: number) => careOver(weekly, day).due.find(({ code }) => code === "fullCharge")?.dueInDays;
  expect(dueIn(10)).toBe(3);
  expect(dueIn(13)).toBe(0);
});

// Once a month: common practice, no source.
test("water falls due a month after it was last looked at, and is not asked for where nobody ever wrote it in", () => {
  const flooded: Vehicle = { ...vehicle, battery: { ...vehicle.battery, chemistry: "floodedLead" } };
  const done = (day: number, what: CareDone["what"]): CareDone => ({
    id: `${vehicle.id}/${day}/${what}`,
    v: 1,
    vehicleId: vehicle.id,
    date: plusDays(first, day),
    what,
  });
  const waterIn = (cares: readonly CareDone[]) =>
    careOver(flooded, 10, cares).due.find(({ code }) => code === "water")?.dueInDays;
  expect(waterIn([])).toBeUndefined();
  expect(waterIn([done(-25, "water"), done(-5, "water"), done(8, "equalise")])).toBe(15);
  expect(waterIn([{ ...done(0, "water"), vehicleId: "another" }])).toBeUndefined();
  expect(careOver(flooded, 10, [done(8, "equalise")]).lastDone).toEqual({ water: null, equalise: plusDays(first, 8) });
});

test("a typed health counts with its doubt, an old set without one by its age, a set of unknown age not at all", () => {
  const typed = careOver({ ...vehicle, guesses: [], battery: { ...vehicle.battery, health: 0.9 } }, 10);
  expect(typed.healthFrom).toBe("typed");
  expect(typed.health?.low).toBeLessThan(0.9);
  const guessed = { ...vehicle, guesses: ["battery.health"] };
  const aged = careOver({ ...guessed, battery: { ...vehicle.battery, health: 1, installedOn: "2026-01-01" } }, 10);
  expect(aged.healthFrom).toBe("age");
  expect(aged.health?.low).toBeLessThanOrEqual(aged.health?.likely ?? 0);
  expect(aged.health?.likely).toBeLessThan(aged.health?.high ?? 0);
  const unknown = careOver({ ...guessed, battery: { ...vehicle.battery, installedOn: null } }, 10);
  expect([unknown.health, unknown.life]).toEqual([null, null]);
});

test("the months of replacement are in order, and a deeper day brings them nearer", () => {
  const life = careOver({ ...vehicle, guesses: [] }, 10).life;
  const { early, likely, late } = life?.replaceOn ?? { early: "", likely: "", late: "" };
  expect([early, likely, late].toSorted()).toEqual([early, likely, late]);
  expect(early.length).toBe(10);
});

test("health after the days a set lasts is where its life was counted to", () => {
  const battery = { ...batteryOf(vehicle), health: 1 };
  const use = { levels: [1, 0.4], cellC: 28, chargeRatePerH: 0.2, daysBetweenFull: 3, kmPerDay: 40 };
  const { lifeDays } = setLife(battery, use, { today: first, untilHealth: 0.85 });
  expect(healthAfter(battery, use, lifeDays.likely).likely).toBeCloseTo(0.85, 3);
});
