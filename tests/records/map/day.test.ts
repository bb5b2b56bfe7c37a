import { describe, expect, test } from "vitest";
import { planDay } from "../../../src/calc/day/plan-day.js";
import { newPlaceSky } from "../../../src/calc/learn/sky.js";
import type { Reading, Round, Shift, Vehicle, Yard } from "../../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../../src/records/map/day.js";
import { learnUntil, startLearning } from "../../../src/records/map/learn.js";
import { learnedInputOf } from "../../../src/records/map/learned-input.js";
import { dateAsked } from "../../../src/records/map/next-shift.js";
import { newVehicle } from "../../../src/records/new-vehicle.js";
import { HOUR_MS, MINUTE_MS } from "../../../src/units/numbers.js";
import { utcMsAt } from "../../../src/units/zone.js";
import { examples } from "../examples.js";

// Every case here is one that would leave somebody on the road if it were answered otherwise; the expectation follows from the case itself.
const yard: Yard = { ...examples.yard, cuts: [] };
const vehicle: Vehicle = {
  ...newVehicle({
    id: "v1",
    yardId: yard.id,
    plate: "01",
    class: "goodsLarge",
    chemistry: "lfp",
    nominalV: 51.2,
    ratedAh: 100,
  }),
  status: "working",
};
const legOf = (km: number, minutes = km * 3) =>
  ({
    kind: "leg",
    km,
    minutes,
    climbM: 0,
    dropM: 0,
    surface: "asphalt",
    surroundings: "openRoad",
    stopsPerKm: 0.5,
    headingDeg: null,
  }) as const;
const roundOf = (id: string, km: number): Round => ({
  id,
  v: 1,
  yardId: yard.id,
  name: id,
  parts: [
    legOf(km / 2),
    {
      ...examples.round.parts.find(({ kind }) => kind === "stop"),
      minutes: 60,
      payloadChangeKg: 0,
      socketKw: null,
    } as Round["parts"][number],
    legOf(km / 2),
  ],
});
const DAY = "2027-02-10";
const at = (clock: number, date = DAY) => utcMsAt(date, clock * 60, yard.zone);
const shiftOf = (roundId: string, date: string, hour: number): Shift => ({
  ...examples.shift,
  id: `${date}/${hour}`,
  vehicleId: "v1",
  roundId,
  date,
  leaveMinute: hour * 60,
  loadKg: 200,
});
const readingOf = (atUtcMs: number, value: number): Reading => ({
  id: `r${atUtcMs}`,
  v: 1,
  vehicleId: "v1",
  atUtcMs,
  kind: "percent",
  value,
  restedMin: null,
  perBlock: false,
});
const usual = (roundId: string | null, hour = 6): Vehicle => ({
  ...vehicle,
  usual: { roundId, leaveMinute: hour * 60, loadClass: "half" },
});
const caseOf = (some: Partial<DayCase>): DayCase => ({
  yard,
  vehicle: usual("day"),
  rounds: [roundOf("day", 24), roundOf("night", 40)],
  shifts: [],
  skies: [],
  readings: [],
  date: DAY,
  nowUtcMs: at(20, "2027-02-09"),
  draws: 64,
  ...some,
});
const answer = (some: Partial<DayCase>) => planDay(dayInputOf(caseOf(some)));

describe("shifts between the reading and the day", () => {
  test("a shift of the evening before that passed midnight makes an earlier reading worthless", () => {
    const shifts = [shiftOf("night", "2027-02-09", 22), shiftOf("day", DAY, 9)];
    const found = answer({ shifts, readings: [readingOf(at(0.2), 90)], nowUtcMs: at(6) });
    expect(found.missing).toEqual(["reading"]);
    expect(found.verdict).toBe("notKnown");
  });
  test("the round of tomorrow is gone through before the one of the day after", () => {
    const known = { readings: [readingOf(at(19, "2027-02-09"), 90)], yard: { ...yard, parkShade: "roofed" as const } };
    const tomorrow = answer(known);
    const after = answer({ ...known, date: "2027-02-11" });
    expect(tomorrow.home.p50).toBeLessThan(0.85);
    expect(after.start.p50).toBeCloseTo(0.9, 1);
    expect(after.home.p50).toBeLessThan(tomorrow.home.p50 - 0.1);
    expect(after.km).toBeCloseTo(tomorrow.km, 9); // the answer is about one day's way
  });
  test("after midnight the question is about the shift that leaves at one, not about the morning's", () => {
    const shifts = [shiftOf("night", "2027-02-09", 25), shiftOf("day", DAY, 9)];
    const given = { yard, vehicle: usual(null), rounds: [roundOf("day", 24), roundOf("night", 40)], shifts };
    expect(dateAsked(given, at(0.5))).toBe("2027-02-09");
    expect(dateAsked(given, at(8))).toBe(DAY);
    expect(dateAsked({ ...given, shifts: [shiftOf("night", "2027-02-09", 47), shiftOf("day", DAY, 9)] }, at(8))).toBe(
      DAY,
    );
  });
});

describe("a reading near the hour of leaving", () => {
  test("twenty minutes after it the whole way still lies ahead", () => {
    const early = answer({ readings: [readingOf(at(5.9), 72)], nowUtcMs: at(5.9) });
    const late = answer({ readings: [readingOf(at(6.3), 72)], nowUtcMs: at(6.3) });
    expect(late.km).toBeCloseTo(early.km, 9);
    expect(Math.abs(late.lowest.p50 - early.lowest.p50)).toBeLessThan(0.03);
  });
  test("well into the round what is driven is behind", () => {
    expect(answer({ readings: [readingOf(at(7), 60)], nowUtcMs: at(7) }).km).toBeLessThan(14);
  });
});

describe("the last moment to plug in", () => {
  const low = { readings: [readingOf(at(19, "2027-02-09"), 22)] };
  const asked = answer(low).topUp;
  test("lies before an announced cut, by as long as the cut lasts", () => {
    const cuts = [{ fromUtcMs: at(3), toUtcMs: at(5.5) }];
    const found = answer({ ...low, yard: { ...yard, cuts } }).topUp;
    expect(asked.code).toBe("needed");
    expect(asked.latestPlugInUtcMs).toBeGreaterThan(at(3));
    expect(found.chargeMinutes).toBeCloseTo(asked.chargeMinutes, 6);
    const minutesOn = asked.chargeMinutes - 30; // half an hour is left after the cut
    expect(found.latestPlugInUtcMs).toBeCloseTo(at(3) - minutesOn * MINUTE_MS, -1);
  });
  test("is earlier on a weak socket, and charging from then on makes the day enough", () => {
    const sockets = [{ ...examples.socket, yardId: yard.id, plug: vehicle.charger.plug.toUpperCase(), limitKw: 0.7 }];
    const found = answer({ ...low, sockets }).topUp;
    expect(found.latestPlugInUtcMs).toBeLessThan((asked.latestPlugInUtcMs as number) - HOUR_MS);
    const plug = {
      fromUtcMs: found.latestPlugInUtcMs as number,
      toUtcMs: at(6),
      chargerW: 700 * vehicle.charger.efficiency,
    };
    expect(answer({ ...low, sockets, plugs: [plug] }).chance).toBeGreaterThan(0.87);
  });
  test("is not promised where the whole night is taken by a slot already", () => {
    const slot = { fromUtcMs: at(19, "2027-02-09"), toUtcMs: at(6), chargerW: 60 };
    const found = answer({ ...low, plugs: [slot] });
    expect(found.verdict).not.toBe("enough");
    expect(found.topUp).toMatchObject({ code: "noTime", latestPlugInUtcMs: null });
  });
});

describe("a slot that was planned", () => {
  const slot = { fromUtcMs: at(22, "2027-02-09"), toUtcMs: at(1), chargerW: 1500 };
  const low = { readings: [readingOf(at(19.5, "2027-02-09"), 20)] };
  test("counts while it lies ahead, and when it was ticked", () => {
    expect(answer({ ...low, plugs: [{ ...slot, unticked: true }] }).verdict).toBe("enough");
    expect(answer({ ...low, plugs: [slot], nowUtcMs: at(5.75) }).verdict).toBe("enough");
  });
  test("says nothing when it is over and nobody ticked it", () => {
    const found = answer({ ...low, plugs: [{ ...slot, unticked: true }], nowUtcMs: at(5.75) });
    expect(found).toMatchObject({ verdict: "notKnown", missing: ["reading"] });
  });
  test("gives way to a reading taken since", () => {
    const readings = [...low.readings, readingOf(at(5.5), 80)];
    const found = answer({ readings, plugs: [{ ...slot, unticked: true }], nowUtcMs: at(5.75) });
    expect(found.missing).toEqual([]);
    expect(found.start.p50).toBeCloseTo(0.8, 1);
  });
});

describe("a level that was worked out", () => {
  const known = [readingOf(at(5), 90)];
  const records = {
    yard,
    vehicle: usual("day"),
    rounds: caseOf({}).rounds,
    shifts: [],
    skies: [],
    readings: known,
    entries: [],
  };
  const place = newPlaceSky(yard.id);
  const upTo = (utcMs: number) => ({
    ...learnUntil(startLearning(records.vehicle), records, place, utcMs).vehicle,
    on: true,
  });
  const asked = caseOf({ date: "2027-02-11", nowUtcMs: at(20), readings: known });
  test("is no more known than a reading of that moment, once the vehicle was out", () => {
    expect(dayInputOf(asked).missing).toEqual(["reading"]);
    expect(learnedInputOf(asked, { vehicle: upTo(at(5.75)), place: null }).missing).toEqual(["reading"]);
  });
  test("stands in for a reading as long as the vehicle stood", () => {
    const given = { ...asked, date: DAY, nowUtcMs: at(5.9), readings: [] };
    expect(dayInputOf(given).missing).toEqual(["reading"]);
    const input = learnedInputOf(given, { vehicle: upTo(at(5.75)), place: null });
    expect(input.missing).toEqual([]);
    expect(input.doubt.startShare).toBeCloseTo(0.9, 1);
  });
});

test("with no reserve at all an empty set is still not enough", () => {
  const bare = usual("day");
  const none: Vehicle = { ...bare, battery: { ...bare.battery, reserveShare: 0, floorShare: 0 } };
  const found = answer({
    vehicle: { ...none, roof: { ...none.roof, faces: [] } },
    rounds: [roundOf("day", 90)],
    readings: [readingOf(at(5), 30)],
    nowUtcMs: at(5),
  });
  expect(found.verdict).toBe("short");
  expect(found.chance).toBeLessThan(0.05);
});

test("a stand of ten hours follows the air of the day, and is one stand to look at", () => {
  const long = roundOf("day", 4);
  const parts = long.parts.map((part) =>
    part.kind === "stop" ? { ...part, minutes: 600, shade: "open" as const } : part,
  );
  const input = dayInputOf(caseOf({ rounds: [{ ...long, parts }], readings: [readingOf(at(5), 90)], nowUtcMs: at(5) }));
  const stand = input.segments.filter(({ kind }) => kind === "stop");
  const air = stand.map(({ airC }) => airC);
  expect(Math.max(...air) - Math.min(...air)).toBeGreaterThan(5);
  expect(planDay(input).segments.filter(({ kind }) => kind === "stop")).toHaveLength(1);
});

test.each(["Asia/Kolkata", "Asia/Kathmandu", "Asia/Dhaka"])(
  "cloud from eleven o'clock on falls on eleven o'clock in %s",
  (zone) => {
    const here = { ...yard, zone, parkShade: "open" as const };
    const oktas = Array.from({ length: 24 }, (_, hour) => (hour < 11 ? 0 : 8));
    const cover = { kind: "hours" as const, oktas, thin: oktas.map(() => false) };
    const sky = { ...examples.sky, id: "s", yardId: yard.id, date: DAY, cover };
    const noon = (hour: number) => utcMsAt(DAY, hour * 60, zone);
    const standing = { ...usual("day", 16), roof: { ...vehicle.roof } };
    const input = dayInputOf(
      caseOf({ yard: here, vehicle: standing, skies: [sky], readings: [readingOf(noon(6), 40)], nowUtcMs: noon(6) }),
    );
    const sun = new Map(planDay(input).sunHours.map((hour) => [hour.fromUtcMs, hour.offeredWh / hour.openSkyWh]));
    expect(sun.get(noon(10))).toBeGreaterThan(0.9 * (sun.get(noon(9)) as number));
    expect(sun.get(noon(11))).toBeLessThan(0.6 * (sun.get(noon(10)) as number));
    expect(sun.get(noon(12))).toBeCloseTo(sun.get(noon(11)) as number, 1);
  },
);
