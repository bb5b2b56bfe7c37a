/** Rated discharge of a lead-acid set: `ratedAh` over `ratedH` hours, and the exponent k of its law. */
export interface PeukertRating {
  readonly ratedAh: number;
  readonly ratedH: number;
  readonly peukertExponent: number;
}

/** What I^k x hours comes to at any steady current, A^k h. Source: W. Peukert (1897). */
export const peukertCapacity = (of: PeukertRating): number =>
  (of.ratedAh / of.ratedH) ** of.peukertExponent * of.ratedH;

/** Hours at a steady current, above 0 A; Infinity at none. */
export const peukertRuntimeH = (of: PeukertRating, currentA: number): number =>
  of.ratedH * (of.ratedAh / (currentA * of.ratedH)) ** of.peukertExponent;

/** Exponent and capacity (A^k h) from two discharges with different currents. */
export function peukertFromTwo(of: {
  readonly firstCurrentA: number;
  readonly firstH: number;
  readonly secondCurrentA: number;
  readonly secondH: number;
}): { readonly peukertExponent: number; readonly peukertCapacity: number } {
  const peukertExponent = Math.log(of.firstH / of.secondH) / Math.log(of.secondCurrentA / of.firstCurrentA);
  return { peukertExponent, peukertCapacity: of.firstCurrentA ** peukertExponent * of.firstH };
}

export interface PeukertProfile {
  readonly peukertCapacity: number;
  readonly peukertRemoved: number;
  readonly dischargedFraction: number;
  /** As plain counting has it. */
  readonly plainAh: number;
  readonly plainFraction: number;
}

/** Charge taken by a changing current, steps of [A, minutes], by the law and by plain counting. */
export function peukertProfile(of: PeukertRating, stepsAMin: readonly (readonly [number, number])[]): PeukertProfile {
  const capacity = peukertCapacity(of);
  const removed = stepsAMin.reduce((all, [amps, minutes]) => all + (amps ** of.peukertExponent * minutes) / 60, 0);
  const plainAh = stepsAMin.reduce((all, [amps, minutes]) => all + (amps * minutes) / 60, 0);
  return {
    peukertCapacity: capacity,
    peukertRemoved: removed,
    dischargedFraction: removed / capacity,
    plainAh,
    plainFraction: plainAh / of.ratedAh,
  };
}
