import { describe, expect, test } from "vitest";
import {
  bearableMinutes,
  classVehicle,
  driveLineOf,
  drivePoint,
  hillAnswer,
  launchBatteryW,
  steadyBatteryW,
  THIRTY_MINUTES_OVER_RATED,
} from "../../../src/calc/road/index.js";

const ground = { surface: "asphalt", wet: false, payloadKg: 260, airDensityKgM3: 1.2, grade: 0 } as const;

describe("motor at part load", () => {
  const vehicle = {
    ...classVehicle("goodsLarge", 51.2),
    gears: [1],
    finalRatio: 8,
    motorRatedRpm: 1440,
    controllerEfficiency: 1,
    transmissionEfficiency: 1,
  };
  const drive = driveLineOf({ ...vehicle, motorEfficiency: 0.855 });
  const ratedMs = ((1440 * Math.PI) / 30) * (vehicle.wheelRadiusM / 8);
  const efficiencyAt = (share: number) => {
    const shaftW = share * vehicle.motorRatedW;
    return shaftW / drivePoint(drive, shaftW / ratedMs, ratedMs).batteryW;
  };
  test("rated load gives the rated efficiency (IEC 60034-30-1, IE2, 3 kW: 85.5 %)", () =>
    expect(efficiencyAt(1)).toBeCloseTo(0.855, 6));
  test.each([
    [0.75, 1.0],
    [0.5, 0.98],
    [0.25, 0.88],
  ])("at %f of the load it keeps %f of that (guidance beside the standard, from memory)", (share, kept) =>
    expect(efficiencyAt(share) / 0.855).toBeCloseTo(kept, 1.7),
  );
  test("from the 30-minute load on, the motor bears 30 minutes and fewer; the rated load for ever (UN Regulation 85)", () => {
    const lossAt = (share: number) => drivePoint(drive, (share * vehicle.motorRatedW) / ratedMs, ratedMs).motorLossW;
    expect(bearableMinutes(drive, lossAt(1))).toBe(Number.POSITIVE_INFINITY);
    expect(bearableMinutes(drive, lossAt(THIRTY_MINUTES_OVER_RATED))).toBeCloseTo(30, 6);
    expect(bearableMinutes(drive, lossAt(1.9))).toBeLessThan(20);
  });
});

describe("hills", () => {
  const goods = classVehicle("goodsLarge", 51.2);
  test("steeper takes a lower gear and less speed, until no gear holds it", () => {
    const answers = [0, 0.04, 0.08, 0.12, 0.2, 0.45].map((grade) =>
      hillAnswer(goods, { ...ground, payloadKg: 700, grade }),
    );
    const speeds = answers.map((answer) => answer.speedKmh ?? 0);
    expect(speeds).toEqual([...speeds].sort((a, b) => b - a));
    const gears = answers.map((answer) => answer.gear ?? 0);
    expect(gears[1]).toBeGreaterThan(gears[4] as number);
    expect(answers.at(-1)).toMatchObject({ holds: false, gear: null, speedKmh: null });
  });
  test("the steepest slope is where holding ends, and the most payload makes any slope just hold", () => {
    const { steepestGrade } = hillAnswer(goods, { ...ground, payloadKg: 500 });
    expect(hillAnswer(goods, { ...ground, payloadKg: 500, grade: steepestGrade - 0.001 }).holds).toBe(true);
    expect(hillAnswer(goods, { ...ground, payloadKg: 500, grade: steepestGrade + 0.001 }).holds).toBe(false);
    const { mostPayloadKg } = hillAnswer(goods, { ...ground, grade: 0.25 });
    expect(hillAnswer(goods, { ...ground, payloadKg: mostPayloadKg - 1, grade: 0.25 }).holds).toBe(true);
    expect(hillAnswer(goods, { ...ground, payloadKg: mostPayloadKg + 1, grade: 0.25 }).holds).toBe(false);
  });
  test("an e-rickshaw is a vehicle of the plain: one axle gear, no lasting speed on a hill (Kathmandu Post, 30 Aug 2017)", () => {
    const answer = hillAnswer(classVehicle("eRickshaw", 60), { ...ground, grade: 0.08 });
    expect(answer.lastingKmh).toBeNull();
  });
});

describe("the roof and the start (common practice, no source)", () => {
  const roofW = 400;
  test.each(["eRickshaw", "goodsLarge", "passenger"] as const)("%s: a roof alone cannot set it in motion", (of) =>
    expect(launchBatteryW(classVehicle(of, 51.2), ground, { accelMs2: 0.55, speedKmh: 10 })).toBeGreaterThan(2 * roofW),
  );
  test("yet it may carry a moving e-rickshaw at 10 km/h on the level", () => {
    const carriedW = steadyBatteryW(classVehicle("eRickshaw", 60), { ...ground, payloadKg: 140 }, 10);
    expect(carriedW).toBeLessThan(roofW);
    expect(carriedW).toBeGreaterThan(roofW / 2);
  });
});
