import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { DayAnswer } from "../../src/calc/day/answer.js";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { Reading, Round, Sky, Vehicle, Yard } from "../../src/records/index.js";
import { fleetJsonSchema } from "../../src/records/json-schema.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { diceOf } from "../../src/units/dice.js";
import { utcMsAt } from "../../src/units/zone.js";
import { anyOfShape, type Shape } from "../records/arbitrary.js";
import { examples } from "../records/examples.js";

const SEED = 20_270_210;
const date = "2027-02-10";
const ZONES = [
  "Asia/Kolkata",
  "Asia/Kathmandu",
  "Africa/Nairobi",
  "America/Lima",
  "Europe/Berlin",
  "Australia/Lord_Howe",
  "UTC",
];

const shapeOf = (list: string): Shape => {
  const file = fleetJsonSchema() as Shape;
  const items = file.properties?.[list]?.items;
  if (!items) throw new Error(`no list ${list} in the schema`);
  return items;
};

/** Any day that the records' own ranges allow, tied together by its ids. */
const anyCase = (): fc.Arbitrary<DayCase> =>
  fc
    .record({
      yard: anyOfShape(shapeOf("yards")) as fc.Arbitrary<Yard>,
      vehicle: anyOfShape(shapeOf("vehicles")) as fc.Arbitrary<Vehicle>,
      round: anyOfShape(shapeOf("rounds")) as fc.Arbitrary<Round>,
      sky: anyOfShape(shapeOf("skies")) as fc.Arbitrary<Sky>,
      reading: anyOfShape(shapeOf("readings")) as fc.Arbitrary<Reading>,
      zone: fc.constantFrom(...ZONES),
      hour: fc.integer({ min: 0, max: 30 }),
    })
    .map(({ yard, vehicle, round, sky, reading, zone, hour }): DayCase => {
      const nowUtcMs = utcMsAt("2027-02-09", hour * 60, zone);
      return {
        yard: { ...yard, zone },
        vehicle: { ...vehicle, usual: { ...vehicle.usual, roundId: round.id } },
        rounds: [round],
        shifts: [],
        skies: [{ ...sky, yardId: yard.id, date }],
        readings: [{ ...reading, vehicleId: vehicle.id, atUtcMs: nowUtcMs - 60_000 }],
        date,
        nowUtcMs,
        draws: 8,
      };
    });

/** Paths of numbers that are none. */
function notNumbers(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => notNumbers(part, `${path}.${key}`));
}

test(`over the whole range of the records no answer holds a number that is none (seed ${SEED})`, () => {
  const property = fc.property(anyCase(), (given) => {
    const answer: DayAnswer = planDay(dayInputOf(given));
    expect(notNumbers(answer)).toEqual([]);
    const { book, lowest } = answer;
    const into = book.startWh + book.gridWh + book.sunTakenWh + book.missingWh;
    const out = book.driveWh + book.otherWh + book.lossWh + book.endWh;
    expect(Math.abs(into - out)).toBeLessThan(Math.max(1, 1e-9 * into));
    expect(lowest.p05).toBeGreaterThanOrEqual(0);
    expect(lowest.p95).toBeLessThanOrEqual(1 + 1e-9);
  });
  fc.assert(property, { seed: SEED, numRuns: 400, endOnFailure: true });
});

describe("records of a usual vehicle", () => {
  const yard = examples.yard as unknown as Yard;
  const known = examples.vehicle as unknown as Vehicle;
  const gears = { gears: [6.32, 3.71, 2.46, 1.71, 1.24], finalRatio: 4.11, motorRatedW: 5000, motorPeakW: 10_000 };
  const vehicle: Vehicle = { ...known, drive: { ...known.drive, ...gears } };
  const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, yard.zone);
  const reading: Reading = {
    id: "r",
    v: 1,
    vehicleId: vehicle.id,
    atUtcMs: nowUtcMs,
    kind: "percent",
    value: 85,
    restedMin: 60,
    perBlock: false,
  };
  const anyRound = (seed: number): Round => {
    const dice = diceOf(seed);
    const surfaces = ["asphalt", "wornAsphalt", "gravel", "earth"] as const;
    const parts = Array.from({ length: 2 + Math.floor(dice() * 4) }, (): Round["parts"][number][] => {
      const km = 1 + 8 * dice();
      const slope = dice() < 0.5 ? 0 : 20 * dice();
      return [
        {
          kind: "leg",
          km,
          minutes: km * (4 + 4 * dice()),
          climbM: km * slope,
          dropM: km * slope * dice(),
          surface: surfaces[Math.floor(dice() * 4)] as (typeof surfaces)[number],
          surroundings: "town",
          stopsPerKm: 3 * dice(),
          headingDeg: dice() < 0.5 ? null : 360 * dice(),
        },
        {
          kind: "stop",
          name: "stop",
          minutes: 5 + 60 * dice(),
          shade: "open",
          sideDeg: null,
          payloadChangeKg: -60 * dice(),
          socketKw: null,
        },
      ];
    }).flat();
    return { id: "r1", v: 1, yardId: yard.id, name: "any", parts };
  };
  const answer = (round: Round, of: Vehicle = vehicle): DayAnswer => {
    const usual = { ...of.usual, roundId: round.id, leaveMinute: 480 };
    const day = { yard, vehicle: { ...of, usual }, rounds: [round], shifts: [], skies: [], readings: [reading] };
    return planDay(dayInputOf({ ...day, date, nowUtcMs, draws: 64 }));
  };

  const isHot = (answer: DayAnswer): boolean => answer.legNotes.some((note) => note.problem !== "slower");

  test("a leg typed as two halves changes nothing beyond 0.1 %", () => {
    let compared = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const whole = anyRound(seed);
      const halves = whole.parts.flatMap((part): Round["parts"][number][] => {
        if (part.kind !== "leg") return [part];
        const { km, minutes, climbM, dropM } = part;
        const half = { ...part, km: km / 2, minutes: minutes / 2, climbM: climbM / 2, dropM: dropM / 2 };
        return [half, half];
      });
      const a = answer(whole);
      const b = answer({ ...whole, parts: halves });
      if (isHot(a) || isHot(b)) continue; // a motor that must cool down waits by the leg as it is typed
      compared++;
      for (const q of ["p10", "p50", "p90"] as const)
        expect(Math.abs(a.lowest[q] - b.lowest[q]), `seed ${seed}, ${q}`).toBeLessThan(1e-3);
      expect(b.km).toBeCloseTo(a.km, 9);
    }
    expect(compared).toBeGreaterThan(30);
  });

  test("more goods never raise the lowest point (without a roof: a later vehicle would meet more sun)", () => {
    const bare = { ...vehicle, roof: { ...vehicle.roof, faces: [] } };
    for (let seed = 1; seed <= 60; seed++) {
      const round = anyRound(seed);
      const light = answer(round, { ...bare, fullLoadKg: 300 });
      const heavy = answer(round, { ...bare, fullLoadKg: 450 });
      for (const q of ["p10", "p50", "p90"] as const)
        expect(heavy.lowest[q], `seed ${seed}, ${q}`).toBeLessThan(light.lowest[q]);
    }
  });
});
