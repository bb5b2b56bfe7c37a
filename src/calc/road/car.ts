import { crrOn, GRAVITY_MS2, ROTATING_FACTOR } from "./load.js";
import { type DriveLine, driveLineOf, mostForceN } from "./motor.js";
import type { Leg, RoadVehicle } from "./types.js";

/** Load and ground of a question about a loaded vehicle. */
export type Ground = Pick<Leg, "surface" | "wet" | "payloadKg" | "airDensityKgM3">;

/** A loaded vehicle on a surface, with what its forces share worked out once. */
export interface Car {
  readonly drive: DriveLine;
  readonly massKg: number;
  /** Mass with what turns, while the speed changes. */
  readonly inertiaKg: number;
  readonly crr: number;
  /** Half of air density times drag area, kg/m. */
  readonly dragKgM: number;
}

/** Walking pace, m/s: what is slower counts as not moving. */
export const CRAWL_MS = 1;

export function carOf(vehicle: RoadVehicle, on: Ground): Car {
  const massKg = vehicle.kerbKg + vehicle.driverKg + on.payloadKg;
  return {
    drive: driveLineOf(vehicle),
    massKg,
    inertiaKg: massKg * ROTATING_FACTOR,
    crr: crrOn(vehicle, on.surface, on.wet),
    dragKgM: 0.5 * on.airDensityKgM3 * vehicle.cdaM2,
  };
}

/** Force at the wheel at a steady speed, N; `sine` is rise over road length. */
export const steadyN = (car: Car, sine: number, speedMs: number): number =>
  car.massKg * GRAVITY_MS2 * (car.crr * Math.sqrt(1 - sine * sine) + sine) + car.dragKgM * speedMs * speedMs;

/** Fastest speed up to `wantMs` at which the drive line holds the slope, m/s; null when it does not even crawl. */
export function holdMs(car: Car, sine: number, wantMs: number, overRated = car.drive.peakOverRated): number | null {
  const holds = (speedMs: number) => mostForceN(car.drive, speedMs, overRated) >= steadyN(car, sine, speedMs);
  if (holds(wantMs)) return wantMs;
  if (wantMs <= CRAWL_MS || !holds(CRAWL_MS)) return null;
  let low = CRAWL_MS;
  let high = wantMs;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}
