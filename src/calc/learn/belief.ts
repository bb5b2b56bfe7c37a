/** What is held of several quantities at once: their middles, and how far and how jointly they may be off. Plain numbers, row by row. */
export interface Belief {
  readonly mean: readonly number[];
  /** Covariance, size x size. */
  readonly cov: readonly number[];
}

/** One thing seen that depends on some of the quantities: `expected + sum(slope x change)`. */
export interface Sight {
  /** [place, slope] of every quantity it depends on. */
  readonly slopes: readonly (readonly [number, number])[];
  readonly expected: number;
  readonly seen: number;
  /** Variance of the seeing itself. */
  readonly variance: number;
}

export interface Heard {
  readonly belief: Belief;
  /** How far off, in standard deviations of what was to be expected. */
  readonly z: number;
  /** Share of the step that was taken, 0..1: an odd value is hardly listened to. */
  readonly weight: number;
  /** Variance of seen minus expected. */
  readonly spread: number;
  /** Share of the step left after the limits. */
  readonly held: number;
}

/**
 * Past this many standard deviations a value is not listened to at all (Tukey's biweight): a slip of the finger is further off,
 * while a plain day loses little (the constant 4.685 keeps 95 % of the information of normal values).
 * Source: Beaton and Tukey (1974), Technometrics 16, 147; constant as in Holland and Welsch (1977), Commun. Stat. A6, 813.
 */
export const DEAF_AT_SD = 4.685;

const biweight = (z: number): number => (Math.abs(z) >= DEAF_AT_SD ? 0 : (1 - (z / DEAF_AT_SD) ** 2) ** 2);

/** `cov x slopes`. */
function along(belief: Belief, slopes: Sight["slopes"]): number[] {
  const n = belief.mean.length;
  return belief.mean.map((_, i) =>
    slopes.reduce((sum, [j, slope]) => sum + (belief.cov[i * n + j] as number) * slope, 0),
  );
}

/** Variance of a sum of slopes times quantities. */
export function varianceAlong(belief: Belief, slopes: Sight["slopes"]): number {
  const reach = along(belief, slopes);
  return slopes.reduce((sum, [i, slope]) => sum + slope * (reach[i] as number), 0);
}

/** How far one value may move some quantities: the sizes of their steps together. */
export interface Limit {
  readonly places: readonly number[];
  readonly most: number;
}

/**
 * Takes in one thing seen (Kalman's step), listened to by its weight. If a limit would be passed, every quantity under a limit takes the same
 * smaller part of its step and keeps the doubt that goes with it (Joseph's form of the covariance, good for any step).
 * `sure` is for what a person confirmed: then it counts in full. Source: Bucy and Joseph (1968), Filtering for Stochastic Processes.
 */
export function hear(belief: Belief, sight: Sight, limits: readonly Limit[], sure = false): Heard {
  const n = belief.mean.length;
  const reach = along(belief, sight.slopes);
  const own = sight.slopes.reduce((sum, [i, slope]) => sum + slope * (reach[i] as number), 0);
  const spread = own + sight.variance;
  const off = sight.seen - sight.expected;
  const z = off / Math.sqrt(spread);
  const weight = sure ? 1 : biweight(z);
  const step = (i: number) => Math.abs((weight * (reach[i] as number) * off) / spread);
  const held = limits.reduce((share, { places, most }) => {
    const total = places.reduce((sum, i) => sum + step(i), 0);
    return total > most ? Math.min(share, most / total) : share;
  }, 1);
  const limited = new Set(limits.flatMap(({ places }) => places));
  const gain = reach.map((r, i) => ((limited.has(i) ? held * weight : weight) * r) / spread);
  const mean = belief.mean.map((m, i) => m + (gain[i] as number) * off);
  const cov = belief.cov.map((c, k) => {
    const [i, j] = [Math.floor(k / n), k % n];
    const [gi, gj] = [gain[i] as number, gain[j] as number];
    return c - gi * (reach[j] as number) - (reach[i] as number) * gj + spread * gi * gj;
  });
  return { belief: { mean, cov }, z, weight, spread, held };
}

/** Replaces quantity `place` by `value + sum(slope x change) + noise`: what is held of it then hangs together with the others. */
export function carry(
  belief: Belief,
  place: number,
  next: { readonly value: number; readonly slopes: Sight["slopes"]; readonly variance: number },
): Belief {
  const n = belief.mean.length;
  const row = along(belief, next.slopes);
  const own = next.slopes.reduce((sum, [i, slope]) => sum + slope * (row[i] as number), 0) + next.variance;
  const mean = belief.mean.map((m, i) => (i === place ? next.value : m));
  const cov = belief.cov.map((c, k) => {
    const [r, s] = [Math.floor(k / n), k % n];
    if (r === place && s === place) return own;
    if (r === place) return row[s] as number;
    return s === place ? (row[r] as number) : c;
  });
  return { mean, cov };
}

/** Sets one quantity anew, as if nothing else had been said of it. */
export const setAnew = (belief: Belief, place: number, value: number, variance: number): Belief =>
  carry(belief, place, { value, slopes: [], variance });

/** Makes one quantity less sure. */
export function addDoubt(belief: Belief, place: number, variance: number): Belief {
  const n = belief.mean.length;
  const cov = belief.cov.map((c, k) => (k === place * n + place ? c + variance : c));
  return { mean: belief.mean, cov };
}

/** Slow forgetting: doubt grows by `perDay` (variance) a day, never past what was held before anything was seen. Middles do not move. */
export function forget(belief: Belief, days: number, perDay: readonly number[], most: readonly number[]): Belief {
  const n = belief.mean.length;
  const cov = belief.cov.map((c, k) => {
    const i = Math.floor(k / n);
    if (i !== k % n) return c;
    return Math.max(c, Math.min(most[i] as number, c + days * (perDay[i] as number)));
  });
  return { mean: belief.mean, cov };
}
