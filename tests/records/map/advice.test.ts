import { describe, expect, test } from "vitest";
import type { DaySegment } from "../../../src/calc/day/segments.js";
import type { Round, Shift, Vehicle, Yard } from "../../../src/records/index.js";
import { breakInputsOf, turnCaseOf } from "../../../src/records/map/advice.js";
import { withBreak } from "../../../src/records/map/break.js";
import { type DayCase, dayInputOf } from "../../../src/records/map/day.js";
import { HOUR_MS } from "../../../src/units/numbers.js";
import { utcMsAt } from "../../../src/units/zone.js";
import { examples } from "../examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;
const date = "2027-02-10";
const leg = (km: number, minutes: number): Round["parts"][number] => ({
  kind: "leg",
  km,
  minutes,
  climbM: 0,
  dropM: 0,
  surface: "asphalt",
  surroundings: "town",
  stopsPerKm: 1,
  headingDeg: null,
});
const stop = (payloadChangeKg: number): Round["parts"][number] => ({
  kind: "stop",
  name: "Stop",
  minutes: 10,
  shade: "open",
  sideDeg: null,
  payloadChangeKg,
  socketKw: null,
});
const shift = (n: number, leaveMinute: number): Shift => ({
  id: `${vehicle.id}/${date}/${n}`,
  v: 1,
  vehicleId: vehicle.id,
  roundId: "r",
  date,
  leaveMinute,
  loadKg: 0,
  loadClass: "empty",
  driver: null,
});
const dayWith = (parts: Round["parts"], more: Partial<DayCase>): DayCase => ({
  yard,
  vehicle,
  rounds: [{ id: "r", v: 1, yardId: yard.id, name: "Round", parts }],
  shifts: [shift(1, 8 * 60)],
  skies: [],
  readings: [
    {
      id: "read",
      v: 1,
      vehicleId: vehicle.id,
      atUtcMs: utcMsAt(date, 7 * 60, yard.zone),
      kind: "percent",
      value: 80,
      restedMin: 60,
      perBlock: false,
    },
  ],
  date,
  nowUtcMs: utcMsAt(date, 9 * 60, yard.zone),
  draws: 16,
  ...more,
});
const hoursOf = (segments: readonly DaySegment[], kind: DaySegment["kind"]): number =>
  segments
    .filter((segment) => segment.onShift && segment.kind === kind)
    .reduce((sum, { fromUtcMs, toUtcMs }) => sum + (toUtcMs - fromUtcMs) / HOUR_MS, 0);

describe("a break on a day of two shifts on one round", () => {
  const parts = [leg(10, 60), stop(0), leg(10, 60)];
  const given = dayWith(parts, { shifts: [shift(1, 8 * 60), shift(2, 14 * 60)] });

  test.each([
    ["the first shift", 9, 0],
    ["the second shift", 15, 1],
  ])("in %s is had once", (_name, hour, running) => {
    const nowUtcMs = utcMsAt(date, hour * 60, yard.zone);
    const inputs = breakInputsOf({ ...given, nowUtcMs }, { minutes: 30, socketKw: 1 });
    expect(hoursOf(inputs?.plug.segments ?? [], "plug")).toBeCloseTo(0.5, 9);
    // the same day laid out by hand: a round of its own for the running shift
    const [round] = given.rounds as [Round];
    const taken = { minutes: 30, shade: "open", socketKw: 1, name: "" } as const;
    const own = { ...withBreak(round, 60, taken), id: "own" };
    const shifts = given.shifts.map((one, i) => (i === running ? { ...one, roundId: "own" } : one));
    expect(inputs?.plug.segments).toEqual(dayInputOf({ ...given, nowUtcMs, shifts, rounds: [round, own] }).segments);
  });

  test("and a usual day of yesterday on the same round stays as it is", () => {
    // home at 10:10 yesterday; read at 10:20, which a break in yesterday's round would make a reading taken on the road
    const usual = { roundId: "r", leaveMinute: 8 * 60, loadClass: "empty" } as const;
    const day = dayWith(parts, { shifts: [], vehicle: { ...vehicle, usual } });
    const atUtcMs = utcMsAt("2027-02-09", 10 * 60 + 20, yard.zone);
    const readings = day.readings.map((reading) => ({ ...reading, atUtcMs }));
    const inputs = breakInputsOf({ ...day, readings }, { minutes: 60, socketKw: 1 });
    expect(inputs?.plug.missing).toEqual([]);
    expect(hoursOf(inputs?.plug.segments ?? [], "plug")).toBeCloseTo(1, 9);
  });
});

describe("the way out and back from now on", () => {
  const onBoard = (given: DayCase): readonly number[] => {
    const { segments } = turnCaseOf(given, 0)?.inputTo(10) ?? dayInputOf(given);
    return [...new Set(segments.filter((segment) => segment.onShift).map((segment) => segment.payloadKg))];
  };

  test("carries what was picked up until now", () => {
    const parts = [leg(2, 10), stop(250), leg(2, 10), stop(250), leg(8, 60)];
    const at = (minutes: number) => dayWith(parts, { nowUtcMs: utcMsAt(date, 8 * 60 + minutes, yard.zone) });
    expect(onBoard(at(-30))).toEqual([0]); // not yet left
    expect(onBoard(at(25))).toEqual([250]); // on the second leg
    expect(onBoard(at(60))).toEqual([500]); // both done
  });

  test("begins now on a day of a clock change too", () => {
    // Madrid, 31 October 2027: clocks go back from 3 to 2
    const madrid = { ...yard, zone: "Europe/Madrid" };
    const day = "2027-10-31";
    const nowUtcMs = Date.UTC(2027, 9, 31, 8); // 9 on the clock
    const given = dayWith([leg(10, 60), leg(10, 60)], { yard: madrid, date: day, nowUtcMs, readings: [] });
    const shifts = [{ ...shift(1, 8 * 60), date: day }];
    const input = turnCaseOf({ ...given, shifts }, 0)?.inputTo(10);
    expect(input?.segments.find((segment) => segment.onShift)?.fromUtcMs).toBe(nowUtcMs);
  });
});
