/** A load that runs three hours or more is continuous, and charging a vehicle always counts as such: the breaker is at least 1.25 times it. Source: NEC (NFPA 70) 210.20(A), 625.41. */
const CONTINUOUS = 1.25;

/** Sizes on sale in A. Sources: NEC 240.6(A); the IEC 60898-1 series. */
export const BREAKERS_A = {
  nec: [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400],
  iec: [6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125],
} as const;

/** Least rating for loads that charge at the same time behind one breaker, in A, and the next size on sale; null where none is large enough. */
export function breakerFor(
  continuousA: readonly number[],
  ratingsA: readonly number[] = BREAKERS_A.iec,
): { readonly minRatingA: number; readonly breakerA: number | null } {
  const minRatingA = CONTINUOUS * continuousA.reduce((sum, a) => sum + a, 0);
  const large = ratingsA.filter((ratingA) => ratingA >= minRatingA - 1e-9);
  return { minRatingA, breakerA: large.length > 0 ? Math.min(...large) : null };
}

/** Most A that may flow through a breaker for hours: the same rule turned round. */
export const continuousLimitA = (breakerA: number): number => breakerA / CONTINUOUS;

export type SupplySystem = "single-phase" | "three-phase" | "dc";

export interface CableRun {
  readonly system: SupplySystem;
  readonly supplyV: number;
  /** One way. */
  readonly lengthM: number;
  readonly currentA: number;
  readonly resistanceOhmKm20C: number;
  readonly conductorC: number;
}

/** Resistance of copper conductors at 20 C in ohm/km by section in mm2. Source: IEC 60228 class 2. */
export const COPPER_OHM_KM: Readonly<Record<number, number>> = {
  1.5: 12.1,
  2.5: 7.41,
  4: 4.61,
  6: 3.08,
  10: 1.83,
  16: 1.15,
  25: 0.727,
};
/** Rise of the resistance of copper, 1/K. Source: IEC 60228. */
const COPPER_PER_K = 0.00393;
const DROP_WIRES: Readonly<Record<SupplySystem, number>> = { "single-phase": 2, "three-phase": Math.sqrt(3), dc: 2 };
const LOSS_WIRES: Readonly<Record<SupplySystem, number>> = { "single-phase": 2, "three-phase": 3, dc: 2 };

/**
 * Voltage lost along a copper cable in V and % of the supply, and the heat in it in W. Reactance is left out: good up to 35 mm2.
 * Source: IEC 60364-5-52 Annex G.
 */
export function cableDrop(run: CableRun): { readonly dropV: number; readonly dropPct: number; readonly lossW: number } {
  const ohm = (run.resistanceOhmKm20C / 1000) * run.lengthM * (1 + COPPER_PER_K * (run.conductorC - 20));
  const dropV = DROP_WIRES[run.system] * ohm * run.currentA;
  return {
    dropV,
    dropPct: (100 * dropV) / run.supplyV,
    lossW: LOSS_WIRES[run.system] * ohm * run.currentA ** 2,
  };
}
