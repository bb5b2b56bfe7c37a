import { describe, expect, test } from "vitest";
import {
  CLASS_GUESSES,
  classVehicle,
  cycleSummary,
  cycleWork,
  type Leg,
  legDrain,
  type RoadVehicle,
  type Trace,
  type VehicleClass,
} from "../../../src/calc/road/index.js";
import { cycleOf, dataOf, legOf } from "./fixtures.js";

describe("a leg against the prescribed cycles of tests/reference, from length, time and stops alone", () => {
  const stopsOf = ({ speedsKmh }: Trace) => speedsKmh.filter((v, i) => v === 0 && (speedsKmh[i - 1] ?? 0) > 0).length;
  const drives = [
    ["cycle-idc", null],
    ["cycle-idc", 30],
    ["cycle-idc", 25],
    ["cycle-ece15", null],
    ["cycle-ece15", 30],
    ["cycle-wmtc-part1", null],
    ["cycle-wmtc-part1", 30],
    ["cycle-udds", 45],
    ["cycle-udds", 30],
  ] as const;
  const errors = drives.flatMap(([file, capKmh]) =>
    [525, 825, 1125].map((massKg) => {
      const trace = cycleOf(file);
      const car = { massKg, crr: 0.016, cdaM2: 1.2, airDensityKgM3: 1.2, grade: 0, rotatingFactor: 1.05 };
      const work = cycleWork(trace, car, { capKmh, stepS: 0.1 });
      const km = work.distanceM / 1000;
      // A drive strong enough to follow every cycle: only the model of stop and go is looked at.
      const strong = { motorPeakW: 30_000, controllerMaxA: 2000, maxKmh: capKmh ?? cycleSummary(trace).maxKmh };
      const vehicle = { ...classVehicle("goodsLarge", 51.2), ...car, ...strong, kerbKg: massKg - 75 };
      const leg = legOf({ km, minutes: work.durationS / 60, stopsPerKm: stopsOf(trace) / km });
      return { what: `${file} ${capKmh} ${massKg}`, off: legDrain(leg, vehicle).wheelWh / work.driveWh - 1 };
    }),
  );
  const off = errors.map((each) => each.off);
  const mean = off.reduce((a, b) => a + b, 0) / off.length;

  test("each within 20 %", () => expect(errors.filter((each) => Math.abs(each.off) > 0.2)).toEqual([]));
  test("root mean square within 9 %", () =>
    expect(Math.sqrt(off.reduce((a, b) => a + b * b, 0) / off.length)).toBeLessThan(0.09));
  test("without bias: textbook physics is 27 % too low on real trips (open data set of a light quadricycle, 17 trips, CC BY 4.0)", () =>
    expect(Math.abs(mean)).toBeLessThan(0.03));
});

describe("published consumption of three-wheelers (vehicle/measured-three-wheelers.json)", () => {
  const bands = dataOf("measured-three-wheelers").bands as { class: string; batteryWhPerKm?: [number, number] }[];
  const bandOf = (start: string) => bands.find((band) => band.class.startsWith(start))?.batteryWhPerKm ?? [0, 0];
  const cases: readonly [VehicleClass, string, Partial<Leg>][] = [
    ["eRickshaw", "e-rickshaw, 4 passengers", { payloadKg: 280, minutes: 36, stopsPerKm: 1 }],
    ["eRickshaw", "e-rickshaw, 4 passengers", { payloadKg: 280, minutes: 42, stopsPerKm: 2 }],
    ["passenger", "passenger three-wheeler", { payloadKg: 140, minutes: 25, stopsPerKm: 1 }],
    ["passenger", "passenger three-wheeler", { payloadKg: 210, minutes: 30, stopsPerKm: 1.5 }],
    ["goodsLarge", "goods three-wheeler, empty", { payloadKg: 0, minutes: 24, stopsPerKm: 1 }],
    ["goodsLarge", "goods three-wheeler, empty", { payloadKg: 0, minutes: 34, stopsPerKm: 2 }],
    ["goodsLarge", "goods three-wheeler, 500-700", { payloadKg: 500, minutes: 24, stopsPerKm: 1 }],
    ["goodsLarge", "goods three-wheeler, 500-700", { payloadKg: 700, minutes: 34, stopsPerKm: 2 }],
  ];
  test.each(cases)("%s lies in the band of %s (%o)", (of, band, leg) => {
    const drain = legDrain(legOf(leg), classVehicle(of, 51.2));
    const whPerKm = (drain.batteryWh - drain.regenWh + (CLASS_GUESSES[of].baseW.value * drain.minutes) / 60) / 10;
    const [low, high] = bandOf(band);
    expect(high).toBeGreaterThan(0);
    expect(whPerKm).toBeGreaterThanOrEqual(low);
    expect(whPerKm).toBeLessThanOrEqual(high);
  });

  test.each([
    ["goodsLarge", 500, 0.62, 0.78],
    ["passenger", 210, 0.65, 0.82],
    ["eRickshaw", 260, 0.68, 0.84],
    ["vendingCart", 200, 0.62, 0.78],
  ] as const)(
    "%s: set to wheel lies in the published range (vehicle/default-parameter-sets.json)",
    (of, payloadKg, low, high) => {
      const drain = legDrain(legOf({ payloadKg, minutes: 36 }), classVehicle(of, 51.2));
      expect(drain.wheelWh / drain.batteryWh).toBeGreaterThan(low);
      expect(drain.wheelWh / drain.batteryWh).toBeLessThan(high);
    },
  );
});

describe("time", () => {
  const strong = classVehicle("goodsLarge", 51.2);
  test("a timetable that can be kept is kept to the minute", () => {
    for (const minutes of [24, 30, 45, 120]) {
      const drain = legDrain(legOf({ minutes, stopsPerKm: 1 }), strong);
      expect(drain.minutes).toBeCloseTo(minutes, 1);
      expect(drain.problem).toBeNull();
    }
  });
  test("one that cannot be kept is late and says so", () => {
    const drain = legDrain(legOf({ minutes: 8 }), strong);
    expect(drain.minutes).toBeGreaterThan(13.3); // 10 km at 45 km/h
    expect(drain.problem).toBe("slower");
  });
  test("a long steep climb with load is later than the same empty; the e-rickshaw's motor runs hot on it", () => {
    const hill = legOf({ climbM: 250, minutes: 36, stopsPerKm: 0.5 });
    const empty = legDrain(hill, classVehicle("eRickshaw", 60));
    const full = legDrain({ ...hill, payloadKg: 400 }, classVehicle("eRickshaw", 60));
    expect(full.minutes).toBeGreaterThan(empty.minutes + 1);
    expect(full.problem).toBe("hot30min");
  });
  test("a slope no gear holds is named and still charged", () => {
    const drain = legDrain(legOf({ km: 1, climbM: 200, payloadKg: 400 }), classVehicle("eRickshaw", 60));
    expect(drain).toMatchObject({ problem: "tooSteep", gear: null });
    expect(drain.batteryWh).toBeGreaterThan((805 * 9.80665 * 200) / 3600); // at least the lift
  });
  test("more climb than a road of its length can have is named, and reckoned with what it could have", () => {
    const mule = { ...classVehicle("eRickshaw", 60), motorRatedW: 9000, motorPeakW: 20_000, controllerMaxA: 800 };
    const steepest = legDrain(legOf({ km: 1, climbM: 450 }), mule);
    const drain = legDrain(legOf({ km: 1, climbM: 900 }), mule);
    expect(steepest.problem).not.toBe("noSuchRoad");
    expect(drain.problem).toBe("noSuchRoad");
    expect(drain.wheelWh).toBeCloseTo(steepest.wheelWh, 6);
  });
  test("a leg of no length takes nothing but its time", () =>
    expect(legDrain(legOf({ km: 0, minutes: 5 }), strong)).toMatchObject({ batteryWh: 0, minutes: 5, problem: null }));
});

describe("ground, weather and recovery", () => {
  const drainOn = (more: Partial<Leg>, vehicle: Partial<RoadVehicle> = {}) =>
    legDrain(legOf({ payloadKg: 300, ...more }), { ...classVehicle("goodsLarge", 51.2), ...vehicle });
  test("worse ground takes more, in the order of the published coefficients (vehicle/rolling-resistance.json)", () => {
    const wh = (["asphalt", "wornAsphalt", "gravel", "earth", "sand"] as const).map(
      (surface) => drainOn({ surface }).wheelWh,
    );
    expect(wh).toEqual([...wh].sort((a, b) => a - b));
  });
  test("rain and soft tyres take more", () => {
    const dry = drainOn({}).batteryWh;
    expect(drainOn({ wet: true }).batteryWh).toBeGreaterThan(dry * 1.02);
    expect(drainOn({}, { softTyres: true }).batteryWh).toBeGreaterThan(dry * 1.05);
  });
  test("what braking gives back is the share of the kit, never more than what was braked away", () => {
    const leg = { climbM: 100, dropM: 100, stopsPerKm: 2 };
    expect(drainOn(leg).regenWh).toBe(0);
    const half = drainOn(leg, { regenShare: 0.1 });
    const whole = drainOn(leg, { regenShare: 0.2 });
    expect(whole.regenWh).toBeCloseTo(2 * half.regenWh, 6);
    expect(whole.batteryWh).toBeCloseTo(half.batteryWh, 6);
    expect(whole.regenWh / 0.2).toBeLessThan(whole.wheelWh);
  });
  test("thin air of 2,335 m takes less than air at sea level (US Standard Atmosphere 1976)", () =>
    expect(drainOn({ airDensityKgM3: 0.973 }).batteryWh).toBeLessThan(drainOn({ airDensityKgM3: 1.225 }).batteryWh));
});
