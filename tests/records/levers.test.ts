import { describe, expect, test } from "vitest";
import { type Lever, leversOf, withShade } from "../../src/calc/day/levers.js";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { Reading, Round, Vehicle, Yard } from "../../src/records/index.js";
import { changedInputOf } from "../../src/records/map/change.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { HOUR_MS } from "../../src/units/numbers.js";
import { utcMsAt } from "../../src/units/zone.js";
import { examples } from "./examples.js";

const yard = examples.yard as unknown as Yard;
const known = examples.vehicle as unknown as Vehicle;
const box = { gears: [6.32, 3.71, 2.46, 1.71, 1.24], finalRatio: 4.11, motorRatedW: 4000, motorPeakW: 8000 };
const vehicle: Vehicle = {
  ...known,
  drive: { ...known.drive, ...box }, // holds the hill that is laid in its way
  usual: { ...known.usual, leaveMinute: 480 },
};
const base = examples.round as unknown as Round;
const round: Round = { ...base, parts: [...base.parts, ...base.parts, ...base.parts] };
const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, yard.zone);
const reading: Reading = {
  id: "r",
  v: 1,
  vehicleId: vehicle.id,
  atUtcMs: nowUtcMs,
  kind: "percent",
  value: 80,
  restedMin: 60,
  perBlock: false,
};
const day: DayCase = {
  yard,
  vehicle,
  rounds: [round],
  shifts: [],
  skies: [],
  readings: [reading],
  date: "2027-02-10",
  nowUtcMs,
};

const levers = leversOf(planDay(dayInputOf(day)), (change) => planDay(changedInputOf(day, change)));
const cost = (kind: Lever["change"]): number => levers.find((lever) => lever.change === kind)?.costKm ?? Number.NaN;

test("a km more costs about a km, somewhat less where the longer day meets more sun", () => {
  expect(cost("km")).toBeGreaterThan(0.75);
  expect(cost("km")).toBeLessThan(1.4);
});

test("weight costs as rolling and climbing ask, roughly in proportion to the weight of the vehicle", () => {
  // at slow speed nearly all of the energy grows with weight: 10 kg of about 950 is about 1 % of the range
  const answer = planDay(dayInputOf(day));
  const reach = answer.kmLeft.p50 + answer.km;
  expect(cost("kg")).toBeGreaterThan(0.004 * reach);
  expect(cost("kg")).toBeLessThan(0.016 * reach);
});

test("a degree of slope on one kilometre costs the energy of lifting the vehicle 17.5 m, less what it saves downhill", () => {
  const answer = planDay(dayInputOf(day));
  const massKg = vehicle.kerbKg + vehicle.driverKg + vehicle.fullLoadKg;
  const liftWh = (massKg * 9.81 * 17.46) / 3600; // weight times height: all that can be lost
  const km = liftWh / answer.whPerKm;
  expect(cost("slopeDeg")).toBeGreaterThan(0.2 * km);
  expect(cost("slopeDeg")).toBeLessThan(2.2 * km); // and what drive line and set lose on it
});

test("an hour of shade costs what the roof would have brought, and none without a roof", () => {
  const input = dayInputOf(day);
  const shaded = withShade(input, 1);
  const before = input.segments.reduce((sum, s) => sum + s.toUtcMs - s.fromUtcMs, 0);
  expect(shaded.segments.reduce((sum, s) => sum + s.toUtcMs - s.fromUtcMs, 0)).toBe(before);
  expect(shaded.segments.reduce((sum, s) => sum + s.km, 0)).toBeCloseTo(
    input.segments.reduce((sum, s) => sum + s.km, 0),
    9,
  );
  const dark = shaded.segments.filter((s) => s.directBlocked >= 0.95 && s.diffuseBlocked >= 0.6 && s.onShift);
  expect(dark.reduce((sum, s) => sum + s.toUtcMs - s.fromUtcMs, 0)).toBe(HOUR_MS);
  const answer = planDay(input);
  const lostKm = (answer.book.sunTakenWh - planDay(shaded).book.sunTakenWh) / answer.whPerKm;
  expect(cost("shadeHours")).toBeGreaterThan(0.5 * lostKm);
  expect(cost("shadeHours")).toBeLessThan(1.5 * lostKm);
  const bare = dayInputOf({ ...day, vehicle: { ...vehicle, roof: { ...vehicle.roof, faces: [] } } });
  expect(planDay(withShade(bare, 1)).kmLeft.p50).toBeCloseTo(planDay(bare).kmLeft.p50, 9);
});

describe("the parts of the doubt", () => {
  const sharesWith = (more: Partial<DayCase>) => planDay(dayInputOf({ ...day, ...more })).doubtShares;
  test("add to one and follow their causes", () => {
    const usual = sharesWith({});
    expect(usual.start + usual.drive + usual.sky + usual.other).toBeCloseTo(1, 9);
    const unlearned = sharesWith({ vehicle: { ...vehicle, learned: null } });
    expect(unlearned.drive).toBeGreaterThan(usual.drive);
    const bars = sharesWith({
      readings: [{ ...reading, kind: "bars", value: 3 }],
      vehicle: { ...vehicle, gauge: { kind: "bars", bars: 4 } },
    });
    expect(bars.start).toBeGreaterThan(usual.start);
  });
});
