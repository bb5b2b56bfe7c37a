import type { RoadVehicle, Surface } from "./types.js";

/** Standard gravity, m/s2 (CGPM 1901). */
export const GRAVITY_MS2 = 9.80665;
/** Wheels and drive line add their own inertia to the mass (common practice for small vehicles: 1.03 to 1.08). */
export const ROTATING_FACTOR = 1.05;

export interface RoadLoadInput {
  /** Everything on board. */
  readonly massKg: number;
  readonly crr: number;
  readonly cdaM2: number;
  readonly airDensityKgM3: number;
  /** Rise over run, negative downhill. */
  readonly grade: number;
}
export interface RoadLoad {
  readonly rollN: number;
  readonly gradeN: number;
  readonly aeroN: number;
  readonly totalN: number;
}

/**
 * Forces at the wheel at a steady speed, N; `gradeN` and `totalN` are negative downhill. Still air.
 * Source: T. D. Gillespie, Fundamentals of Vehicle Dynamics (SAE, 1992) ch. 4.
 */
export function roadLoad(at: RoadLoadInput, speedMs: number): RoadLoad {
  const slope = Math.atan(at.grade);
  const weightN = at.massKg * GRAVITY_MS2;
  const rollN = weightN * at.crr * Math.cos(slope);
  const gradeN = weightN * Math.sin(slope);
  const aeroN = 0.5 * at.airDensityKgM3 * at.cdaM2 * speedMs * speedMs;
  return { rollN, gradeN, aeroN, totalN: rollN + gradeN + aeroN };
}

/** Speed in m/s at which the road load takes all of `wheelW`, from 0 m/s; the speed of free rolling downhill counts as its own. */
export function powerLimitedSpeedMs(at: RoadLoadInput, wheelW: number): number {
  const takesMore = (speedMs: number) => roadLoad(at, speedMs).totalN * speedMs > wheelW;
  let low = 0;
  let high = 100;
  while (!takesMore(high)) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (takesMore(middle)) high = middle;
    else low = middle;
  }
  return low;
}

/**
 * What a surface adds to the rolling resistance of good asphalt, force over weight: soft ground takes its share on top of the tyre's own.
 * Source: autorickshaw coast-down (paved 0.020, unpaved 0.030; record SCO_85162187891, research.tec.mx) over a class default of
 * 0.016; Ehsani et al., table 2.1 (unpaved 0.05, from memory); Carvill (1993) for sand (0.1 to 0.2).
 */
export const SURFACE_ADDS_CRR: Readonly<Record<Surface, number>> = {
  asphalt: 0,
  wornAsphalt: 0.004,
  gravel: 0.014,
  earth: 0.03,
  sand: 0.1,
};
/** Water film and cooler tyres on a hard road; softened ground elsewhere (common practice, no source). */
const WET_HARD = 1.1;
const WET_SOFT = 1.3;
/** Tyres at about 60 % of their pressure, with resistance falling as pressure^-0.45 (common practice, no source). */
const SOFT_TYRES = 1.25;

/** Rolling resistance of a vehicle on a surface, force over weight. */
export function crrOn(vehicle: RoadVehicle, surface: Surface, wet: boolean): number {
  const tyre = vehicle.crr * (vehicle.softTyres ? SOFT_TYRES : 1);
  const hard = surface === "asphalt" || surface === "wornAsphalt";
  return (tyre + SURFACE_ADDS_CRR[surface]) * (wet ? (hard ? WET_HARD : WET_SOFT) : 1);
}
