/** One counted cycle: full (1) or half (0.5), of a range about a mean. */
export interface Cycle {
  readonly range: number;
  readonly mean: number;
  readonly count: number;
}

/** Difference for sorting; rounding noise is none. */
const apart = (a: number, b: number): number => (Math.abs(a - b) < 1e-9 ? 0 : a - b);

/** First, last and turning points of a series. */
function turnings(series: readonly number[]): number[] {
  const kept: number[] = [];
  for (const value of series) {
    const last = kept.at(-1);
    const before = kept.at(-2);
    if (value === last) continue;
    if (last !== undefined && before !== undefined && value > last === last > before) kept.pop();
    kept.push(value);
  }
  return kept;
}

/**
 * Cycles of a series in any unit, by rising range, then mean, then count.
 * Source: ASTM E1049-85 (2017), section 5.4.4, rainflow counting.
 */
export function rainflow(series: readonly number[]): readonly Cycle[] {
  const cycles: Cycle[] = [];
  const open: number[] = [];
  const counted = (a: number, b: number, count: number) =>
    cycles.push({ range: Math.abs(a - b), mean: (a + b) / 2, count });
  for (const point of turnings(series)) {
    open.push(point);
    while (open.length >= 3) {
      const [start, middle, end] = open.slice(-3) as [number, number, number];
      if (Math.abs(end - middle) < Math.abs(middle - start)) break;
      if (open.length === 3) {
        counted(start, middle, 0.5);
        open.shift();
      } else {
        counted(start, middle, 1);
        open.splice(-3, 2);
      }
    }
  }
  for (let i = 1; i < open.length; i++) counted(open[i - 1] as number, open[i] as number, 0.5);
  return cycles.sort((a, b) => apart(a.range, b.range) || apart(a.mean, b.mean) || a.count - b.count);
}

/** Cycles summed by range, by rising range. */
export function countsByRange(cycles: readonly Cycle[]): readonly { readonly range: number; readonly count: number }[] {
  const counts: { range: number; count: number }[] = [];
  for (const { range, count } of cycles) {
    const last = counts.at(-1);
    if (last && Math.abs(last.range - range) < 1e-9) last.count += count;
    else counts.push({ range, count });
  }
  return counts;
}

/** Through-put in full cycles of `fullRange`: 1 for shares, 100 for percent. */
export const fullCycles = (cycles: readonly Cycle[], fullRange = 1): number =>
  cycles.reduce((all, { range, count }) => all + range * count, 0) / fullRange;
