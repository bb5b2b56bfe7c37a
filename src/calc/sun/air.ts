/** Air pressure at sea level in the standard atmosphere. [Pa] */
export const SEA_LEVEL_PA = 101_325;

/**
 * Air pressure over sea-level pressure in the standard atmosphere. [1] For -500..11,000 m.
 * Source: ICAO standard atmosphere: 288.15 K at sea level, 6.5 K/km.
 */
export const pressureRatio = (altitudeM: number): number => (1 - (0.0065 * altitudeM) / 288.15) ** 5.25588;

export const standardPressurePa = (altitudeM: number): number => SEA_LEVEL_PA * pressureRatio(altitudeM);

/**
 * Path of the beam through the air over the vertical path. [1] Null below the horizon, where none is defined.
 * Takes the apparent (refracted) zenith. Source: F. Kasten and A. T. Young (1989), Applied Optics 28, 4735.
 */
export const relativeAirMass = (zenithApparentDeg: number): number | null =>
  zenithApparentDeg > 90 ? null : airMassOf(Math.cos((zenithApparentDeg * Math.PI) / 180), zenithApparentDeg);

/** The same with the cosine at hand, for the sun above the horizon. */
export const airMassOf = (cosZenith: number, zenithApparentDeg: number): number =>
  1 / (cosZenith + 0.50572 * (96.07995 - zenithApparentDeg) ** -1.6364);

/** Relative air mass times pressure over sea-level pressure. [1] Null below the horizon. */
export function absoluteAirMass(zenithApparentDeg: number, altitudeM: number): number | null {
  const relative = relativeAirMass(zenithApparentDeg);
  return relative === null ? null : relative * pressureRatio(altitudeM);
}
