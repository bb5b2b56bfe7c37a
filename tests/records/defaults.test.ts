import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkRecord } from "../../src/records/check.js";
import { guessesIn, typeInto } from "../../src/records/guesses.js";
import { readRecord } from "../../src/records/index.js";
import { newVehicle } from "../../src/records/new-vehicle.js";
import { newYard } from "../../src/records/new-yard.js";
import { nearestTown, townOfZone, towns } from "../../src/records/places.js";
import { GRID_CO2 } from "../../src/records/towns.js";
import { isZone } from "../../src/units/zone.js";

interface Ranged {
  readonly range: readonly [number, number];
}
const read = (path: string): unknown => JSON.parse(readFileSync(`shared/reference/${path}`, "utf8"));
const measured = read("vehicle/default-parameter-sets.json") as {
  readonly data: Readonly<Record<string, Readonly<Record<string, Ranged>>>>;
};
const grid = read("money/grid-factors.json") as {
  readonly data: { readonly rows: readonly { readonly country: string; readonly kgPerKwh: number }[] };
};

const classes = ["goodsLarge", "passenger", "eRickshaw", "vendingCart"] as const;
const chemistries = ["lfp", "floodedLead", "sealedLead"] as const;
const base = { id: "v1", yardId: "y1", plate: "01" };

describe("a vehicle from a few taps", () => {
  test.each(classes.flatMap((of) => chemistries.map((chemistry) => [of, chemistry] as const)))(
    "%s with %s is whole, holds nothing odd, and owns up to its guesses",
    (of, chemistry) => {
      const vehicle = newVehicle({ ...base, class: of, chemistry });
      expect(readRecord("vehicle", vehicle)).toEqual({ ok: true, value: vehicle });
      expect(checkRecord("vehicle", vehicle)).toEqual({ errors: [], warnings: [] });
      for (const path of ["kerbKg", "crr", "drive.gears", "battery.ratedAh", "roof.faces.0.ratedW", "charger.plug"])
        expect(vehicle.guesses).toContain(path);
      expect(vehicle.guesses).not.toContain("battery.chemistry");
      expect(vehicle.guesses.filter((path) => /^(id|v|plate|class|status)$/.test(path))).toEqual([]);
    },
  );

  // Ranges: shared/reference/vehicle/default-parameter-sets.json, with a source for each figure
  test.each(["goodsLarge", "passenger", "eRickshaw", "vendingCart"] as const)(
    "%s lies in the published ranges",
    (of) => {
      const vehicle = newVehicle({ ...base, class: of, chemistry: "floodedLead" });
      const { kerbKg, crr, cdaM2, payloadKg, auxiliaryW, regenShare } = measured.data[of] as Record<
        string,
        { range: [number, number] }
      >;
      const inside = (value: number, of: Ranged | undefined) => {
        expect(value).toBeGreaterThanOrEqual(of?.range[0] ?? Number.POSITIVE_INFINITY);
        expect(value).toBeLessThanOrEqual(of?.range[1] ?? Number.NEGATIVE_INFINITY);
      };
      inside(vehicle.kerbKg, kerbKg);
      inside(vehicle.crr, crr);
      inside(vehicle.cdaM2, cdaM2);
      inside(vehicle.fullLoadKg, payloadKg);
      inside(vehicle.accessories.baseW, auxiliaryW);
      if (regenShare) inside(vehicle.drive.regenShare, regenShare);
    },
  );

  test("takes what was typed, and calls it no guess", () => {
    const vehicle = newVehicle({
      ...base,
      class: "goodsLarge",
      chemistry: "lfp",
      ratedAh: 150,
      roofW: 400,
      roofShape: "twoSided",
      plug: "flat pin",
      gauge: { kind: "bars", bars: 5 },
      leaveMinute: 210,
    });
    expect(vehicle.battery.ratedAh).toBe(150);
    expect(vehicle.roof.faces.map((face) => [face.ratedW, face.sideDeg])).toEqual([
      [200, 270],
      [200, 90],
    ]);
    const typed = ["battery.ratedAh", "charger.plug", "gauge.bars", "usual.leaveMinute", "roof.faces.1.ratedW"];
    expect(vehicle.guesses.filter((path) => typed.includes(path))).toEqual([]);
    expect(vehicle.guesses).toContain("roof.faces.1.tiltDeg");
    expect(newVehicle({ ...base, class: "eRickshaw", chemistry: "lfp", roofW: 0 }).roof.faces).toEqual([]);
  });

  test("any taps give a record that the door takes", () => {
    const taps = fc.record(
      {
        class: fc.constantFrom(...classes),
        chemistry: fc.constantFrom(...chemistries),
        nominalV: fc.constantFrom(24, 36, 48, 51.2, 60, 72, 76.8),
        ratedAh: fc.integer({ min: 20, max: 300 }),
        roofW: fc.integer({ min: 0, max: 1000 }),
        roofShape: fc.constantFrom("flat" as const, "twoSided" as const),
        leaveMinute: fc.integer({ min: 0, max: 1439 }),
      },
      { requiredKeys: ["class", "chemistry"] },
    );
    fc.assert(
      fc.property(taps, (typed) => {
        const vehicle = newVehicle({ ...base, ...typed });
        expect(readRecord("vehicle", vehicle)).toEqual({ ok: true, value: vehicle });
        expect(checkRecord("vehicle", vehicle).errors).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });
});

describe("typing a figure in", () => {
  const vehicle = newVehicle({ ...base, class: "passenger", chemistry: "floodedLead" });
  test("sets it and takes it off the guesses", () => {
    const seen = typeInto("vehicle", vehicle, "battery.ratedAh", 120);
    if (!seen.ok) throw new Error("refused");
    expect(seen.value.battery.ratedAh).toBe(120);
    expect(vehicle.battery.ratedAh).toBe(100);
    expect(vehicle.guesses.filter((path) => !seen.value.guesses.includes(path))).toEqual(["battery.ratedAh"]);
  });
  test("refuses what is out of range, of a wrong kind, or has no place", () => {
    const codeOf = (path: string, value: unknown) => {
      const seen = typeInto("vehicle", vehicle, path, value);
      return seen.ok ? "" : seen.problems.map((problem) => `${problem.code} ${problem.where}`).join();
    };
    expect(codeOf("battery.ratedAh", 1e6)).toBe("tooBig battery.ratedAh");
    expect(codeOf("battery.ratedAh", Number.NaN)).toBe("wrongType battery.ratedAh");
    expect(codeOf("battery.colour", 1)).toBe("unknownField battery.colour");
    expect(codeOf("wings.0.areaM2", 1)).toBe("unknownField wings.0.areaM2");
    expect(codeOf("__proto__.polluted", 1)).toBe("unknownField __proto__.polluted");
    expect(codeOf("battery.constructor.prototype.polluted", 1)).toContain("unknownField");
    expect(Object.hasOwn(Object.prototype, "polluted")).toBe(false);
  });
  test("the guesses of a record are its leaves, with plain lists whole", () => {
    expect(guessesIn({ id: "x", a: { b: 1, c: [1, 2] }, d: [{ e: null }] }, ["a.b"])).toEqual(["a.c", "d.0.e"]);
    expect(guessesIn({ a: { b: 1, c: 2 } }, ["a"])).toEqual([]);
  });
});

describe("a yard from its clock", () => {
  const made = (zone: string) => {
    const seen = newYard({ id: "y1", name: "Yard", zone });
    if (!seen.ok) throw new Error(`${zone}: ${seen.problems[0]?.code}`);
    return seen.value;
  };
  test("every reference town makes a whole yard with nothing odd but its missing prices", () => {
    expect(towns().length).toBeGreaterThan(40);
    for (const town of towns()) {
      const seen = newYard({ id: "y1", name: "Yard", zone: town.zone, town });
      if (!seen.ok) throw new Error(town.name);
      expect(readRecord("yard", seen.value.yard)).toEqual({ ok: true, value: seen.value.yard });
      expect(checkRecord("yard", seen.value.yard)).toEqual({ errors: [], warnings: [] });
    }
  });
  test("the zone chooses the town, old names of zones included", () => {
    expect(made("Asia/Dhaka")).toMatchObject({ placedBy: "zone", yard: { latDeg: 23.81, currency: "BDT" } });
    expect(made("Asia/Calcutta").yard.currency).toBe("INR");
    expect(made("Asia/Calcutta").yard.zone).toBe("Asia/Calcutta");
  });
  test("a zone without a town takes one of the same clock on the same continent, and says so", () => {
    expect(made("Europe/Vienna")).toMatchObject({ placedBy: "offset", yard: { airMaxCByMonth: expect.anything() } });
    expect(townOfZone("Europe/Vienna")?.town.zone).toMatch(/^Europe/);
    expect(townOfZone("Africa/Windhoek")?.town.zone).toMatch(/^Africa/);
    expect(townOfZone("Etc/GMT-6")?.town.zone).toBe("Asia/Dhaka");
  });
  test("every zone the machine knows finds a town whose clock is not far off", () => {
    const zones = Intl.supportedValuesOf("timeZone");
    expect(zones.length).toBeGreaterThan(300);
    for (const zone of zones) expect(isZone(townOfZone(zone)?.town.zone ?? "")).toBe(true);
  });
  test("a zone that does not exist is refused", () => {
    expect(newYard({ id: "y1", name: "Yard", zone: "Moon/Base" })).toMatchObject({
      ok: false,
      problems: [{ code: "zoneUnknown" }],
    });
  });
  test("what was typed is no guess, all weather is", () => {
    const seen = newYard({ id: "y1", name: "Yard", zone: "Asia/Dhaka", typed: { siteLimitKw: 10, latDeg: 23 } });
    if (!seen.ok) throw new Error("refused");
    const { guesses, latDeg } = seen.value.yard;
    expect(latDeg).toBe(23);
    expect(guesses).toEqual(
      expect.arrayContaining(["lonDeg", "airMinCByMonth", "usualSkyByMonth.0.bright", "parkShade"]),
    );
    expect(guesses).not.toContain("latDeg");
    expect(guesses).not.toContain("siteLimitKw");
  });
  test("the nearest town is the nearest", () => {
    expect(nearestTown({ latDeg: 25.5, lonDeg: 91.8 })?.name).toBe("Guwahati");
    expect(nearestTown({ latDeg: -1, lonDeg: 37 })?.name).toBe("Nairobi");
    expect(nearestTown({ latDeg: -17, lonDeg: 179 })?.name).toBe("Sydney");
  });

  // Source: shared/reference/money/grid-factors.json, row by row with its own source
  test("grid factors are those of the table", () => {
    const named: Record<string, string> = {
      IN: "India",
      GB: "United Kingdom",
      US: "United States",
      BD: "Bangladesh",
      KE: "Kenya",
      NP: "Nepal",
      PE: "Peru",
      ZA: "South Africa",
    };
    for (const [code, country] of Object.entries(named)) {
      const rows = grid.data.rows.filter((row) => row.country === country);
      expect(rows.map((row) => row.kgPerKwh)).toContain(GRID_CO2[code]?.[0]);
    }
  });
});

// Physics of the place that needs no station: seasons turn with the hemisphere, air cools with height
describe("the weather of reference towns (general climate knowledge, no source)", () => {
  const mean = (months: readonly number[]) => months.reduce((total, value) => total + value, 0) / months.length;
  test.each(
    towns()
      .filter((town) => Math.abs(town.latDeg) > 28)
      .map((town) => [town.name, town] as const),
  )("%s is warmer in its summer", (_, town) => {
    const [january = 0, july = 0] = [town.airMaxCByMonth[0], town.airMaxCByMonth[6]];
    expect(july > january).toBe(town.latDeg > 0);
  });
  test("every mean temperature lies within a band that its latitude and height allow", () => {
    for (const town of towns()) {
      const yearC = mean([...town.airMaxCByMonth, ...town.airMinCByMonth]) + 0.0055 * town.altitudeM;
      const expected = 28 - 0.0075 * town.latDeg ** 2;
      expect(Math.abs(yearC - expected), town.name).toBeLessThan(10);
    }
  });
});
