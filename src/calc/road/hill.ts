import { type Car, CRAWL_MS, carOf, type Ground, holdMs, steadyN } from "./car.js";
import { GRAVITY_MS2 } from "./load.js";
import { bearableMinutes, drivePoint, mostForceN, THIRTY_MINUTES_OVER_RATED } from "./motor.js";
import type { RoadVehicle } from "./types.js";

/** What a loaded vehicle does on a slope. */
export interface HillAnswer {
  /** It drives up at a walking pace or faster. */
  readonly holds: boolean;
  /** It also sets off there from rest. */
  readonly startsOff: boolean;
  /** Of the speed below, 1 is the lowest; null when it does not hold. */
  readonly gear: number | null;
  /** Fastest with all the motor gives; null when it does not hold. */
  readonly speedKmh: number | null;
  /** How long the motor bears that speed; Infinity when it does for ever. */
  readonly bearsMinutes: number;
  /** Fastest within the power held for 30 minutes; null when the slope asks for more. */
  readonly lastingKmh: number | null;
  /** Steepest slope the load lets it drive up, rise over run. */
  readonly steepestGrade: number;
  /** Most payload it drives up this slope with, kg; 0 when not even the driver alone. */
  readonly mostPayloadKg: number;
}

/** Setting off takes a little more than holding, m/s2 (common practice). */
const SET_OFF_MS2 = 0.1;
const sineOf = (grade: number): number => grade / Math.hypot(1, grade);

function steepest(car: Car): number {
  const upN = mostForceN(car.drive, CRAWL_MS) - car.dragKgM * CRAWL_MS ** 2;
  const sine = upN / (car.massKg * GRAVITY_MS2 * Math.hypot(1, car.crr));
  return sine >= 1 ? 1 : Math.max(0, Math.tan(Math.asin(sine) - Math.atan(car.crr)));
}

function mostPayload(car: Car, sine: number, payloadKg: number): number {
  const perKgN = GRAVITY_MS2 * (car.crr * Math.sqrt(1 - sine * sine) + sine);
  const upN = mostForceN(car.drive, CRAWL_MS) - car.dragKgM * CRAWL_MS ** 2;
  return Math.max(0, upN / Math.max(perKgN, 1e-9) - (car.massKg - payloadKg));
}

/**
 * Which gear and what speed a slope (rise over run, -0.5..0.5) allows, or that it does not go with this load.
 * Source: road load and gears of Gillespie (1992) ch. 4; 30-minute power of UN Regulation 85. The maker's figure for the steepest slope goes first.
 */
export function hillAnswer(vehicle: RoadVehicle, on: Ground & { readonly grade: number }): HillAnswer {
  const car = carOf(vehicle, on);
  const sine = sineOf(on.grade);
  const wantMs = vehicle.maxKmh / 3.6;
  const speedMs = holdMs(car, sine, wantMs);
  const lastingMs = holdMs(car, sine, wantMs, Math.min(car.drive.peakOverRated, THIRTY_MINUTES_OVER_RATED));
  const point = speedMs === null ? null : drivePoint(car.drive, Math.max(0, steadyN(car, sine, speedMs)), speedMs);
  const setOffN = steadyN(car, sine, CRAWL_MS) + car.inertiaKg * SET_OFF_MS2;
  return {
    holds: speedMs !== null,
    startsOff: mostForceN(car.drive, CRAWL_MS) >= setOffN,
    gear: point?.gear ?? null,
    speedKmh: speedMs === null ? null : speedMs * 3.6,
    bearsMinutes: point ? bearableMinutes(car.drive, point.motorLossW) : 0,
    lastingKmh: lastingMs === null ? null : lastingMs * 3.6,
    steepestGrade: steepest(car),
    mostPayloadKg: mostPayload(car, sine, on.payloadKg),
  };
}

/** Power out of the set at a steady speed, W; 0 when the slope drives the vehicle. */
export function steadyBatteryW(
  vehicle: RoadVehicle,
  on: Ground & { readonly grade: number },
  speedKmh: number,
): number {
  const car = carOf(vehicle, on);
  const forceN = steadyN(car, sineOf(on.grade), speedKmh / 3.6);
  return forceN > 0 ? drivePoint(car.drive, forceN, speedKmh / 3.6).batteryW : 0;
}

/** Power out of the set in the moment when a start at `accelMs2` reaches `speedKmh`, W. */
export function launchBatteryW(
  vehicle: RoadVehicle,
  on: Ground & { readonly grade: number },
  start: { readonly accelMs2: number; readonly speedKmh: number },
): number {
  const car = carOf(vehicle, on);
  const speedMs = start.speedKmh / 3.6;
  return drivePoint(car.drive, steadyN(car, sineOf(on.grade), speedMs) + car.inertiaKg * start.accelMs2, speedMs)
    .batteryW;
}
