import { GRAVITY_MS2, type RoadLoadInput, roadLoad } from "./load.js";

export interface GearInput {
  readonly motorTorqueNm: number;
  readonly motorRpm: number;
  readonly gearRatio: number;
  readonly finalRatio: number;
  /** Motor shaft to wheel. */
  readonly driveEfficiency: number;
  readonly wheelRadiusM: number;
}
export interface GearForce {
  readonly wheelTorqueNm: number;
  readonly tractiveForceN: number;
  readonly speedMs: number;
  readonly wheelW: number;
}

/** Torque, force and speed at the wheel in one gear. Source: Gillespie (1992) ch. 2 and 4. */
export function gearForce(of: GearInput): GearForce {
  const ratio = of.gearRatio * of.finalRatio;
  const wheelTorqueNm = of.motorTorqueNm * ratio * of.driveEfficiency;
  const tractiveForceN = wheelTorqueNm / of.wheelRadiusM;
  const speedMs = (((of.motorRpm * Math.PI) / 30) * of.wheelRadiusM) / ratio;
  return { wheelTorqueNm, tractiveForceN, speedMs, wheelW: tractiveForceN * speedMs };
}

/** Force left for a slope at a speed on the level, N; negative when the speed cannot be held. */
export const spareForceN = (forceN: number, at: Omit<RoadLoadInput, "grade">, speedMs: number): number =>
  forceN - roadLoad({ ...at, grade: 0 }, speedMs).totalN;

/**
 * Steepest slope (rise over run) that a force at the wheel holds at a speed; negative where it takes a descent; null when the force would lift the vehicle
 * up any wall. Closed form of m g (crr cos + sin) = force - air drag.
 */
export function gradeability(forceN: number, at: Omit<RoadLoadInput, "grade">, speedMs: number): number | null {
  const upN = forceN - 0.5 * at.airDensityKgM3 * at.cdaM2 * speedMs * speedMs;
  const sine = upN / (at.massKg * GRAVITY_MS2 * Math.hypot(1, at.crr));
  return Math.abs(sine) <= 1 ? Math.tan(Math.asin(sine) - Math.atan(at.crr)) : null;
}

export interface HillGears {
  /** By gear, at the speed of that gear. */
  readonly neededForceN: readonly number[];
  readonly holds: readonly boolean[];
  /** Highest gear that holds the hill, 1 is the lowest; null when none does. */
  readonly highestGear: number | null;
  readonly speedMs: number | null;
}

/** Gears that hold a hill at one speed and torque of the motor; first gear first. */
export function gearsForHill(
  drive: Omit<GearInput, "gearRatio"> & { readonly gearRatios: readonly number[] },
  at: RoadLoadInput,
): HillGears {
  const byGear = drive.gearRatios.map((gearRatio) => {
    const force = gearForce({ ...drive, gearRatio });
    const neededN = roadLoad(at, force.speedMs).totalN;
    return { ...force, neededN, holds: force.tractiveForceN >= neededN };
  });
  const highest = byGear.findLastIndex((gear) => gear.holds);
  return {
    neededForceN: byGear.map((gear) => gear.neededN),
    holds: byGear.map((gear) => gear.holds),
    highestGear: highest < 0 ? null : highest + 1,
    speedMs: byGear[highest]?.speedMs ?? null,
  };
}
