import type { Light } from "./types.js";

export interface ClearSky {
  /** Of the apparent zenith. */
  readonly cosZenith: number;
  readonly altitudeM: number;
  /** How many clean dry atmospheres dim the beam as this air does: 2 very clean .. 8 thick smoke. */
  readonly linke: number;
  readonly dniExtraWm2: number;
  readonly absoluteAirMass: number;
}

/**
 * Linke turbidity of the classes of haze that a user picks by month. [1]
 * 2 for clean cold or mountain air, 3 clean warm air, 4 moist or stagnant air over a town, 6 and more for dust or smoke:
 * the classes of the European Solar Radiation Atlas (2000) and of F. Kasten, from memory. Half a step either way is within the class.
 */
export const HAZE = { cleanHighland: 2, country: 3, town: 4, dustSmoke: 6 } as const;
export type Haze = keyof typeof HAZE;

/** Above this height the altitude terms of the clear sky read 5 to 9 % too high against a radiative-transfer data base: say so. [m] */
export const CLEAR_SKY_SURE_BELOW_M = 2000;

/** How much too high, at most, in percent. */
export const HIGH_SKY_OVER_PCT = 9;

/** What that adds to the doubt of the sun of a day. [log] The middle of 5 to 9 %; nothing up to CLEAR_SKY_SURE_BELOW_M. */
export const clearSkySdLog = (altitudeM: number): number => (altitudeM > CLEAR_SKY_SURE_BELOW_M ? 0.07 : 0);

const DARK: Light = { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };

/**
 * Light of a cloudless sky on level ground; dark when the sun is down. [W/m2] For linke 1..8, altitude 0..2000 m
 * (CLEAR_SKY_SURE_BELOW_M).
 * Source: P. Ineichen and R. Perez (2002), Solar Energy 73, 151, without the later factor exp(0.01 AM^1.8).
 */
export function clearSky(sky: ClearSky): Light {
  const { cosZenith, linke, absoluteAirMass: mass } = sky;
  if (!(cosZenith > 0)) return DARK;
  const fh1 = Math.exp(-sky.altitudeM / 8000);
  const fh2 = Math.exp(-sky.altitudeM / 1250);
  const cg1 = 5.09e-5 * sky.altitudeM + 0.868;
  const cg2 = 3.92e-5 * sky.altitudeM + 0.0387;
  const ghiWm2 = cg1 * sky.dniExtraWm2 * cosZenith * Math.exp(-cg2 * mass * (fh1 + fh2 * (linke - 1)));
  const beam = sky.dniExtraWm2 * (0.664 + 0.163 / fh1) * Math.exp(-0.09 * mass * (linke - 1));
  const bound = (ghiWm2 * Math.max(0, 1 - (0.1 - 0.2 * Math.exp(-linke)) / (0.1 + 0.882 / fh1))) / cosZenith;
  const dniWm2 = Math.min(beam, bound);
  return { ghiWm2, dniWm2, dhiWm2: ghiWm2 - dniWm2 * cosZenith };
}
