import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkFleet } from "../../src/records/check-fleet.js";
import { readFleetFile, readFleetLists, writeFleetFile } from "../../src/records/fleet-file.js";
import { type Fleet, fleetOf, type Round, type Vehicle } from "../../src/records/index.js";
import { fleetJsonSchema } from "../../src/records/json-schema.js";
import { anyFleet } from "./arbitrary.js";
import { examples } from "./examples.js";

const old = (name: string): string => readFileSync(join(import.meta.dirname, "old", name), "utf8");
const whole: Fleet = fleetOf(
  { title: "Test", invented: true },
  {
    yards: [examples.yard],
    sockets: [examples.socket],
    vehicles: [examples.vehicle],
    rounds: [examples.round],
    shifts: [examples.shift],
    skies: [examples.sky],
    readings: [examples.reading],
    entries: [examples.entry],
  },
);
const codes = (from: unknown): readonly string[] => {
  const seen = readFleetFile(from);
  return seen.ok ? [] : seen.problems.map((problem) => `${problem.code} ${problem.where}`);
};
const warnings = (fleet: Fleet): readonly string[] =>
  checkFleet(fleet).warnings.map((problem) => `${problem.code} ${problem.where}`);
const withVehicle = (change: Partial<Vehicle>): Fleet => ({ ...whole, vehicles: [{ ...examples.vehicle, ...change }] });
const withYard = (change: Partial<Fleet["yards"][number]>): Fleet => ({
  ...whole,
  yards: [{ ...examples.yard, ...change }],
});

describe("a fleet file", () => {
  test("comes back as it was written", () => {
    const seen = readFleetFile(writeFleetFile(whole));
    expect(seen).toEqual({ ok: true, value: whole });
    expect(readFleetFile(`\uFEFF${writeFleetFile(whole)}`).ok).toBe(true);
    expect(readFleetFile(structuredClone(whole)).ok).toBe(true);
  });

  test("comes back as it was written, whatever the published schema allows, and is the same text again", () => {
    fc.assert(
      fc.property(anyFleet(), (fleet) => {
        const seen = readFleetLists(fleet);
        if (!seen.ok) throw new Error(JSON.stringify(seen.problems.slice(0, 3)));
        const text = writeFleetFile(seen.value);
        const again = readFleetLists(text);
        expect(again).toEqual(seen);
        expect(again.ok && writeFleetFile(again.value)).toBe(text);
      }),
      { numRuns: 150 },
    );
  });

  test("may leave lists out, but nothing else", () => {
    const bare = { format: "noonplug-fleet", version: 1, title: "Bare", invented: false };
    expect(readFleetFile(bare)).toEqual({ ok: true, value: fleetOf({ title: "Bare", invented: false }, {}) });
    expect(codes({ ...bare, invented: undefined })).toEqual(["wrongType invented"]);
    expect(codes({ ...bare, title: undefined })).toEqual(["badForm title"]);
    expect(codes({ ...bare, vehicles: {} })).toEqual(["wrongType vehicles"]);
    expect(codes({ ...bare, format: "other" })).toEqual(["notAFleet format"]);
    expect(codes({ ...bare, version: 2 })).toEqual(["newerVersion version"]);
    expect(codes({ ...bare, version: 0.5 })).toEqual(["missing version"]);
    expect(codes({ ...bare, version: -1 })).toEqual(["unknownVersion version"]);
    expect(codes('{"format":"noonplug-fleet","version":1,"title":"x","invented":true,"__proto__":{}}')).toEqual([
      "unknownField __proto__",
    ]);
  });

  test.each(["", "{", "[]", "null", "3", '"x"', "[".repeat(10_000)])(
    "that is not one is a value, not a throw: %#",
    (text) => {
      expect(codes(text).length).toBeGreaterThan(0);
    },
  );

  test("with anything in it never throws and never half arrives", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.keys(whole)),
        fc.anything(),
        fc.constantFrom(0, 1),
        (key, part, version) => {
          const seen = readFleetFile({ ...whole, version, [key]: part });
          if (!seen.ok) expect(seen.problems.length).toBeGreaterThan(0);
        },
      ),
    );
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom(...Object.keys(examples.vehicle)), fc.anything()), (change) => {
        const seen = readFleetFile({ ...whole, vehicles: [{ ...examples.vehicle, ...change, v: 0 }] });
        expect(typeof seen.ok).toBe("boolean");
      }),
    );
  });

  test("names every broken place, and refuses the whole", () => {
    const vehicle = { ...examples.vehicle, crr: Number.NaN, colour: "red" };
    const shift = { ...examples.shift, date: "2027-02-30" };
    expect(codes({ ...whole, vehicles: [vehicle], shifts: [examples.shift, shift] })).toEqual([
      "wrongType vehicles.0.crr",
      "unknownField vehicles.0.colour",
      "badForm shifts.1.date",
    ]);
  });

  test("tells in the same go what the whole records say of each other, at their places in the file", () => {
    const broken = { ...examples.vehicle, crr: "much" };
    const twin = { ...examples.vehicle, id: "v2" };
    const twinAgain = { ...twin, id: "v3" };
    const astray = { ...examples.shift, id: "s9", vehicleId: "v9" };
    expect(codes({ ...whole, vehicles: [broken, twin, twinAgain], shifts: [examples.shift, astray] })).toEqual([
      "wrongType vehicles.0.crr",
      "doublePlate vehicles.2.plate",
      "noSuchVehicle shifts.1.vehicleId", // that of shifts.0 is there, if broken
    ]);
  });

  test("with thousands of broken places names the first and counts the rest", () => {
    const shifts = Array.from({ length: 5000 }, () => ({}));
    const seen = readFleetFile({ ...whole, shifts });
    const problems = seen.ok ? [] : seen.problems;
    expect(problems.length).toBe(201);
    expect(problems.at(-1)?.code).toBe("andMore");
  });
});

describe("older files", () => {
  test("the draft format climbs", () => {
    const seen = readFleetFile(old("fleet-v0.json"));
    if (!seen.ok) throw new Error(JSON.stringify(seen.problems));
    const [vehicle] = seen.value.vehicles;
    expect(seen.value.version).toBe(1);
    expect(seen.value.invented).toBe(true);
    expect(seen.value.yards[0]?.name).toBe("Draft yard");
    expect(vehicle?.battery.ratedAh).toBe(100); // 4,800 Wh at 48 V
    expect(vehicle?.tyres).toBe("ok");
    expect(seen.value.shifts[0]?.leaveMinute).toBe(345); // 05:45
  });

  test("a file of the first release opens for ever", () => {
    const seen = readFleetFile(old("fleet-v1.json"));
    if (!seen.ok) throw new Error(JSON.stringify(seen.problems));
    expect(seen.value.vehicles.map((vehicle) => vehicle.plate)).toEqual(["01"]);
    expect(seen.value.entries).toHaveLength(1);
  });
});

describe("what records say of each other", () => {
  test("a whole example holds nothing wrong and nothing odd", () => {
    expect(checkFleet(whole)).toEqual({
      errors: [],
      warnings: ["bandsLeaveGap"].map((code) => expect.objectContaining({ code })),
    });
  });

  test("ids and plates twice, and names of what is not there", () => {
    const twin = { ...examples.vehicle, id: "v2", plate: "0-1" };
    expect(codes({ ...whole, vehicles: [examples.vehicle, twin] })).toEqual(["doublePlate vehicles.1.plate"]);
    expect(codes({ ...whole, rounds: [examples.round, examples.round] })).toEqual(["doubleId rounds.1.id"]);
    expect(codes({ ...whole, vehicles: [] })).toEqual([
      "noSuchVehicle shifts.0.vehicleId",
      "noSuchVehicle readings.0.vehicleId",
      "noSuchVehicle entries.0.vehicleId",
    ]);
    expect(codes({ ...whole, rounds: [] })).toEqual([
      "noSuchRound shifts.0.roundId",
      "noSuchRound vehicles.0.usual.roundId",
    ]);
    expect(codes({ ...whole, sockets: [{ ...examples.socket, yardId: "y9" }] })).toEqual([
      "noSuchYard sockets.0.yardId",
    ]);
  });

  test("two yards may each have a vehicle 01", () => {
    const second = { ...examples.yard, id: "y2" };
    const round = { ...examples.round, id: "r2", yardId: "y2" };
    const vehicle = {
      ...examples.vehicle,
      id: "v2",
      yardId: "y2",
      usual: { ...examples.vehicle.usual, roundId: "r2" },
    };
    const fleet = {
      ...whole,
      yards: [examples.yard, second],
      rounds: [examples.round, round],
      vehicles: [examples.vehicle, vehicle],
    };
    expect(codes(fleet)).toEqual([]);
  });
});

describe("figures that cannot be", () => {
  const { battery, drive, roof } = examples.vehicle;
  const face = { name: "x", ratedW: 200, tiltDeg: 100, sideDeg: 0, gammaPerC: -0.004 };
  test.each([
    [
      "a set of nothing",
      withVehicle({ battery: { ...battery, ratedAh: 0 } }),
      "batteryZero vehicles.0.battery.ratedAh",
    ],
    [
      "a set worn to nothing",
      withVehicle({ battery: { ...battery, health: 0 } }),
      "batteryZero vehicles.0.battery.health",
    ],
    [
      "a panel that looks down",
      withVehicle({ roof: { ...roof, faces: [face] } }),
      "facesGround vehicles.0.roof.faces.0.tiltDeg",
    ],
    ["no gear at all", withVehicle({ drive: { ...drive, gears: [] } }), "tooShort vehicles.0.drive.gears"],
    [
      "a peak below the rated power",
      withVehicle({ drive: { ...drive, motorPeakW: 500 } }),
      "peakBelowRated vehicles.0.drive.motorPeakW",
    ],
    [
      "a cut-off above the set",
      withVehicle({ drive: { ...drive, cutOffV: 60 } }),
      "cutOffAboveSet vehicles.0.drive.cutOffV",
    ],
    [
      "bars without a number",
      withVehicle({ gauge: { kind: "bars", bars: null } }),
      "barsMissing vehicles.0.gauge.bars",
    ],
    ["a zone nobody keeps", withYard({ zone: "Moon/Base" }), "zoneUnknown yards.0.zone"],
    ["a latitude beyond the pole", withYard({ latDeg: 91 }), "tooBig yards.0.latDeg"],
    [
      "nights hotter than days",
      withYard({ airMinCByMonth: Array(12).fill(30) }),
      "minAboveMax yards.0.airMinCByMonth.0",
    ],
    [
      "a cut that ends first",
      withYard({ cuts: [{ fromUtcMs: 1.8e12, toUtcMs: 1.7e12 }] }),
      "endsBeforeStart yards.0.cuts.0",
    ],
    ["a round without a leg", { ...whole, rounds: [{ ...examples.round, parts: [] }] }, "noLegs rounds.0.parts"],
    [
      "more than all",
      { ...whole, readings: [{ ...examples.reading, kind: "percent", value: 150 }] },
      "percentAbove100 readings.0.value",
    ],
    [
      "an hour that is none",
      withYard({ staff: { ...examples.yard.staff, wake: ["25:00"] } }),
      "badForm yards.0.staff.wake.0",
    ],
  ] as const)("%s", (_, fleet, expected) => expect(codes(fleet)).toContain(expected));
});

describe("figures that are only odd", () => {
  const { tariff } = examples.yard;
  const bands = (...times: readonly (readonly [string, string])[]) =>
    withYard({ tariff: { ...tariff, bands: times.map(([from, to]) => ({ from, to, perKwhMinor: 1 })) } });
  const parts: Round["parts"] = examples.round.parts;
  test("a place on a pole is taken", () => {
    expect(codes(withYard({ latDeg: 90, zone: "UTC", lonDeg: 0 }))).toEqual([]);
    expect(warnings(withYard({ latDeg: 90, zone: "UTC", lonDeg: 0 }))).toContain("pole yards.0.latDeg");
  });
  test("a place on the far side of its clock", () => {
    expect(warnings(withYard({ lonDeg: -90.4 }))).toContain("zoneFarFromPlace yards.0.lonDeg");
    expect(warnings(withYard({ zone: "Pacific/Auckland", lonDeg: 174.8 })).join()).not.toContain("zoneFarFromPlace");
    expect(warnings(withYard({ zone: "Pacific/Apia", lonDeg: -171.8 })).join()).not.toContain("zoneFarFromPlace");
    expect(warnings(withYard({ zone: "Asia/Urumqi", lonDeg: 87.6 })).join()).not.toContain("zoneFarFromPlace");
  });
  test("bands that overlap, that leave a gap, that fill the day across midnight", () => {
    expect(warnings(bands(["22:00", "06:00"], ["05:00", "22:00"]))).toEqual(["bandsOverlap yards.0.tariff.bands.1"]);
    expect(warnings(bands(["22:00", "06:00"], ["06:00", "21:00"]))).toEqual(["bandsLeaveGap yards.0.tariff.bands"]);
    expect(warnings(bands(["22:00", "06:00"], ["06:00", "22:00"]))).toEqual([]);
    expect(warnings(bands(["00:00", "24:00"]))).toEqual([]);
  });
  test("a load on the meter above what the site may draw", () => {
    const baseLoadKwByHour = examples.yard.baseLoadKwByHour.map((kw, hour) => (hour === 3 ? 12 : kw));
    expect(warnings(withYard({ baseLoadKwByHour }))).toContain("baseLoadAboveLimit yards.0.baseLoadKwByHour.3");
    expect(warnings(withYard({ marginKw: 10 }))).toContain("marginAboveLimit yards.0.marginKw");
  });
  test("more on board than the law allows, and more off than was on", () => {
    const heavy = { ...examples.shift, loadKg: 600 };
    expect(warnings({ ...whole, shifts: [heavy] })).toContain("overLegalLoad shifts.0");
    expect(warnings(withVehicle({ fullLoadKg: 501 }))).toContain("overLegalLoad vehicles.0.fullLoadKg");
    expect(warnings({ ...whole, shifts: [{ ...examples.shift, loadKg: 100 }] })).toContain(
      "unloadsMoreThanThere shifts.0",
    );
  });
  test("a count of cells that does not suit the set; blocks do", () => {
    const { battery } = examples.vehicle;
    expect(warnings(withVehicle({ battery: { ...battery, seriesCount: 9 } }))).toContain(
      "seriesCountOdd vehicles.0.battery.seriesCount",
    );
    const lead = { ...battery, chemistry: "floodedLead", nominalV: 48 } as const;
    for (const seriesCount of [24, 8, 4])
      expect(warnings(withVehicle({ battery: { ...lead, seriesCount } })).join()).not.toContain("seriesCountOdd");
  });
  test("a plug that fits no socket, a string above the charge controller", () => {
    expect(warnings(withVehicle({ charger: { ...examples.vehicle.charger, plug: "flat pin" } }))).toContain(
      "noSocketForPlug vehicles.0.charger.plug",
    );
    const roof = { ...examples.vehicle.roof, controllerMaxV: 20 };
    expect(warnings(withVehicle({ roof }))).toContain("stringAboveController vehicles.0.roof.faces.0.openCircuitV");
  });
  test("a leg faster than any three-wheeler, and a shift over midnight, which is nothing odd", () => {
    const [first, ...rest] = parts;
    if (first?.kind !== "leg") throw new Error("the example begins with a leg");
    const fleet = { ...whole, rounds: [{ ...examples.round, parts: [{ ...first, minutes: 2 }, ...rest] }] };
    expect(warnings(fleet)).toContain("legTooFast rounds.0.parts.0.minutes");
    expect(warnings({ ...whole, shifts: [{ ...examples.shift, leaveMinute: 1439 }] })).toEqual(warnings(whole));
  });
});

test("the published schema of the file is the one the app reads with", () => {
  const published: unknown = JSON.parse(readFileSync("shared/fleet-file.schema.json", "utf8"));
  expect(published).toEqual(JSON.parse(JSON.stringify(fleetJsonSchema())));
});
