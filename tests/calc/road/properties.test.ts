import fc from "fast-check";
import { expect, test } from "vitest";
import { type Leg, legDrain, type RoadVehicle } from "../../../src/calc/road/index.js";

const num = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const surface = fc.constantFrom("asphalt", "wornAsphalt", "gravel", "earth", "sand" as const);
/** Any leg the records let in. */
const anyLeg: fc.Arbitrary<Leg> = fc.record({
  km: num(0, 300),
  minutes: num(0, 2880),
  climbM: num(0, 5000),
  dropM: num(0, 5000),
  surface,
  wet: fc.boolean(),
  stopsPerKm: num(0, 30),
  payloadKg: num(0, 2000),
  airDensityKgM3: num(0.5, 1.5),
});
/** Any vehicle the records let in. */
const anyVehicle: fc.Arbitrary<RoadVehicle> = fc.record({
  kerbKg: num(80, 2000),
  driverKg: num(0, 300),
  cdaM2: num(0.2, 5),
  crr: num(0.004, 0.1),
  softTyres: fc.boolean(),
  wheelRadiusM: num(0.1, 0.5),
  finalRatio: num(0.5, 60),
  gears: fc.array(num(0.2, 30), { minLength: 1, maxLength: 8 }),
  transmissionEfficiency: num(0.3, 1),
  motorRatedW: num(100, 20_000),
  motorPeakW: num(100, 40_000),
  motorEfficiency: num(0.3, 1),
  controllerEfficiency: num(0.3, 1),
  controllerMaxA: num(5, 800),
  cutOffV: num(5, 200),
  nominalV: num(12, 150),
  maxKmh: num(5, 90),
  regenShare: num(0, 0.8),
});
/** Vehicles and legs of the trade: here more load or climb may never take less. */
const tradeVehicle: fc.Arbitrary<RoadVehicle> = fc
  .record({
    kerbKg: num(280, 600),
    driverKg: num(40, 120),
    cdaM2: num(0.75, 2),
    crr: num(0.01, 0.03),
    wheelRadiusM: num(0.19, 0.26),
    finalRatio: num(4, 12),
    gears: fc.constantFrom([1], [2, 1], [6.32, 3.71, 2.46, 1.71, 1.24]),
    transmissionEfficiency: num(0.87, 0.97),
    motorRatedW: num(650, 5000),
    peakOverRated: num(1, 3),
    motorEfficiency: num(0.75, 0.92),
    controllerEfficiency: num(0.9, 0.98),
    controllerMaxA: num(40, 300),
    cutOffV: num(40, 60),
    nominalV: num(48, 72),
    maxKmh: num(20, 60),
    regenShare: num(0, 0.3),
  })
  .map(({ peakOverRated, ...rest }) => ({ ...rest, motorPeakW: peakOverRated * rest.motorRatedW }));
const tradeLeg: fc.Arbitrary<Leg> = fc.record({
  km: num(0.2, 30),
  minutes: num(1, 120),
  climbM: num(0, 400),
  dropM: num(0, 400),
  surface,
  wet: fc.boolean(),
  stopsPerKm: num(0, 8),
  payloadKg: num(0, 900),
  airDensityKgM3: num(0.8, 1.3),
});
const more = { numRuns: 1500 }; // other legs each time; a failure names its seed

test("every answer is finite and in range over everything the records let in", () => {
  fc.assert(
    fc.property(anyLeg, anyVehicle, (leg, vehicle) => {
      const { gear, problem, ...figures } = legDrain(leg, vehicle);
      for (const figure of Object.values(figures)) expect(figure).toBeGreaterThanOrEqual(0);
      for (const figure of Object.values(figures)) expect(Number.isFinite(figure)).toBe(true);
      expect(figures.minutes).toBeGreaterThanOrEqual(leg.minutes);
      expect(figures.batteryWh).toBeGreaterThanOrEqual(figures.wheelWh - 1e-9);
      const massKg = vehicle.kerbKg + vehicle.driverKg + leg.payloadKg;
      const droppedWh = (massKg * 9.80665 * leg.dropM) / 3600;
      expect(figures.regenWh).toBeLessThanOrEqual(vehicle.regenShare * (figures.wheelWh + droppedWh) + 1e-6);
      expect(gear === null || (gear >= 1 && gear <= vehicle.gears.length)).toBe(true);
      const cut = leg.climbM + leg.dropM > 450 * leg.km; // no road is steeper: 0.45 of its length
      if (figures.batteryWh > 0) expect(problem === "noSuchRoad").toBe(cut);
      if (!cut) expect(problem === "tooSteep").toBe(gear === null && figures.batteryWh > 0);
    }),
    more,
  );
});

// Down a slope alone a heavier vehicle does take less: the leg may not end lower than it began.
test("more load never takes less", () => {
  fc.assert(
    fc.property(tradeLeg, tradeVehicle, num(0, 300), (any, vehicle, kg) => {
      const leg = { ...any, dropM: Math.min(any.dropM, any.climbM) };
      const less = legDrain(leg, vehicle).batteryWh;
      expect(legDrain({ ...leg, payloadKg: leg.payloadKg + kg }, vehicle).batteryWh).toBeGreaterThanOrEqual(
        less * (1 - 1e-8),
      );
    }),
    more,
  );
});

test("more climb never takes less", () => {
  fc.assert(
    fc.property(tradeLeg, tradeVehicle, num(0, 100), (leg, vehicle, metres) => {
      const less = legDrain(leg, vehicle).batteryWh;
      expect(legDrain({ ...leg, climbM: leg.climbM + metres }, vehicle).batteryWh).toBeGreaterThanOrEqual(
        less * (1 - 1e-8),
      );
    }),
    more,
  );
});

test("a leg split in two takes the same and as long within 0.1 %, also where its motor gets hot", () => {
  let hot = 0;
  fc.assert(
    fc.property(tradeLeg, tradeVehicle, num(0.05, 0.95), num(0, 1), (leg, vehicle, share, heat) => {
      const part = (of: number, before: number) =>
        legDrain(
          { ...leg, km: leg.km * of, minutes: leg.minutes * of, climbM: leg.climbM * of, dropM: leg.dropM * of },
          vehicle,
          before,
        );
      const whole = legDrain(leg, vehicle, heat);
      const first = part(share, heat);
      const second = part(1 - share, first.heat);
      if (whole.problem === "hot30min") hot++;
      const both = (of: "batteryWh" | "regenWh" | "minutes") => first[of] + second[of];
      for (const of of ["batteryWh", "regenWh", "minutes"] as const)
        expect(Math.abs(both(of) - whole[of]), of).toBeLessThan(0.001 * whole[of] + 1e-9);
      expect(second.heat).toBeCloseTo(whole.heat, 3);
    }),
    more,
  );
  expect(hot).toBeGreaterThan(50);
});

test("wheel energy covers lift, rolling and the speed given up at stops", () => {
  fc.assert(
    fc.property(tradeLeg, tradeVehicle, (leg, vehicle) => {
      const level = { ...leg, dropM: 0 };
      const drain = legDrain(level, { ...vehicle, regenShare: 0 });
      const massKg = vehicle.kerbKg + vehicle.driverKg + leg.payloadKg;
      const climbed = Math.min(leg.climbM, leg.km * 450);
      expect(drain.wheelWh * 3600).toBeGreaterThanOrEqual(massKg * 9.80665 * climbed * 0.999);
    }),
    more,
  );
});
