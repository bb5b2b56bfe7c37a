import { getPosition } from "suncalc";
import { toDeg, toRad } from "../../units/numbers.js";
import { standardPressurePa } from "./air.js";
import type { Site } from "./types.js";

export interface SunPosition {
  /** Angle from the vertical without refraction, 0..180. */
  readonly zenithTrueDeg: number;
  /** The same as the eye sees it through the air. */
  readonly zenithApparentDeg: number;
  /** Clockwise from true north, 0..360. */
  readonly azimuthDeg: number;
}

const AIR_C = 12; // mean of the Earth near the ground: a warm day changes refraction at the horizon by 0.03 degree
const PARALLAX_DEG = 8.794 / 3600; // the library sees the sun from the middle of the Earth; Meeus, Astronomical Algorithms, chapter 40

/** Refraction that suncalc 2.0 adds to a true altitude, for sea level: Meeus 16.4, frozen below the horizon. [rad] */
const libraryRefraction = (altitudeRad: number): number => {
  const up = Math.max(altitudeRad, 0);
  return 0.0002967 / Math.tan(up + 0.00312536 / (up + 0.08901179));
};
const AT_HORIZON = libraryRefraction(0);

/** The library gives only the apparent altitude: its own refraction is taken off again, exactly as it was put on. */
function trueAltitudeRad(apparentRad: number): number {
  if (apparentRad <= AT_HORIZON) return apparentRad - AT_HORIZON;
  let altitude = apparentRad;
  for (let turn = 0; turn < 8; turn++) {
    const next = apparentRad - libraryRefraction(altitude);
    const moved = next - altitude;
    altitude = next;
    if (moved < 1e-7 && moved > -1e-7) break; // the error left is below a tenth of the step
  }
  return altitude;
}

const moment = new Date(0);

/**
 * Where the sun stands, within 0.01 degree from 1950 to 2050; any latitude, also below the horizon. [deg]
 * Source: J. Meeus, Astronomical Algorithms, chapter 25, through the library suncalc; refraction by `refract`.
 */
export function sunPosition(utcMs: number, site: Site): SunPosition {
  moment.setTime(utcMs);
  const seen = getPosition(moment, site.latDeg, site.lonDeg);
  const geocentric = 90 - toDeg(trueAltitudeRad(toRad(seen.altitude)));
  const zenithTrueDeg = geocentric + PARALLAX_DEG * Math.sin(toRad(geocentric));
  const pressurePa = standardPressurePa(site.altitudeM);
  return {
    zenithTrueDeg,
    zenithApparentDeg: refract({ zenithTrueDeg, pressurePa, airC: AIR_C }),
    azimuthDeg: seen.azimuth,
  };
}

/**
 * Apparent zenith from the true one. [deg] Unchanged when the sun is more than 0.833 degree below the horizon.
 * Source: I. Reda and A. Andreas (2008), NREL/TP-560-34302, equation 42.
 */
export function refract(of: {
  readonly zenithTrueDeg: number;
  readonly pressurePa: number;
  readonly airC: number;
}): number {
  const up = 90 - of.zenithTrueDeg;
  if (up < -0.83337) return of.zenithTrueDeg;
  const air = (of.pressurePa / 101_000) * (283 / (273 + of.airC));
  return of.zenithTrueDeg - (air * 1.02) / (60 * Math.tan(toRad(up + 10.3 / (up + 5.11))));
}
