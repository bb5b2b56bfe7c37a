import type { CivilDate } from "../../units/zone.js";

/** A value that holds from a day on, until the next one. */
export interface Dated<T> {
  readonly from: CivilDate;
  readonly value: T;
  /** When it was written down: of two for the same day the later one counts, the earlier stays on record. */
  readonly writtenUtcMs?: number;
}

/** A price of one unit (litre, kg, kWh, km) in the smallest coin; may have a fraction of that coin. */
export interface Price {
  readonly perUnitMinor: number;
  /** ISO 4217. */
  readonly currency: string;
}

/** A history by day, then by when it was written. Everything below wants this order. */
export const inOrder = <T>(history: readonly Dated<T>[]): readonly Dated<T>[] =>
  [...history].sort((a, b) => compareText(a.from, b.from) || (a.writtenUtcMs ?? 0) - (b.writtenUtcMs ?? 0));

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/**
 * The value that held on a day, null before the first one: a price is never carried back to days before it was known.
 * Wants the order of `inOrder`; a new value therefore changes no day before its own.
 */
export function valueOn<T>(history: readonly Dated<T>[], date: CivilDate): T | null {
  let low = 0;
  let high = history.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((history[middle] as Dated<T>).from <= date) low = middle + 1;
    else high = middle;
  }
  return low > 0 ? (history[low - 1] as Dated<T>).value : null;
}

/** A value that has always held. */
export const always = <T>(value: T): readonly Dated<T>[] => [{ from: "0001-01-01", value }];
