/** A place on the Earth: degrees north and east, metres above the sea. */
export interface Site {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly altitudeM: number;
}

/** Light on open level ground: global, direct across the beam, diffuse. [W/m2] */
export interface Light {
  readonly ghiWm2: number;
  readonly dniWm2: number;
  readonly dhiWm2: number;
}

/** All that an instant needs to know of the sun before cloud and roof: computed once and shared by every vehicle of a yard. */
export interface SunInstant {
  readonly utcMs: number;
  readonly zenithTrueDeg: number;
  readonly zenithApparentDeg: number;
  /** Clockwise from true north. */
  readonly azimuthDeg: number;
  /** Of the apparent zenith, above 0. */
  readonly cosZenith: number;
  readonly sinZenith: number;
  /** Of the true zenith: what the split of Erbs takes. */
  readonly cosZenithTrue: number;
  readonly dniExtraWm2: number;
  readonly relativeAirMass: number;
  readonly absoluteAirMass: number;
  readonly clearGhiWm2: number;
  readonly clearDniWm2: number;
  readonly clearDhiWm2: number;
}
