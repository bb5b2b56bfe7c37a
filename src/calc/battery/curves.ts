import { clamp, interpolate } from "../../units/numbers.js";
import type { Battery, Chemistry } from "./types.js";

/** Rested voltage by level: shares rise, volts of one cell. */
export interface Curve {
  readonly shares: readonly number[];
  readonly cellV: readonly number[];
}
const curve = (points: readonly (readonly [pct: number, cellV: number])[]): Curve => ({
  shares: points.map(([pct]) => pct / 100),
  cellV: points.map(([, cellV]) => cellV),
});
const block = (points: readonly (readonly [pct: number, blockV: number])[]): Curve =>
  curve(points.map(([pct, blockV]) => [pct, blockV / 6] as const));

/** User guide of a maker of flooded deep-cycle batteries, rested 6 h or more at 25 C (from memory); the last step carried on to 0 %. */
export const LEAD_DEEP_CYCLE = curve([
  [0, 1.893],
  [10, 1.918],
  [20, 1.943],
  [30, 1.969],
  [40, 1.993],
  [50, 2.017],
  [60, 2.04],
  [70, 2.062],
  [80, 2.083],
  [90, 2.103],
  [100, 2.122],
]);
/** Battery chart of a motor-home owner manual, 2017. */
const LEAD_VEHICLE_MANUAL = block([
  [0, 11.9],
  [25, 12],
  [50, 12.2],
  [75, 12.4],
  [100, 12.7],
]);
/** Mailing list lists.ettus.com. */
const LEAD_RULE_OF_THUMB = block([
  [0, 11.6],
  [25, 12],
  [50, 12.2],
  [75, 12.4],
  [100, 12.6],
]);
/** LFP and graphite: cell of Prada et al. (2013), potentials of Afshar et al. (2017) and Chen et al. (2020), set Prada2013 of PyBaMM. */
export const LFP_RESTED = curve([
  [0, 2],
  [2, 2.46],
  [5, 2.7853],
  [7, 2.8874],
  [10, 2.9781],
  [12, 3.0308],
  [15, 3.108],
  [20, 3.1685],
  [25, 3.1857],
  [30, 3.2058],
  [35, 3.2324],
  [40, 3.2525],
  [45, 3.2621],
  [50, 3.266],
  [55, 3.2678],
  [60, 3.2688],
  [65, 3.27],
  [70, 3.274],
  [75, 3.2926],
  [80, 3.3097],
  [85, 3.3132],
  [90, 3.3142],
  [95, 3.3164],
  [98, 3.35],
  [99, 3.4145],
  [100, 3.5984],
]);

const LEAD_CURVES = [LEAD_DEEP_CYCLE, LEAD_VEHICLE_MANUAL, LEAD_RULE_OF_THUMB];
const LFP_CURVES = [LFP_RESTED];
/** Every published curve of a chemistry: where they differ, a reading is in doubt. The first is the one we draw with. */
export const restedCurves = (chemistry: Chemistry): readonly Curve[] =>
  chemistry === "lfp" ? LFP_CURVES : LEAD_CURVES;

export const cellVAt = (of: Curve, share: number): number => interpolate(of.shares, of.cellV, clamp(share, 0, 1));

const CELL_NOMINAL_V: Readonly<Record<Chemistry, number>> = { lfp: 3.2, floodedLead: 2, sealedLead: 2 };

/** Cells in series, whether `seriesCount` counts cells, 6 V or 12 V blocks; by the nominal voltage when it fits none of them. */
export function cellsOf(battery: Pick<Battery, "chemistry" | "nominalV" | "seriesCount">): number {
  const perCell = CELL_NOMINAL_V[battery.chemistry];
  const byVoltage = battery.nominalV / perCell;
  const perBlock = battery.chemistry === "lfp" ? [1, 4, 8] : [1, 3, 6];
  const count = perBlock.map((cells) => cells * battery.seriesCount).find((n) => Math.abs(n / byVoltage - 1) < 0.2);
  return count ?? Math.max(1, Math.round(byVoltage));
}

/** Rested voltage of the whole set at a level, V, 25 C, 0..1. Lead-acid by the deep-cycle table, LFP by the computed curve. */
export const restedVoltage = (
  battery: Pick<Battery, "chemistry" | "nominalV" | "seriesCount">,
  share: number,
): number => cellsOf(battery) * cellVAt(restedCurves(battery.chemistry)[0] as Curve, share);

const COLD_C = [-20, -10, 0, 10, 25, 45];
const COLD_RISE: Readonly<Record<"lfp" | "lead", readonly number[]>> = {
  lfp: [3.5, 2.5, 1.8, 1.35, 1, 0.85],
  lead: [2.2, 1.8, 1.5, 1.25, 1, 0.9],
};
/** Resistance over that at 25 C, -20..45 C (common practice, no source). */
export const coldFactor = (chemistry: Chemistry, cellC: number): number =>
  interpolate(COLD_C, COLD_RISE[chemistry === "lfp" ? "lfp" : "lead"], cellC);

/**
 * Electrode potentials of a lead-acid cell by the molality of its acid, 1..7 mol/kg, 25 C, V.
 * Source: H. Bode, Lead-Acid Batteries (Wiley, 1977), as in Sulzer et al., J. Electrochem. Soc. 166 A2363 (2019).
 */
export function bodeV(molalityMolKg: number): { positiveV: number; negativeV: number; cellV: number } {
  const l = Math.log10(molalityMolKg);
  const positiveV = 1.628 + l * (0.074 + l * (0.033 + l * (0.043 + l * 0.022)));
  const negativeV = -0.294 - l * (0.074 + l * (0.03 + l * (0.031 + l * 0.012)));
  return { positiveV, negativeV, cellV: positiveV - negativeV };
}
