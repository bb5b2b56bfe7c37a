import {
  allIn,
  type DayLine,
  energyOnly,
  fleetByMonth,
  type Gap,
  type MoneyRow,
  type MonthPack,
  packOf,
  type Sums,
} from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { type Months, sumsAt } from "./sums/rows.js";

/** The months of a book, added up once for each state of the book. */
const packs = new WeakMap<MoneyBook, readonly MonthPack[]>();
export function packsOf(book: MoneyBook): readonly MonthPack[] {
  const held = packs.get(book);
  if (held) return held;
  const byMonth = new Map<string, DayLine[]>();
  for (const line of book.lines) {
    const month = line.date.slice(0, 7);
    const lines = byMonth.get(month);
    if (lines) lines.push(line);
    else byMonth.set(month, [line]);
  }
  const made = [...byMonth].map(([month, lines]) => packOf(book.vehicle.id, month, lines));
  packs.set(book, made);
  return made;
}

/** One month of some books, a row a currency. */
export const monthOfBooks = (books: readonly MoneyBook[], month: string): readonly MoneyRow[] =>
  fleetByMonth(books.flatMap(packsOf).filter((pack) => pack.month === month));

/** All months of some books, newest first. */
export const monthsOfBooks = (books: readonly MoneyBook[]): readonly MoneyRow[] =>
  [...fleetByMonth(books.flatMap(packsOf))].reverse();

/** Months of all vehicles as rows, newest first. */
export const rowsOfMonths = (months: Months): readonly MoneyRow[] =>
  months.heads
    .map(({ month, currency }, n) => {
      const sums = sumsAt(months, n);
      return { key: month, currency, sums, energyOnly: energyOnly(sums), allIn: allIn(sums) };
    })
    .reverse();

export const linesOfMonth = (book: MoneyBook, month: string): readonly DayLine[] =>
  book.lines.filter((line) => line.date.startsWith(month));

/** Why days of a month are not counted, each reason once. */
export const gapsOf = (lines: readonly DayLine[]): readonly Gap[] => [
  ...new Set(lines.filter((line) => !line.counted || line.gaps.length > 0).flatMap((line) => line.gaps)),
];

export type PartName =
  | "fuelThen"
  | "power"
  | "upkeepThen"
  | "upkeepNow"
  | "setAside"
  | "instalment"
  | "rent"
  | "insurance"
  | "otherFixed";
const GAINS: readonly PartName[] = ["fuelThen", "upkeepThen"];
const ALWAYS: readonly PartName[] = ["fuelThen", "power"];
const PARTS: readonly PartName[] = [
  ...ALWAYS,
  "upkeepThen",
  "upkeepNow",
  "setAside",
  "instalment",
  "rent",
  "insurance",
  "otherFixed",
];

/** The parts that add up to the all-in line, with their sign; parts that are nothing are left out, fuel and power never. */
export const partsOf = (sums: Sums): readonly { readonly part: PartName; readonly minor: number }[] =>
  PARTS.filter((part) => sums[part] !== 0 || ALWAYS.includes(part)).map((part) => ({
    part,
    minor: GAINS.includes(part) ? sums[part] : 0 - sums[part],
  }));
