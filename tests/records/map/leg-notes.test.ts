import { describe, expect, test } from "vitest";
import type { Round } from "../../../src/records/index.js";
import { runShift } from "../../../src/records/map/shift.js";
import { newVehicle } from "../../../src/records/new-vehicle.js";
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
});
