import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type KindName, kindNames, kinds, readRecord } from "../../src/records/index.js";
import { examples } from "./examples.js";

type Path = readonly (string | number)[];
const isObject = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;

function pathsOf(value: unknown, at: Path = []): { readonly path: Path; readonly value: unknown }[] {
  if (!isObject(value)) return [{ path: at, value }];
  const inner = Object.entries(value).flatMap(([key, part]) =>
    pathsOf(part, [...at, Array.isArray(value) ? Number(key) : key]),
  );
  return at.length > 0 ? [{ path: at, value }, ...inner] : inner;
}

function changed(record: unknown, path: Path, change: (owner: Record<string, unknown>, key: string) => void): unknown {
  const copy: unknown = structuredClone(record);
  let owner = copy as Record<string, unknown>;
  for (const step of path.slice(0, -1)) owner = owner[step] as Record<string, unknown>;
  change(owner, String(path.at(-1)));
  return copy;
}

const places = kindNames.flatMap((kind) => pathsOf(examples[kind]).map((place) => ({ kind, ...place })));
const numbers = places.filter((place) => typeof place.value === "number");
const codesOf = (kind: KindName, raw: unknown) => {
  const seen = readRecord(kind, raw);
  return seen.ok ? [] : seen.problems.map((problem) => `${problem.code} ${problem.where}`);
};

describe("the one door", () => {
  test.each(kindNames)("takes a whole %s unchanged", (kind) => {
    expect(readRecord(kind, examples[kind])).toEqual({ ok: true, value: examples[kind] });
  });

  test("has looked at many numbers", () => expect(numbers.length).toBeGreaterThan(100));

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e300, -1e300, "1", null, {}])(
    "takes %s for no number that may not be absent, and names the place",
    (wrong) => {
      for (const { kind, path } of numbers) {
        const raw = changed(examples[kind], path, (owner, key) => {
          owner[key] = wrong;
        });
        const seen = readRecord(kind, raw);
        // a place that may be empty takes null; what stood in an entry before may be any short value
        if (seen.ok) expect(wrong === null || (wrong === "1" && path.includes("formerly")) ? "" : path).toBe("");
        else expect(seen.problems.some((problem) => problem.where.startsWith(path.join(".")))).toBe(true);
      }
    },
  );

  test("refuses a record with any one part taken away, unless that part is optional", () => {
    const optional = /breakerA$|panelsInSeries$|openCircuitV$|maxPowerV$|On$|parts\.\d+\.name$/;
    for (const { kind, path } of places) {
      const owner = path.slice(0, -1).join(".");
      if (typeof path.at(-1) === "number") continue; // list items: an object with a hole is no JSON
      const raw = changed(examples[kind], path, (inside, key) => delete inside[key]);
      const seen = readRecord(kind, raw);
      const place = path.join(".");
      if (seen.ok) expect(place).toMatch(optional);
      else expect(seen.problems.filter((problem) => !problem.where.startsWith(owner))).toEqual([]);
    }
  });

  test("refuses any unknown field, at any depth, by its path", () => {
    for (const { kind, path, value } of places) {
      if (!isObject(value) || Array.isArray(value)) continue;
      const raw = changed(examples[kind], path, (owner, key) => {
        owner[key] = { ...value, colour: "red" };
      });
      expect(codesOf(kind, raw)).toContain(`unknownField ${[...path, "colour"].join(".")}`);
    }
  });

  test("never throws and never lets a wrong number through, whatever comes in", () => {
    const hasWrongNumber = (value: unknown): boolean =>
      typeof value === "number"
        ? !Number.isFinite(value)
        : isObject(value) && Object.values(value).some((part) => hasWrongNumber(part));
    const spoiled = fc
      .tuple(fc.nat(places.length - 1), fc.anything({ withBigInt: true, withDate: true }))
      .map(([n, part]) => {
        const place = places[n] ?? places[0];
        if (!place) throw new Error("no places");
        return {
          kind: place.kind,
          raw: changed(examples[place.kind], place.path, (owner, key) => {
            owner[key] = part;
          }),
        };
      });
    fc.assert(
      fc.property(spoiled, ({ kind, raw }) => {
        const seen = readRecord(kind, raw);
        expect(seen.ok && hasWrongNumber(seen.value)).toBe(false);
        if (!seen.ok) expect(seen.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
    for (const raw of [undefined, null, 3, "x", [], {}, { v: 1 }]) expect(readRecord("yard", raw).ok).toBe(false);
  });

  test("says of a newer version that it is newer, of an unknown old one that no way leads up", () => {
    expect(codesOf("yard", { ...examples.yard, v: kinds.yard.version + 1 })).toEqual(["newerVersion v"]);
    expect(codesOf("yard", { ...examples.yard, v: -3 })).toEqual(["unknownVersion v"]);
  });

  test("names limit and finding", () => {
    const battery = { ...examples.vehicle.battery, ratedAh: 3 };
    expect(readRecord("vehicle", { ...examples.vehicle, battery })).toEqual({
      ok: false,
      problems: [{ code: "tooSmall", where: "battery.ratedAh", figures: { least: 5, found: 3 } }],
    });
    expect(codesOf("shift", { ...examples.shift, date: "2027-02-30" })).toEqual(["badForm date"]);
  });
});
