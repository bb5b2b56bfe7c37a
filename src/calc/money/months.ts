import type { CivilDate } from "../../units/zone.js";
import { daysInMonth, type Month, monthEnds, monthOf, nextMonth } from "./calendar.js";
import { type DayLine, type DayLog, dayLine, type Terms } from "./day-line.js";
import { dayCosts } from "./fixed.js";
import type { Minor } from "./minor.js";
import { addInto, addSums, allIn, energyOnly, type MutableSums, NO_SUMS, type Sums } from "./sums.js";

/** A month of one vehicle, added up; two currencies in one month stay apart. */
export interface MonthPack {
  readonly vehicleId: string;
  readonly month: Month;
  readonly byCurrency: readonly { readonly currency: string; readonly sums: Sums }[];
}

/** Day lines from `from` to `to`, both included, in order; a day nobody wrote is a missing line, and its fixed costs still run. */
export function dayLines(logs: readonly DayLog[], terms: Terms, from: CivilDate, to: CivilDate): readonly DayLine[] {
  const byDate = new Map(logs.map((log) => [log.date, log]));
  const lines: DayLine[] = [];
  for (let month = monthOf(from); month <= monthOf(to); month = nextMonth(month)) {
    const ends = monthEnds(month);
    const fixed = dayCosts(terms.fixed, ends.from, ends.to);
    for (let day = 1; day <= daysInMonth(month); day++) {
      const date = `${month}-${day < 10 ? "0" : ""}${day}`;
      if (date >= from && date <= to) lines.push(dayLine(byDate.get(date) ?? missingDay(date), terms, fixed));
    }
  }
  return lines;
}

export const missingDay = (date: CivilDate): DayLog => ({
  date,
  state: "missing",
  km: null,
  kmHow: "typed",
  charges: null,
  sun: null,
});

const byCurrency = (lines: readonly DayLine[]): MonthPack["byCurrency"] =>
  [...new Set(lines.map((line) => line.currency))].map((currency) => ({
    currency,
    sums: addSums(lines.filter((line) => line.currency === currency).map((line) => line.sums)),
  }));

/** The pack of the day lines of one month. */
export const packOf = (vehicleId: string, month: Month, lines: readonly DayLine[]): MonthPack => ({
  vehicleId,
  month,
  byCurrency: byCurrency(lines),
});

/** The pack of a month straight from the log, no day after `until` (today) being counted as missing. */
export function monthPack(
  vehicleId: string,
  logs: readonly DayLog[],
  terms: Terms,
  span: { readonly month: Month; readonly since?: CivilDate; readonly until?: CivilDate },
): MonthPack {
  const { from, to } = monthEnds(span.month);
  const first = span.since !== undefined && span.since > from ? span.since : from;
  const last = span.until !== undefined && span.until < to ? span.until : to;
  return packOf(vehicleId, span.month, dayLines(logs, terms, first, last));
}

/** The pack after one of its days was written anew: the old line goes out, the new one comes in, nothing else is worked out again. */
export function replaceDay(pack: MonthPack, old: DayLine, line: DayLine): MonthPack {
  const kept = new Map<string, MutableSums>(pack.byCurrency.map(({ currency, sums }) => [currency, { ...sums }]));
  const sumsOf = (currency: string): MutableSums => {
    const found = kept.get(currency) ?? { ...NO_SUMS };
    kept.set(currency, found);
    return found;
  };
  addInto(sumsOf(old.currency), old.sums, -1);
  addInto(sumsOf(line.currency), line.sums);
  const left = [...kept].filter(([, sums]) => sums.days > 0);
  return { ...pack, byCurrency: left.map(([currency, sums]) => ({ currency, sums })) };
}

/** One row of a month or of a vehicle, in one currency. */
export interface MoneyRow {
  readonly key: string;
  readonly currency: string;
  readonly sums: Sums;
  readonly energyOnly: number;
  readonly allIn: number;
}

function rows(packs: Iterable<MonthPack>, keyOf: (pack: MonthPack) => string): readonly MoneyRow[] {
  const totals = new Map<string, Map<string, MutableSums>>();
  for (const pack of packs)
    for (const { currency, sums } of pack.byCurrency) {
      const key = keyOf(pack);
      const group = totals.get(key) ?? new Map<string, MutableSums>();
      totals.set(key, group);
      const total = group.get(currency);
      if (total) addInto(total, sums);
      else group.set(currency, { ...sums });
    }
  return [...totals].flatMap(([key, group]) =>
    [...group].map(([currency, sums]) => ({ key, currency, sums, energyOnly: energyOnly(sums), allIn: allIn(sums) })),
  );
}

/** Fleet by month, oldest first. */
export const fleetByMonth = (packs: Iterable<MonthPack>): readonly MoneyRow[] =>
  [...rows(packs, (pack) => pack.month)].sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));

/** Vehicles of one month or of many, the one that saves least first. */
export const fleetByVehicle = (packs: Iterable<MonthPack>): readonly MoneyRow[] =>
  [...rows(packs, (pack) => pack.vehicleId)].sort((a, b) => a.allIn - b.allIn || (a.key < b.key ? -1 : 1));

/** The whole, by currency. */
export const fleetTotal = (packs: Iterable<MonthPack>): readonly MoneyRow[] => rows(packs, () => "all");

/** What was saved on the counted days with all but the instalments taken off: what a purchase has brought back so far. */
export function savedBeforeInstalments(lines: readonly DayLine[]): {
  readonly lowMinor: Minor;
  readonly likelyMinor: Minor;
  readonly highMinor: Minor;
} {
  const sums = addSums(lines.map((line) => line.sums));
  return {
    lowMinor: sums.allInLow + sums.instalment,
    likelyMinor: allIn(sums) + sums.instalment,
    highMinor: sums.allInHigh + sums.instalment,
  };
}
