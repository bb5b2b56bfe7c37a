export const MINUTE_MS = 60_000;
export const HOUR_MS = 3_600_000;
export const DAY_MS = 86_400_000;

const DEG_PER_RAD = 180 / Math.PI;
export const toRad = (deg: number): number => deg / DEG_PER_RAD;
export const toDeg = (rad: number): number => rad * DEG_PER_RAD;

export const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Direction in 0..360 degrees, clockwise from north. */
export const compassDeg = (deg: number): number => ((deg % 360) + 360) % 360;

/** Value of a piecewise straight line through rising `xs`, held flat beyond its ends. */
export function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  let i = 1;
  while (i < xs.length - 1 && x > (xs[i] as number)) i++;
  const x0 = xs[i - 1] as number;
  const x1 = xs[i] as number;
  const share = x1 > x0 ? clamp((x - x0) / (x1 - x0), 0, 1) : 0;
  const y0 = ys[i - 1] as number;
  return y0 + ((ys[i] as number) - y0) * share;
}

/** Quantile of a rising list, straight between the order statistics (Hyndman and Fan 1996, type 7). */
export function quantileOfSorted(sorted: ArrayLike<number>, level: number): number {
  const place = clamp(level, 0, 1) * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] as number;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] as number;
  return low + (high - low) * (place - below);
}
