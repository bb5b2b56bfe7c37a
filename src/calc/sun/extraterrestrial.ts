import { clamp, DAY_MS } from "../../units/numbers.js";

/** Irradiance across the beam above the air at the mean distance of the sun; scale results for another one. [W/m2] */
export const SOLAR_CONSTANT_WM2 = 1366.1;

export const dayAngle = (dayOfYear: number): number => (2 * Math.PI * (dayOfYear - 1)) / 365;

/**
 * Irradiance across the sun's beam above the air. [W/m2] Day of the year 1..366.
 * Source: J. W. Spencer (1971), Search 2(5), 172, with a solar constant of 1366.1 W/m2.
 */
export function dniExtraWm2(dayOfYear: number): number {
  const angle = dayAngle(dayOfYear);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const twice = 0.000719 * (2 * c * c - 1) + 0.000077 * (2 * s * c);
  return SOLAR_CONSTANT_WM2 * (1.00011 + 0.034221 * c + 0.00128 * s + twice);
}

/** Declination of the sun, good to about 0.05 degree. [deg] Source: Spencer (1971). */
export function declinationDeg(dayOfYear: number): number {
  const a = dayAngle(dayOfYear);
  const rad =
    0.006918 -
    0.399912 * Math.cos(a) +
    0.070257 * Math.sin(a) -
    0.006758 * Math.cos(2 * a) +
    0.000907 * Math.sin(2 * a) -
    0.002697 * Math.cos(3 * a) +
    0.00148 * Math.sin(3 * a);
  return (rad * 180) / Math.PI;
}

export interface ExtraterrestrialDay {
  readonly inverseDistance: number;
  readonly declinationRad: number;
  readonly sunsetHourAngleRad: number;
  readonly energyMjM2: number;
}

/**
 * Energy of a day on level ground above the air; sunset hour angle pi in polar day, 0 in polar night.
 * Source: FAO Irrigation and Drainage Paper 56 (1998), equations 21 to 25; up to 0.4 MJ/m2 from an exact sun.
 */
export function extraterrestrialDay(latDeg: number, dayOfYear: number): ExtraterrestrialDay {
  const lat = (latDeg * Math.PI) / 180;
  const angle = (2 * Math.PI * dayOfYear) / 365;
  const inverseDistance = 1 + 0.033 * Math.cos(angle);
  const declinationRad = 0.409 * Math.sin(angle - 1.39);
  const sunset = Math.acos(clamp(-Math.tan(lat) * Math.tan(declinationRad), -1, 1));
  const shape =
    sunset * Math.sin(lat) * Math.sin(declinationRad) + Math.cos(lat) * Math.cos(declinationRad) * Math.sin(sunset);
  const energyMjM2 = ((24 * 60) / Math.PI) * 0.082 * inverseDistance * shape;
  return { inverseDistance, declinationRad, sunsetHourAngleRad: sunset, energyMjM2 };
}

let yearFromMs = 0;
let yearToMs = 0;

/** Day of the year, 1..366, of a calendar read as if it were UTC. */
export function dayOfYear(wallAsUtcMs: number): number {
  if (wallAsUtcMs < yearFromMs || wallAsUtcMs >= yearToMs) {
    const year = new Date(wallAsUtcMs).getUTCFullYear(); // kept, as a day asks for one year thousands of times
    yearFromMs = Date.UTC(year, 0, 1);
    yearToMs = Date.UTC(year + 1, 0, 1);
  }
  return Math.floor((wallAsUtcMs - yearFromMs) / DAY_MS) + 1;
}
