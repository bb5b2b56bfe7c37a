/** An amount of money in the smallest coin of its currency: always a whole number. Rates such as a price per litre may have a fraction. */
export type Minor = number;

/**
 * Rounds an amount to the smallest coin, halves away from zero.
 * A product such as 1.005 * 100 falls a hair below the half it means in decimals; that hair, not more, is given back.
 * Throws beyond 2^53, where whole numbers are no longer exact.
 */
export function toMinor(amount: number): Minor {
  const size = Math.round(Math.abs(amount) * (1 + 4 * Number.EPSILON));
  if (!Number.isSafeInteger(size)) throw new RangeError(`Amount out of range: ${amount}`);
  return amount < 0 && size > 0 ? -size : size;
}

/**
 * Shares a whole amount by weights so that the shares add up to it exactly (largest remainders first, earlier places first among equals).
 * Weights are 0 or more; when all are 0 the shares are equal. An empty list can only share nothing.
 * Source: largest-remainder method of Hamilton, as in Balinski and Young, Fair Representation (1982).
 */
export function allocate(totalMinor: Minor, weights: readonly number[]): Minor[] {
  if (weights.length === 0) return [];
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const size = Math.abs(totalMinor);
  const exact = weights.map((weight) => (sum > 0 ? size * (weight / sum) : size / weights.length));
  const shares = exact.map(Math.floor);
  const order = exact.map((_, i) => i).sort((a, b) => remainder(exact, b) - remainder(exact, a) || a - b);
  let left = size - shares.reduce((total, share) => total + share, 0);
  for (let i = 0; left > 0; i = (i + 1) % order.length, left--) shares[order[i] as number] = at(shares, order[i]) + 1;
  // Binary fractions can lift a floor by one; the smallest remainders give it back.
  for (let i = order.length - 1; left < 0; i = (i || order.length) - 1)
    if (at(shares, order[i]) > 0) {
      shares[order[i] as number] = at(shares, order[i]) - 1;
      left++;
    }
  return totalMinor < 0 ? shares.map((share) => (share === 0 ? 0 : -share)) : shares;
}
const at = (list: readonly number[], i: number | undefined): number => list[i ?? -1] ?? 0;
const remainder = (exact: readonly number[], i: number): number => at(exact, i) - Math.floor(at(exact, i));

/**
 * Part `index` (from 0) of an amount spread evenly over `parts`: all parts differ by one coin at most and add up exactly.
 * Throws for an index outside 0..parts-1.
 */
export function evenShare(totalMinor: Minor, parts: number, index: number): Minor {
  if (!(index >= 0 && index < parts)) throw new RangeError(`No part ${index} of ${parts}`);
  const size = Math.abs(totalMinor);
  const whole = Math.floor(size / parts);
  const rest = size - whole * parts; // the rest is spread, not piled on the first days
  const share = whole + Math.floor((rest * (index + 1)) / parts) - Math.floor((rest * index) / parts);
  return totalMinor < 0 && share > 0 ? -share : share;
}
