import { chargerCurve, type StoreModel, storedShare } from "../../calc/battery/index.js";
import type { AcceptancePoint } from "../../calc/yard/night.js";
import { clamp } from "../../units/numbers.js";

const STEPS = 100;

/** Level of a set counted in units on the meter: what the meter would show for charging to it from empty. */
export interface MeterScale {
  readonly fullKwh: number;
  /** Beyond a full set it goes on at the mean of the whole set: nothing charges there, but what is missing has a size. */
  readonly kwhAt: (share: number) => number;
  readonly shareAt: (kwh: number) => number;
  /** Most units per hour the charger and the set together take from the meter, by level; null when the set takes nothing. */
  readonly acceptance: readonly AcceptancePoint[] | null;
  readonly chargerKw: number;
}

/** Charging losses put into the unit: stored share of the set by level, and the charger's own efficiency. `ratedW` is DC out. */
export function meterScaleOf(
  store: StoreModel,
  charger: { readonly ratedW: number; readonly efficiency: number },
): MeterScale {
  const sums = new Float64Array(STEPS + 1);
  for (let i = 0; i < STEPS; i++) {
    const stored = storedShare(store, (i + 0.5) / STEPS);
    sums[i + 1] = (sums[i] as number) + store.usableWh / STEPS / stored / charger.efficiency / 1000;
  }
  const fullKwh = sums[STEPS] as number;
  const kwhAt = (share: number): number => {
    if (share >= 1) return fullKwh * share;
    const place = Math.max(0, share) * STEPS;
    const below = Math.min(STEPS - 1, Math.floor(place));
    const from = sums[below] as number;
    return from + ((sums[below + 1] as number) - from) * (place - below);
  };
  const shareAt = (kwh: number): number => {
    let low = 0;
    let high = 1;
    for (let i = 0; i < 30; i++) {
      const middle = (low + high) / 2;
      if (kwhAt(middle) < kwh) low = middle;
      else high = middle;
    }
    return clamp(high, 0, 1);
  };
  const points = chargerCurve(store, charger)
    .map(({ levelWh, w }) => ({ levelKwh: kwhAt(levelWh / store.usableWh), kw: w / charger.efficiency / 1000 }))
    .filter(({ levelKwh }, i, all) => i === 0 || levelKwh - (all[i - 1]?.levelKwh ?? 0) > 1e-9);
  const takes = (points[points.length - 1]?.kw ?? 0) > 0;
  return {
    fullKwh,
    kwhAt,
    shareAt,
    acceptance: takes ? points : null,
    chargerKw: charger.ratedW / charger.efficiency / 1000,
  };
}
