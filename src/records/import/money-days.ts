import { currencyPlaces } from "../../calc/money/index.js";
import { bad, good, type Outcome, type Problem } from "../../units/outcome.js";
import { type CivilDate, isCivilDate } from "../../units/zone.js";
import type { CsvForm, Rows } from "../export/csv.js";
import { entryId } from "../ids.js";
import type { Entry } from "../index.js";
import { readRecord } from "../read.js";
import { csvRows, decimalSignOf, latinDigits, numberOf, separatorOf } from "./csv.js";

/** Columns that a table of days may have, by the names our own export gives them. */
export const DAY_COLUMNS = ["date", "vehicle", "km", "odometerKm", "gridKwh", "sunKwh", "paid", "driver"] as const;
export type DayColumn = (typeof DAY_COLUMNS)[number];
const NUMBERS: readonly DayColumn[] = ["km", "odometerKm", "gridKwh", "sunKwh", "paid"];

export type DateOrder = "yearFirst" | "dayFirst" | "monthFirst";

/** What a person answered where the file alone does not tell. */
export interface CsvAnswers {
  readonly separator?: CsvForm["separator"];
  readonly decimalSign?: CsvForm["decimalSign"];
  readonly dateOrder?: DateOrder;
  /** Which column is what, in the file's order; null for one to leave out. */
  readonly columns?: readonly (DayColumn | null)[];
}

export interface CsvDays {
  readonly entries: readonly Entry[];
  /** Rows that were left out, each with its line and the reason. */
  readonly problems: readonly Problem[];
  readonly form: CsvForm;
}

/**
 * Days written elsewhere, as entries. Rows that cannot be read are left out and told; nothing is guessed.
 * Must be answered first (`bad`): `csvColumns` (no column called date, or none called vehicle while several are known), `csvDecimalSign`
 * (1,234 could be both, or cells disagree), `csvDateOrder` (03/04 could be both). Of a row: `badDate`, `badNumber`, `tooFine` (more decimals
 * than the currency has coins), `vehicleUnknown`, `dayTwice`, and those of the entry's own check.
 */
export function daysOfCsv(
  text: string,
  to: { readonly plates: ReadonlyMap<string, string>; readonly currency: string },
  answers: CsvAnswers = {},
): Outcome<CsvDays> {
  const separator = answers.separator ?? separatorOf(text);
  const read = csvRows(text, separator);
  if (!read.ok) return read;
  const [heads = [], ...rows] = read.value;
  const columns = answers.columns ?? heads.map(columnOf);
  const asked = unanswered(columns, rows, to.plates.size, answers);
  if (asked) return bad(asked);
  const sign = answers.decimalSign ?? (signOf(rows, columns) === "comma" ? "," : ".");
  const form: CsvForm = { separator, decimalSign: sign };
  const order = answers.dateOrder ?? dateOrderOf(cellsOf(rows, columns, "date")) ?? "yearFirst";
  const entries = new Map<string, Entry>();
  const problems: Problem[] = [];
  for (const [i, row] of rows.entries()) {
    const where = `lines.${i + 2}`;
    const entry = entryOf({ row, columns, sign, order, ...to });
    if (!entry.ok) problems.push(...entry.problems.map((each) => ({ ...each, where: `${where}.${each.where}` })));
    else if (entries.has(entry.value.id))
      problems.push({ code: "dayTwice", where, figures: { date: entry.value.date } });
    else entries.set(entry.value.id, entry.value);
  }
  return good({ entries: [...entries.values()], problems, form });
}

const columnOf = (head: string): DayColumn | null => {
  const plain = head.trim().toLowerCase();
  return DAY_COLUMNS.find((column) => column.toLowerCase() === plain) ?? null;
};
const cellsOf = (
  rows: Rows,
  columns: readonly (DayColumn | null)[],
  ...wanted: readonly DayColumn[]
): readonly string[] =>
  rows.flatMap((row) => row.filter((cell, i) => cell.trim() !== "" && wanted.includes(columns[i] as DayColumn)));
const signOf = (rows: Rows, columns: readonly (DayColumn | null)[]) =>
  decimalSignOf(cellsOf(rows, columns, ...NUMBERS));

function unanswered(
  columns: readonly (DayColumn | null)[],
  rows: Rows,
  vehicles: number,
  answers: CsvAnswers,
): Problem | null {
  if (!columns.includes("date") || (vehicles !== 1 && !columns.includes("vehicle")))
    return { code: "csvColumns", where: "lines.1" };
  const sign = signOf(rows, columns);
  if (answers.decimalSign === undefined && (sign === "unclear" || sign === "mixed")) {
    const sample = cellsOf(rows, columns, ...NUMBERS).find((cell) => /[.,]/.test(cell)) ?? "";
    return { code: "csvDecimalSign", where: "lines", figures: { sample } };
  }
  const dates = cellsOf(rows, columns, "date");
  if (answers.dateOrder === undefined && dateOrderOf(dates) === null)
    return { code: "csvDateOrder", where: "lines", figures: { sample: dates[0] ?? "" } };
  return null;
}

const partsOf = (cell: string): readonly number[] => latinDigits(cell).trim().split(/[-/.]/).map(Number);

/** The order of day, month and year that some dates allow; null when both day first and month first would do. */
export function dateOrderOf(cells: readonly string[]): DateOrder | null {
  const dates = cells.map(partsOf);
  if (dates.every(([first = 0]) => first > 31)) return "yearFirst";
  if (dates.some(([first = 0]) => first > 12 && first <= 31)) return "dayFirst";
  return dates.some(([, second = 0]) => second > 12) ? "monthFirst" : null;
}

export function dateOf(cell: string, order: DateOrder): CivilDate | null {
  const [a = 0, b = 0, c = 0] = partsOf(cell);
  const [year, month, day] = order === "yearFirst" ? [a, b, c] : order === "dayFirst" ? [c, b, a] : [c, a, b];
  const full = year < 100 ? 2000 + year : year;
  const date = `${full}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
  return isCivilDate(date) ? date : null;
}

interface RowCase {
  readonly row: readonly string[];
  readonly columns: readonly (DayColumn | null)[];
  readonly sign: "." | ",";
  readonly order: DateOrder;
  readonly plates: ReadonlyMap<string, string>;
  readonly currency: string;
}

function entryOf(given: RowCase): Outcome<Entry> {
  const cell = (column: DayColumn): string => given.row[given.columns.indexOf(column)]?.trim() ?? "";
  const date = dateOf(cell("date"), given.order);
  const vehicleId = given.columns.includes("vehicle")
    ? given.plates.get(cell("vehicle"))
    : [...given.plates.values()][0];
  if (date === null) return bad({ code: "badDate", where: "date", figures: { found: cell("date") } });
  if (vehicleId === undefined)
    return bad({ code: "vehicleUnknown", where: "vehicle", figures: { found: cell("vehicle") } });
  const numbers = new Map(NUMBERS.map((column) => [column, numberOf(cell(column), given.sign)]));
  const wrong = NUMBERS.find((column) => cell(column) !== "" && numbers.get(column) === null);
  if (wrong) return bad({ code: "badNumber", where: wrong, figures: { found: cell(wrong) } });
  const paid = minorOf(numbers.get("paid") ?? null, given.currency);
  if (!paid.ok) return paid;
  return readRecord("entry", {
    id: entryId(vehicleId, date),
    v: 1,
    vehicleId,
    date,
    km: numbers.get("km") ?? null,
    trips: null,
    odometerKm: numbers.get("odometerKm") ?? null,
    level: null,
    loadClass: null,
    pluggedAt: null,
    gridKwh: numbers.get("gridKwh") ?? null,
    sunKwh: numbers.get("sunKwh") ?? null,
    paidMinor: paid.value,
    wet: null,
    driver: cell("driver") || null,
    formerly: [],
  });
}

function minorOf(amount: number | null, currency: string): Outcome<number | null> {
  const places = currencyPlaces(currency);
  if (amount === null) return good(null);
  if (places === null) return bad({ code: "currencyUnknown", where: "paid", figures: { currency } });
  const minor = amount * 10 ** places;
  if (Math.abs(minor - Math.round(minor)) > 1e-6 * Math.max(1, Math.abs(minor)))
    return bad({ code: "tooFine", where: "paid", figures: { found: amount, places } });
  return good(Math.round(minor));
}
