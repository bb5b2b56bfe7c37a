/** Repeatable chance: the same seed gives the same numbers on every machine. */
export type Dice = () => number;

/** Uniform numbers in [0, 1) from a 32-bit seed. Source: the public-domain generator "mulberry32" (T. Ettinger), from memory. */
export function diceOf(seed: number): Dice {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** A 32-bit seed from a text, so that each vehicle and day has its own (FNV-1a). */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/** Another seed for each part of a whole, so that one part more leaves the others as they were. */
export const seedPart = (seed: number, part: number): number =>
  Math.imul(seed ^ Math.imul(part, 0x9e3779b9), 0x85ebca6b) >>> 0;

/**
 * Standard normal numbers for `count` draws in each of some independent quantities, one column after the other, each with a seed of its own.
 * Every column hits each of `count` equal shares of the distribution once, in an order shaken by its seed.
 * Source: Latin hypercube sampling, McKay, Beckman and Conover (1979), Technometrics 21(2) 239-245.
 */
export function evenNormals(count: number, seeds: readonly number[]): Float64Array {
  const values = new Float64Array(count * seeds.length);
  const even = Float64Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  seeds.forEach((seed, c) => {
    const dice = diceOf(seed);
    const column = values.subarray(c * count, (c + 1) * count);
    column.set(even);
    for (let i = count - 1; i > 0; i--) {
      const j = Math.floor(dice() * (i + 1));
      const held = column[i] as number;
      column[i] = column[j] as number;
      column[j] = held;
    }
  });
  return values;
}

/**
 * Standard normal quantile of `share` in (0, 1); relative error below 1.2e-9.
 * Source: P. J. Acklam's rational approximation (2003), from memory; checked in the tests against printed normal tables.
 */
export function normalQuantile(share: number): number {
  const p = Math.min(1 - 1e-12, Math.max(1e-12, share));
  if (p < 0.02425) return tail(Math.sqrt(-2 * Math.log(p)));
  if (p > 1 - 0.02425) return -tail(Math.sqrt(-2 * Math.log(1 - p)));
  const q = p - 0.5;
  const r = q * q;
  const top =
    (((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r -
      30.66479806614716) *
      r +
      2.506628277459239) *
    q;
  const under =
    ((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r -
      13.28068155288572) *
      r +
    1;
  return top / under;
}

function tail(q: number): number {
  const top =
    ((((-0.007784894002430293 * q - 0.3223964580411365) * q - 2.400758277161838) * q - 2.549732539343734) * q +
      4.374664141464968) *
      q +
    2.938163982698783;
  const under =
    (((0.007784695709041462 * q + 0.3224671290700398) * q + 2.445134137142996) * q + 3.754408661907416) * q + 1;
  return top / under;
}

/** Share of the standard normal distribution below `z`; absolute error below 7.5e-8. Source: Abramowitz and Stegun 26.2.17. */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const upper = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * poly;
  return z >= 0 ? 1 - upper : upper;
}
