import { describe, expect, test } from "vitest";
import { planDay } from "../../../src/calc/day/plan-day.js";
import type { Round } from "../../../src/records/index.js";
import { dayInputOf } from "../../../src/records/map/day.js";
import { runShift } from "../../../src/records/map/shift.js";
import { newVehicle } from "../../../src/records/new-vehicle.js";
import { utcMsAt } from "../../../src/units/zone.js";
import { examples } from "../examples.js";

const vehicle = newVehicle({
  id: "v1",
  yardId: examples.yard.id,
  plate: "01",
  class: "eRickshaw",
  chemistry: "floodedLead",
  nominalV: 48,
});
const way = {
  kind: "leg",
  km: 3,
  minutes: 15,
  climbM: 0,
  dropM: 0,
  surface: "asphalt",
  surroundings: "town",
  stopsPerKm: 1,
  headingDeg: null,
} as const;
const stop = {
  kind: "stop",
  name: "Stop",
  minutes: 10,
  shade: "open",
  sideDeg: null,
  payloadChangeKg: 0,
  socketKw: null,
} as const;

// E-rickshaws were reported as unfit for hill country (Kathmandu Post, 30 Aug 2017): 3 km of 14 % asks for more than they have
describe("notes of a round", () => {
  const noted = (parts: Round["parts"]) => {
    const round: Round = { id: "r1", v: 1, yardId: examples.yard.id, name: "Hill", parts };
    const plan = { date: "2027-02-10", round, leaveMinute: 360, loadKg: 250 };
    return runShift(plan, { yard: examples.yard, vehicle, skies: new Map() }).legNotes;
  };

  test("say which part of the round they are about", () => {
    expect(noted([way, stop, { ...way, climbM: 420 }, way]).map((note) => note.part)).toEqual([2]);
    expect(noted([way, stop, way])).toEqual([]);
  });

  test("a hill ahead leaves no chance whatever the charge; once it is behind the charge decides", () => {
    const parts = [{ ...way, climbM: 420 }, stop, way];
    const own = { ...vehicle, usual: { roundId: "r1", leaveMinute: 360, loadClass: "full" } as const };
    const rounds: Round[] = [{ id: "r1", v: 1, yardId: examples.yard.id, name: "Hill", parts }];
    const at = (minute: number) => {
      const nowUtcMs = utcMsAt("2027-02-10", minute, examples.yard.zone);
      const full = { id: "full", v: 1, vehicleId: vehicle.id, atUtcMs: nowUtcMs, kind: "full", value: 100 } as const;
      const day = { yard: examples.yard, vehicle: own, rounds, shifts: [], skies: [], date: "2027-02-10", nowUtcMs };
      return planDay(dayInputOf({ ...day, readings: [{ ...full, restedMin: null, perBlock: false }], draws: 16 }));
    };
    const [before, after] = [at(300), at(360 + 120)];
    expect(before.lowest.p10).toBeGreaterThan(before.reserveShare); // the charge would do
    expect(before).toMatchObject({ verdict: "short", stuck: true, chance: 0 });
    expect(after).toMatchObject({ stuck: false });
  });
});
