import type { RoadVehicle } from "./types.js";

export type EfficiencyClass = "IE1" | "IE2" | "IE3" | "IE4";
const COEFFICIENTS: Readonly<Record<EfficiencyClass, readonly [number, number, number, number]>> = {
  IE1: [0.5234, -5.0499, 17.418, 74.3171],
  IE2: [0.0278, -1.9247, 10.4395, 80.9761],
  IE3: [0.0773, -1.8951, 9.2984, 83.7025],
  IE4: [0.2412, -2.3608, 8.446, 86.8321],
};

/**
 * Least efficiency of a class of 4-pole cage motors at rated load, %, 50 Hz, 0.75 to 200 kW.
 * Source: IEC 60034-30-1:2014, interpolation in log10 of the rated kW.
 */
export function motorRatedEfficiencyPct(ratedKw: number, of: EfficiencyClass): number {
  const [a, b, c, d] = COEFFICIENTS[of];
  const log = Math.log10(ratedKw);
  return ((a * log + b) * log + c) * log + d;
}

/**
 * Losses of the motor as shares of those at its rated point: a constant part (magnetising current, bearings), a part that grows with speed
 * (iron, fan) and one that grows with the square of the current (copper). At rated speed this gives 1.00, 0.98 and 0.89 of
 * the rated efficiency at 75, 50 and 25 % load, where cage motors of 2 to 5 kW have 1.00, 0.98 and 0.88 (guidance beside IEC 60034-30-1, from memory).
 */
const FIXED_LOSS = 0.15;
const SPEED_LOSS = 0.28;
const COPPER_LOSS = 0.57;

/** Heat store of a small closed motor (common practice: 20 to 40 minutes). */
const THERMAL_MINUTES = 30;

/** A vehicle's motor, gears and controller, with what every question about them shares worked out once. */
export interface DriveLine {
  readonly ratedW: number;
  readonly ratedLossW: number;
  readonly ratedRadS: number;
  readonly maxRadS: number;
  /** Most torque (below the rated speed) or power (above) over the rated one. */
  readonly peakOverRated: number;
  /** Motor radians per metre of road, by gear, first gear first. */
  readonly radPerM: readonly number[];
  readonly transmissionEfficiency: number;
  readonly controllerEfficiency: number;
}

/** Rated speed over the one at `maxKmh` in the top gear, where the plate was not read: motors behind a gearbox run on a weaker field (common practice). */
const ratedOverTop = (vehicle: RoadVehicle): number => (vehicle.gears.length > 1 ? 0.6 : 0.8);

export function driveLineOf(vehicle: RoadVehicle): DriveLine {
  const radPerM = vehicle.gears.map((gear) => (gear * vehicle.finalRatio) / vehicle.wheelRadiusM);
  const topRadS = (Math.min(...radPerM) * vehicle.maxKmh) / 3.6;
  const ratedRadS = vehicle.motorRatedRpm ? (vehicle.motorRatedRpm * Math.PI) / 30 : ratedOverTop(vehicle) * topRadS;
  const loss = 1 / vehicle.motorEfficiency - 1;
  const fromSetW = vehicle.nominalV ? vehicle.nominalV * vehicle.controllerMaxA : Number.POSITIVE_INFINITY;
  const fedW = fromSetW * vehicle.controllerEfficiency * vehicle.motorEfficiency;
  return {
    ratedW: vehicle.motorRatedW,
    ratedLossW: vehicle.motorRatedW * loss,
    ratedRadS,
    // Motors of kits run to about twice their rated speed on a weaker field (common practice).
    maxRadS: Math.max(2 * ratedRadS, topRadS * 1.001),
    peakOverRated: Math.max(0.5, Math.min(vehicle.motorPeakW, fedW) / vehicle.motorRatedW),
    radPerM,
    transmissionEfficiency: vehicle.transmissionEfficiency,
    controllerEfficiency: vehicle.controllerEfficiency,
  };
}

/** Current over the rated one that a wheel force asks for in a gear: by torque below the rated speed, by power above. */
const loadShare = (drive: DriveLine, forceN: number, speedMs: number, radPerM: number): number =>
  (forceN * Math.max(speedMs, drive.ratedRadS / radPerM)) / (drive.transmissionEfficiency * drive.ratedW);

/** Most force at the wheel at a speed, N, over all gears; `overRated` 1 asks for the 30-minute force. */
export function mostForceN(drive: DriveLine, speedMs: number, overRated = drive.peakOverRated): number {
  let most = 0;
  for (const radPerM of drive.radPerM) {
    if (speedMs * radPerM > drive.maxRadS) continue;
    const force =
      (overRated * drive.transmissionEfficiency * drive.ratedW) / Math.max(speedMs, drive.ratedRadS / radPerM);
    if (force > most) most = force;
  }
  return most;
}

/** Working point of the drive line: the gear (1 is the lowest ratio number in the list) with the least loss, or null when none can. */
export interface DrivePoint {
  readonly gear: number | null;
  /** At the terminals of the set. */
  readonly batteryW: number;
  readonly motorLossW: number;
}

function lossIn(drive: DriveLine, share: number, radS: number): number {
  const copper = COPPER_LOSS * Math.min(share, drive.peakOverRated) ** 2;
  return drive.ratedLossW * (FIXED_LOSS + (SPEED_LOSS * radS) / drive.ratedRadS + copper);
}

/**
 * Power from the set for a force at the wheel and a speed. Where no gear can, the one that comes closest works at its peak and the missing force is
 * charged all the same: the answer has no gear, and is not too low.
 */
export function drivePoint(drive: DriveLine, forceN: number, speedMs: number): DrivePoint {
  let gear: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  let nearest = Number.POSITIVE_INFINITY;
  let nearestLossW = 0;
  for (let i = 0; i < drive.radPerM.length; i++) {
    const radS = speedMs * (drive.radPerM[i] as number);
    const share = loadShare(drive, forceN, speedMs, drive.radPerM[i] as number);
    const lossW = lossIn(drive, share, radS);
    const tooFast = radS > drive.maxRadS * 1.000001;
    if (share <= drive.peakOverRated * 1.000001 && !tooFast && lossW < least) {
      least = lossW;
      gear = i + 1;
    }
    const off = tooFast ? share + 1e6 : share;
    if (off < nearest) {
      nearest = off;
      nearestLossW = lossW;
    }
  }
  const motorLossW = gear === null ? nearestLossW : least;
  const shaftW = (forceN * speedMs) / drive.transmissionEfficiency;
  return { gear, motorLossW, batteryW: (shaftW + motorLossW) / drive.controllerEfficiency };
}

/**
 * Minutes from cold for which the motor bears a loss; Infinity up to the rated one. One heat store with one time constant, so the
 * power held for 30 minutes (UN Regulation 85) is the one with 1.58 times the rated loss.
 */
export const bearableMinutes = (drive: DriveLine, motorLossW: number): number =>
  motorLossW <= drive.ratedLossW
    ? Number.POSITIVE_INFINITY
    : -THERMAL_MINUTES * Math.log(1 - drive.ratedLossW / motorLossW);

/** Load over the rated one that a motor holds for 30 minutes from cold, at its rated speed. */
export const THIRTY_MINUTES_OVER_RATED = Math.sqrt(
  (1 / (1 - Math.exp(-30 / THERMAL_MINUTES)) - FIXED_LOSS - SPEED_LOSS) / COPPER_LOSS,
);

/** A drive of a leg's heat: minutes it takes, and how hot the motor is after it, 0 cold to 1 at what it bears. */
export interface HeatedDrive {
  readonly minutes: number;
  readonly heat: number;
}

/**
 * Drives `heatWh` of loss evenly over `minutes` from a heat of 0..1: once the motor is as hot as it bears, the rest goes at the rated loss
 * and takes longer. Pieces of a leg one after the other take the same time as the leg.
 */
export function heatedDrive(
  drive: DriveLine,
  of: { readonly heatWh: number; readonly minutes: number; readonly heat: number },
): HeatedDrive {
  if (!(of.heatWh > 0)) return { minutes: of.minutes, heat: cooled(of.heat, of.minutes) };
  const over = (of.heatWh * 60) / of.minutes / drive.ratedLossW;
  const end = over + (of.heat - over) * Math.exp(-of.minutes / THERMAL_MINUTES);
  if (end <= 1 || over <= 1) return { minutes: of.minutes, heat: Math.min(1, end) };
  const untilHot = THERMAL_MINUTES * Math.log((over - of.heat) / (over - 1));
  return { minutes: untilHot + over * (of.minutes - untilHot), heat: 1 };
}

/** Heat left after standing so long. */
export const cooled = (heat: number, minutes: number): number => heat * Math.exp(-minutes / THERMAL_MINUTES);
