import type { Menu } from "./menu.js";

/** In which order the sessions of a stay are tried, and what each costs against the others. */
export interface Ranking {
  readonly key: Float64Array;
  readonly order: Int32Array;
}

/**
 * What the aims weigh against a hundredth of money while searching. The search walks by this sum; the best plan is kept by the
 * strict order of the aims, so the weights only steer. Those of the early aims are large but not walls: a search that may never
 * be one promise or half a unit worse on the way does not find the way.
 */
export interface Weights {
  readonly short: number;
  readonly weight: number;
  readonly missing: number;
  readonly changes: number;
  readonly full: number;
  readonly swap: number;
  readonly ready: number;
}

/** Hundredths of money that the dearest charge of the night may cost; at least 100, for nights without a price. */
export function dearestCents({ model: { stays, pricePerKwh, feePerCharge } }: Menu): number {
  const price = pricePerKwh.reduce((most, one) => Math.max(most, one), 0);
  const kwh = stays.reduce((most, stay) => Math.max(most, Math.min(stay.fullKwh, stay.targetKwh) - stay.arriveKwh), 0);
  return Math.max(100, 100 * (feePerCharge + price * kwh));
}

/** What the aims weigh by default, in dearest sessions; the search varies some of them from cycle to cycle. */
const USUAL = { missing: 0.006, full: 5, swap: 0.02 };

/** Weights by the dearest session and by what a swap is worth; `missing` is per hundredth of a kWh, `swap` in hundredths of money. */
export const weightsOf = (
  dearest: number,
  swapWorthCents: number,
  varied: Partial<Pick<typeof USUAL, "missing" | "full">> = {},
): Weights => {
  const { missing, full, swap } = { ...USUAL, ...varied };
  return {
    short: 20 * dearest,
    weight: 2 * dearest,
    missing: missing * dearest,
    changes: 0.4 * dearest,
    full: full * dearest,
    swap: swap + swapWorthCents,
    ready: swap / 200,
  };
};

/** Cost of every session of the menu on its own. */
export function ownCosts(menu: Menu, weights: Weights): Float64Array {
  const { change, fullMissed, cents, swap, ready } = menu;
  const costs = new Float64Array(menu.klass.length);
  for (let i = 0; i < costs.length; i++)
    costs[i] =
      weights.changes * (change.values[i] as number) +
      weights.full * (fullMissed.values[i] as number) +
      (cents.values[i] as number) +
      weights.swap * (swap.values[i] as number) +
      weights.ready * (ready.values[i] as number);
  return costs;
}

/** Sorts the sessions of every stay by their key, equal keys by place. */
export function ranked(menu: Menu, key: Float64Array): Ranking {
  const order = Int32Array.from({ length: key.length }, (_, i) => i);
  const byKey = (one: number, other: number): number => (key[one] as number) - (key[other] as number) || one - other;
  for (let v = 0; v + 1 < menu.from.length; v++) order.subarray(menu.from[v], menu.from[v + 1]).sort(byKey);
  return { key, order };
}
