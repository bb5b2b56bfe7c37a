export type Chemistry = "lfp" | "floodedLead" | "sealedLead";

/** The set: all blocks wired together. */
export interface Battery {
  readonly chemistry: Chemistry;
  readonly nominalV: number;
  /** At the rate of `ratedHours`, when new, at 25 C. */
  readonly ratedAh: number;
  /** Share of the rated capacity that is left, 0..1. */
  readonly health: number;
  /** Cells in series; a count of 12 V or 6 V blocks is understood too. */
  readonly seriesCount: number;
  /** Whole set with management and cables, at 25 C. */
  readonly resistanceOhm: number;
  /** 1 for a set without the effect. */
  readonly peukertExponent: number;
  /** Hours of the rated discharge, 5 or 20. */
  readonly ratedHours: number;
}

/** A value at a level; levels rise from 0 to 1, straight between the points. */
export interface AtShare {
  readonly share: number;
  readonly value: number;
}
export interface PowerAtShare {
  readonly share: number;
  readonly w: number;
}

/** What a day needs to know of a set at one temperature. Levels are shares of `usableWh`. */
export interface StoreModel {
  /** Usable now: rated x health x temperature. */
  readonly usableWh: number;
  /** Discharging, the set gives up terminalW x (1 + lossPerW x terminalW). */
  readonly lossPerW: number;
  /** Above `peukertRatedW` the set empties faster than it gives, by (W / peukertRatedW)^(exponent - 1). */
  readonly peukertExponent: number;
  readonly peukertRatedW: number;
  /** Most W at the terminals that the set takes at a level: flat, then falling; all 0 when it must not be charged. */
  readonly acceptance: readonly PowerAtShare[];
  /** Stored Wh of a Wh at the terminals while charging, by level. */
  readonly stored: readonly AtShare[];
  readonly selfDischargeW: number;
}

export interface Charger {
  /** DC out. */
  readonly ratedW: number;
  /** DC out over grid in. */
  readonly efficiency: number;
}

export interface Reading {
  /** `full` is a charger's sign that it has finished. */
  readonly kind: "percent" | "bars" | "volts" | "full";
  readonly value: number;
  /** Bars of a full gauge; 5 where nobody said. */
  readonly bars?: number | null;
  /** Minutes since the vehicle last drove or charged; null when not known. */
  readonly restedMin?: number | null;
  /** Volts of one block instead of the whole set; null or absent: found out from the figure. */
  readonly perBlock?: boolean | null;
}

/** voltsSayLittle: the curve is flat there; notRested: too short after driving or charging. */
export type LevelDoubt = "voltsSayLittle" | "notRested";

/** Level as a person's reading tells it, share of what is usable now. */
export interface Level {
  readonly share: number;
  readonly sdShare: number;
  /** 80 % band. */
  readonly low: number;
  readonly high: number;
  /** False when the reading is not worth more than counting from the last full charge. */
  readonly usable: boolean;
  readonly why?: LevelDoubt;
}
