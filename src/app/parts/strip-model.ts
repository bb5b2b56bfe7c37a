/** What the day strip draws. Times are wall-clock hours after midnight of the first day (they may pass 24); levels are shares 0..1. */
export interface StripModel {
  readonly fromH: number;
  readonly toH: number;
  /** Now, when it lies on the strip. */
  readonly nowH: number | null;
  /** False: no fresh reading; the level is drawn as doubt between dashed edges. */
  readonly known: boolean;
  readonly reserve: number;
  readonly hours: readonly number[];
  /** Nine days in ten end above `low`; `mid` is likely; one in ten ends above `high`. */
  readonly low: readonly number[];
  readonly mid: readonly number[];
  readonly high: readonly number[];
  /** Sun by clock hour, as shares of the tallest hour of the year at this place. */
  readonly sun: readonly { readonly hour: number; readonly offered: number; readonly taken: number }[];
  readonly road: readonly RoadBlock[];
  /** Lowest point of the day on the likely line. */
  readonly lowest: { readonly hour: number; readonly level: number } | null;
  /** Bars on the dash, drawn as ticks at the left edge. */
  readonly bars: number | null;
}

/** A stretch of the road lane: rounds are blocks, parking is a rail, a plug has two pins. */
export interface RoadBlock {
  readonly kind: "round" | "stall" | "rail" | "sunRail" | "plug";
  readonly fromH: number;
  readonly toH: number;
  /** Longest first: the first that fits is written. */
  readonly names: readonly string[];
  /** Hours of the stops. */
  readonly posts: readonly number[];
  readonly done: boolean;
}

/** The words of a strip, already in the reader's language. */
export interface StripWords {
  /** All of it in one or two sentences, for who cannot see the picture. */
  readonly whole: string;
  readonly sun: string;
  readonly sunSum: string;
  readonly line: string;
  /** The reading: its figure and who gave it. */
  readonly start: readonly [string, string] | null;
  /** At the lowest point: a figure and its hour. */
  readonly flag: readonly [string, string] | null;
}

/** Value of a line at an hour, straight between its points. */
export function levelAt(hours: readonly number[], levels: readonly number[], hour: number): number {
  let i = 1;
  while (i < hours.length - 1 && (hours[i] as number) < hour) i++;
  const from = hours[i - 1] as number;
  const to = hours[i] ?? from;
  const a = levels[i - 1] as number;
  const b = levels[i] ?? a;
  return to > from ? a + (b - a) * Math.min(1, Math.max(0, (hour - from) / (to - from))) : a;
}
