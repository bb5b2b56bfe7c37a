import { expect, test } from "vitest";
import { compareDays } from "../../src/calc/sizing/index.js";
import { type Round, readRecord, type Vehicle, type Yard } from "../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { type VariantChange, variantCases, variantOf, withSizes } from "../../src/records/map/variants.js";
import { utcMsAt } from "../../src/units/zone.js";
import { examples } from "./examples.js";

const yard = examples.yard as unknown as Yard;
const known = examples.vehicle as unknown as Vehicle;
const vehicle: Vehicle = { ...known, usual: { ...known.usual, leaveMinute: 480 } };
const round = examples.round as unknown as Round;
const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, yard.zone);
const day: DayCase = {
  yard,
  vehicle,
  rounds: [round],
  shifts: [],
  skies: [],
  readings: [],
  date: "2027-02-10",
  nowUtcMs,
};
const sides = (changes: readonly VariantChange[], given = day) =>
  compareDays(variantCases(given, changes).map((each, i) => ({ name: String(i), input: dayInputOf(each) })));

const ALL: readonly VariantChange[] = [
  { kind: "asIs" },
  { kind: "chemistry", to: "floodedLead" },
  { kind: "chemistry", to: "sealedLead" },
  { kind: "chemistry", to: "lfp" },
  { kind: "roof", to: "none" },
  { kind: "roof", to: "flat" },
  { kind: "roof", to: "twoSided" },
  { kind: "link", to: "oneTracker" },
  { kind: "link", to: "series" },
  { kind: "gears", to: "one" },
  { kind: "gears", to: "five" },
];

test("every variant is a vehicle that the records take", () => {
  for (const change of ALL) {
    const read = readRecord("vehicle", variantOf(vehicle, change));
    expect(read.ok ? [] : read.problems, JSON.stringify(change)).toEqual([]);
  }
});

test("the first side is what the others are held against, and all start full", () => {
  const [one, same] = sides([{ kind: "asIs" }, { kind: "asIs" }]);
  expect(one?.answer.start.p50).toBeGreaterThan(0.95);
  expect([same?.moreKm, same?.moreSunWh, same?.moreGridKwh, same?.moreMinutes]).toEqual([0, 0, 0, 0]);
});

test("lead-acid of the same rated energy is heavier, keeps more back and carries less far", () => {
  const lead = variantOf(vehicle, { kind: "chemistry", to: "floodedLead" });
  expect(lead.kerbKg - vehicle.kerbKg).toBeGreaterThan(100); // 7.7 units: some 30 against 100 Wh per kg
  expect(lead.battery.nominalV * lead.battery.ratedAh).toBeCloseTo(
    vehicle.battery.nominalV * vehicle.battery.ratedAh,
    6,
  );
  const [, other] = sides([{ kind: "asIs" }, { kind: "chemistry", to: "floodedLead" }]);
  expect(other?.moreKm).toBeLessThan(-10);
});

test("a roof brings sun, one tracker over two sides no more than one for each, a plain switch less", () => {
  const low: DayCase = {
    ...day,
    vehicle: { ...vehicle, battery: { ...vehicle.battery, ratedAh: 60 } },
    rounds: [{ ...round, parts: [...round.parts, ...round.parts, ...round.parts] }],
  };
  const [asIs, none, one, plain] = sides(
    [
      { kind: "asIs" },
      { kind: "roof", to: "none" },
      { kind: "link", to: "oneTracker" },
      { kind: "link", to: "series" },
    ],
    low,
  );
  expect(asIs?.answer.sunTaken.p50).toBeGreaterThan(300);
  expect(none?.answer.sunTaken.p50).toBe(0);
  expect(one?.moreSunWh).toBeLessThanOrEqual(1e-9);
  expect(plain?.moreSunWh).toBeLessThan(one?.moreSunWh ?? 0);
});

test("on a hill five gears hold what one does not", () => {
  const hill: Round = {
    ...round,
    parts: round.parts.map((part) =>
      part.kind === "leg" ? { ...part, km: 2, climbM: 160, dropM: 0, minutes: 12 } : part,
    ),
  };
  const heavy: Vehicle = { ...variantOf(vehicle, { kind: "gears", to: "five" }), fullLoadKg: 600 };
  const [five, one] = sides([{ kind: "asIs" }, { kind: "gears", to: "one" }], {
    ...day,
    vehicle: heavy,
    rounds: [hill],
  });
  expect(five?.hardest?.problem).not.toBe("tooSteep");
  expect(one?.hardest?.problem).toBe("tooSteep");
  expect(one?.moreMinutes).toBeGreaterThan(0);
});

// Panels 0.06 kg/W, lithium 0.01 and flooded lead 0.032 kg/Wh: common practice, no source (src/records/kit-weights.ts). Sums by hand.
test("a kit of other sizes is one vehicle: more panels and cells side by side, with their weight", () => {
  const roof = { ...vehicle.roof, faces: vehicle.roof.faces.map((face) => ({ ...face, ratedW: 200 })) };
  const battery = { ...vehicle.battery, nominalV: 48, ratedAh: 100, chemistry: "lfp" as const };
  const now: Vehicle = { ...vehicle, kerbKg: 400, roof, battery };
  const nowW = 200 * roof.faces.length;
  const larger = withSizes(now, { roofW: nowW * 1.5, packWh: 9600 });
  expect(larger.roof.faces.map(({ ratedW }) => ratedW)).toEqual(roof.faces.map(() => 300));
  expect(larger.battery.ratedAh).toBeCloseTo(200, 9);
  expect(larger.battery.resistanceOhm).toBeCloseTo(battery.resistanceOhm / 2, 12); // twice the cells side by side
  expect(larger.kerbKg).toBeCloseTo(400 + 0.06 * 0.5 * nowW + 0.01 * 4800, 9);
  expect(withSizes(now, { roofW: nowW + 2, packWh: 4796 })).toBe(now); // a dial's rounding is no change
  const bare: Vehicle = { ...now, roof: { ...roof, faces: [] } };
  const first = withSizes(bare, { roofW: 420, packWh: 4800 });
  expect(first.roof.faces.reduce((sum, { ratedW }) => sum + ratedW, 0)).toBeCloseTo(420, 9);
  expect(first.kerbKg).toBeCloseTo(400 + 0.06 * 420, 9);
  expect(withSizes(now, { roofW: 0, packWh: 4800 })).toMatchObject({ roof: { faces: [] }, kerbKg: 400 - 0.06 * nowW });
});
