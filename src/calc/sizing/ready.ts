import { type Dice, normalQuantile } from "../../units/dice.js";
import { HOUR_MS } from "../../units/numbers.js";
import { coverEdges, coverNormal, coverOf, oktaAt, SKY_CHANCES } from "../sun/index.js";
import type { SizingCase } from "./input.js";
import { type DaySun, daySun, rowsUnder } from "./month-sun.js";
import { SKY_WORDS } from "./sky-chain.js";

/** Consumption differs by about this from day to day for reasons of traffic and load. [log] Common practice, no source. */
const DAY_SD_LOG = 0.08;
/** Days of December walked first, so that January does not begin with a guess. */
export const WARM_UP = 31;
/** Days tried of each kind to learn what a tomorrow may take. */
export const TRIES = 32;

/** Drawn days laid out side by side: W per watt of roof in each row, and the day's consumption over the usual one. */
export interface DrawnDays {
  readonly sun: Float64Array;
  readonly drive: Float64Array;
}

/** A month's usual days made ready for walking. */
export interface ReadyMonth {
  readonly work: DaySun;
  readonly rest: DaySun;
  /** Hours from coming home to leaving. */
  readonly homeHours: number;
  /** TRIES working days under each word. */
  readonly tries: readonly DrawnDays[];
}

export interface ReadyCase {
  readonly of: SizingCase;
  readonly months: readonly ReadyMonth[];
  /** From the first day of the warm-up on. */
  readonly monthOfDay: Uint8Array;
  readonly worksOn: (day: number) => boolean;
  /** Places for the rows of any day. */
  readonly rows: number;
}

/** Works out all that no size of kit changes: the sun of the months, and days to learn from. */
export function readyCase(of: SizingCase, dice: Dice): ReadyCase {
  const suns = of.months.map((month) => ({
    work: daySun(month.workDay, month, of),
    rest: daySun(month.restDay, month, of),
  }));
  const rows = Math.max(...suns.flatMap(({ work, rest }) => [work.hourOfRow.length, rest.hourOfRow.length]));
  const days = of.months.flatMap((month, m) => new Array<number>(month.days).fill(m));
  return {
    of,
    months: suns.map((sun) => ({
      ...sun,
      homeHours: homeHoursOf(sun.work),
      tries: SKY_WORDS.map((_, word) => drawDays(sun.work, new Array<number>(TRIES).fill(word), rows, dice)),
    })),
    monthOfDay: Uint8Array.from([...new Array<number>(WARM_UP).fill(11), ...days]),
    worksOn: (day) => (day + 7 - (WARM_UP % 7)) % 7 < of.workDaysPerWeek,
    rows,
  };
}

function homeHoursOf({ columns }: DaySun): number {
  return ((columns.fromUtcMs[columns.lowestFrom] as number) - (columns.fromUtcMs[0] as number)) / HOUR_MS;
}

function drawDays(light: DaySun, words: readonly number[], rows: number, dice: Dice): DrawnDays {
  const sun = new Float64Array(words.length * rows);
  const drive = new Float64Array(words.length);
  words.forEach((word, day) => {
    drive[day] = drawDay(light, word, dice, sun.subarray(day * rows, (day + 1) * rows));
  });
  return { sun, drive };
}

const EDGES = SKY_WORDS.map((word) => coverEdges(coverOf(SKY_CHANCES[word])));
const oktas = new Uint8Array(32);

/** Draws one day under a word: its hours' covers hang together; fills in the sun and returns the consumption over the usual one. */
export function drawDay(light: DaySun, word: number, dice: Dice, into: Float64Array): number {
  const edges = EDGES[word] as Float64Array;
  const dayNormal = normalQuantile(dice());
  for (let h = 0; h < light.hourCount; h++) oktas[h] = oktaAt(edges, coverNormal(dayNormal, normalQuantile(dice())));
  rowsUnder(light, oktas, into);
  return Math.exp(DAY_SD_LOG * normalQuantile(dice()));
}
