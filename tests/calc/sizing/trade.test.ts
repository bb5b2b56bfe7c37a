// Statements of the trade, none of them with a source: common practice, no source. They bound the defaults, they prove nothing.
import { describe, expect, test } from "vitest";
import { restedVoltage, storeModel } from "../../../src/calc/battery/index.js";
import { classVehicle, type Leg, legDrain } from "../../../src/calc/road/index.js";
import { ROOF_GUESS, type Roof, roofW } from "../../../src/calc/roof/index.js";
import { kitReminders, openCircuitV } from "../../../src/calc/sizing/index.js";
import { lightUnder, sunInstant } from "../../../src/calc/sun/index.js";

const loader = { ...classVehicle("goodsLarge", 48), motorRatedW: 3000 };
const leg = (more: Partial<Leg>): Leg => ({
  km: 5,
  minutes: 15,
  climbM: 0,
  dropM: 0,
  surface: "asphalt",
  wet: false,
  stopsPerKm: 0,
  payloadKg: 0,
  airDensityKgM3: 1.16,
  ...more,
});
const twoSided: Roof = {
  faces: [90, 270].map((sideDeg) => ({ ratedW: 320, tiltDeg: 20, sideDeg, gammaPerC: -0.004 })),
  link: "trackerPerFace",
  controllerEfficiency: 0.96,
  soilingShare: 0.02,
  wireShare: 0.02,
  mismatchShare: 0.02,
  mount: ROOF_GUESS.mount,
  batteryNominalV: 48,
};

test.each([500, 700])(
  "a 3 kW motor with the original five-speed box moves %i kg (common practice, no source)",
  (payloadKg) => {
    expect(loader.gears).toHaveLength(5);
    const flat = legDrain(leg({ payloadKg }), loader);
    expect(flat.problem).toBeNull();
    expect(flat.minutes).toBe(15);
    const ramp = legDrain(leg({ payloadKg, km: 0.3, minutes: 3, climbM: 21 }), loader);
    expect(ramp.problem).not.toBe("tooSteep");
    expect(ramp.gear).toBeLessThan(5);
  },
);

test("the roof cannot supply the start-off current but can carry a moving vehicle on the sunny side (common practice, no source)", () => {
  const sun = sunInstant(Date.UTC(2027, 2, 20, 9, 20), { latDeg: 4, lonDeg: 39, altitudeM: 10 }, 3.5);
  if (!sun) throw new Error("no sun");
  // late in the morning, driving north: the right-hand face looks at the sun
  const at = { headingDeg: 0, airC: 28, windMs: 4, directBlocked: 0, diffuseBlocked: 0, albedo: 0.15 };
  const roof = roofW(sun, lightUnder(sun, 0), twoSided, at);
  const startOffW = restedVoltage({ chemistry: "lfp", seriesCount: 16, nominalV: 51.2 } as never, 0.5) * 150;
  expect(startOffW).toBeGreaterThan(10 * roof);
  const rolling = legDrain(leg({ km: 2, minutes: 12, payloadKg: 0 }), loader);
  expect(rolling.meanW).toBeLessThan(roof);
});

test("a 54 Ah lithium iron phosphate set of 48 V carries a loaded cart through a short round (common practice, no source)", () => {
  const set = storeModel(
    {
      chemistry: "lfp",
      nominalV: 48,
      ratedAh: 54,
      health: 1,
      seriesCount: 15,
      resistanceOhm: 0.04,
      peukertExponent: 1,
      ratedHours: 5,
    },
    25,
  );
  expect(set.usableWh).toBeCloseTo(2592, 0);
  const { batteryWh } = legDrain(leg({ km: 20, minutes: 75, stopsPerKm: 2, payloadKg: 250 }), loader);
  expect(batteryWh).toBeGreaterThan(0.3 * set.usableWh);
  expect(batteryWh).toBeLessThan(0.8 * set.usableWh);
});

test("weak winter sun still gives about 44 V per side of the roof (common practice, no source)", () => {
  // a side of two panels of 36 cells and 22 V each, as such roofs are wired
  const side = { at25CV: 44, cellsInSeries: 72, pctPerC: -0.29 };
  expect(openCircuitV(side, { planeWm2: 1000, cellC: 25 })).toBe(44);
  for (const [planeWm2, cellC] of [
    [200, 8],
    [250, 10],
    [300, 12],
  ] as const)
    expect(Math.abs(openCircuitV(side, { planeWm2, cellC }) - 44)).toBeLessThan(1.5);
});

describe("reminders on the kit sheet (common practice, no source)", () => {
  test("gear oil about once a year, where there is a gearbox", () => {
    expect(kitReminders(loader, 400)).toContain("gearOilYearly");
    expect(kitReminders({ gears: [1] }, 400)).not.toContain("gearOilYearly");
  });
  test("dust and water class IP65", () => {
    expect(kitReminders(loader, 0)).toContain("dustAndWaterIp65");
    expect(kitReminders(loader, 0)).not.toContain("wipeRoof");
  });
});
