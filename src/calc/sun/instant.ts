import { MINUTE_MS } from "../../units/numbers.js";
import { airMassOf, pressureRatio } from "./air.js";
import { clearSky } from "./clear.js";
import { dayOfYear, dniExtraWm2 } from "./extraterrestrial.js";
import { sunPosition } from "./position.js";
import type { Site, SunInstant } from "./types.js";

const RAD = Math.PI / 180;
const MINUTES_PER_DEG = 4;

/**
 * The sun and the clear sky of an instant, or null while the sun is down (apparent zenith 90 degrees and more).
 * Linke turbidity 1..8 (HAZE). The day of the year is the one by the sun at that longitude.
 */
export function sunInstant(utcMs: number, site: Site, linkeTurbidity: number): SunInstant | null {
  const { zenithTrueDeg, zenithApparentDeg, azimuthDeg } = sunPosition(utcMs, site);
  if (!(zenithApparentDeg < 90)) return null;
  const cosZenith = Math.cos(zenithApparentDeg * RAD);
  const extra = dniExtraWm2(dayOfYear(utcMs + site.lonDeg * MINUTES_PER_DEG * MINUTE_MS));
  const relative = airMassOf(cosZenith, zenithApparentDeg);
  const absolute = relative * pressureRatio(site.altitudeM);
  const clear = clearSky({
    cosZenith,
    altitudeM: site.altitudeM,
    linke: linkeTurbidity,
    dniExtraWm2: extra,
    absoluteAirMass: absolute,
  });
  return {
    utcMs,
    zenithTrueDeg,
    zenithApparentDeg,
    azimuthDeg,
    cosZenith,
    sinZenith: Math.sqrt(1 - cosZenith * cosZenith),
    cosZenithTrue: Math.cos(zenithTrueDeg * RAD),
    dniExtraWm2: extra,
    relativeAirMass: relative,
    absoluteAirMass: absolute,
    clearGhiWm2: clear.ghiWm2,
    clearDniWm2: clear.dniWm2,
    clearDhiWm2: clear.dhiWm2,
  };
}
