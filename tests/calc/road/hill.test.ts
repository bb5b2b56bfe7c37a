import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { hillAnswer, type RoadVehicle } from "../../../src/calc/road/index.js";

/** Gillespie (1992) ch. 4 and Larminie and Lowry ch. 7, closed form: slope that one gear holds at the rated torque and speed of the motor. */
const table = JSON.parse(readFileSync("shared/reference/vehicle/gear-tractive-force.json", "utf8"));
type Row = Record<string, number>;
const rows: Row[] = table.rows.map((row: number[]) =>
  Object.fromEntries([...table.columns.in, ...table.columns.want].map((name: string, i: number) => [name, row[i]])),
);

const vehicleOf = (row: Row, gears: readonly number[]): RoadVehicle => {
  const ratedW = ((row.motorTorqueNm as number) * (row.motorRpm as number) * Math.PI) / 30;
  return {
    kerbKg: row.massKg as number,
    driverKg: 0,
    cdaM2: row.cdaM2 as number,
    crr: row.crr as number,
    wheelRadiusM: row.wheelRadiusM as number,
    finalRatio: row.finalRatio as number,
    gears,
    transmissionEfficiency: row.driveEfficiency as number,
    motorRatedW: ratedW,
    motorPeakW: ratedW,
    motorRatedRpm: row.motorRpm as number,
    motorEfficiency: 0.83,
    controllerEfficiency: 0.96,
    controllerMaxA: 800,
    cutOffV: 40,
    maxKmh: 45,
    regenShare: 0,
  };
};
const askOf = (row: Row, gradePct: number) => ({
  grade: gradePct / 100,
  surface: "asphalt" as const,
  wet: false,
  payloadKg: 0,
  airDensityKgM3: row.airDensityKgM3 as number,
});

describe("hill climb", () => {
  const uphill = rows.filter((row) => (row.gradeabilityPct as number) > 1);

  it("goes up the published slope of a gear at the published speed", () => {
    expect(uphill.length).toBeGreaterThan(5);
    for (const row of uphill) {
      const answer = hillAnswer(vehicleOf(row, [row.gearRatio as number]), askOf(row, row.gradeabilityPct as number));
      expect(answer.gear).toBe(1);
      expect(answer.speedKmh).toBeCloseTo(row.speedKmh as number, 2);
    }
  });

  it("does not hold a slope steeper than the whole force holds without any wind of its own", () => {
    for (const row of uphill) {
      const weightN = (row.massKg as number) * 9.80665 * Math.hypot(1, row.crr as number);
      const steepest = Math.tan(Math.asin((row.tractiveForceN as number) / weightN) - Math.atan(row.crr as number));
      const steeper = askOf(row, 100 * steepest + 0.1);
      const answer = hillAnswer(vehicleOf(row, [row.gearRatio as number]), steeper);
      expect(answer).toMatchObject({ holds: false, gear: null, speedKmh: null });
    }
  });
});
