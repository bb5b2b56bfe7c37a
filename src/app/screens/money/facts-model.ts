import {
  type DayLog,
  type FairCharge,
  fairCharge,
  fairMonth,
  type Sums,
  type Terms,
  valueOn,
} from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";

export type Fair = ReturnType<typeof fairMonth>;
/** Carbon of a unit as the yard states it. */
export type GridFactor = Terms["grid"][number]["value"];

/** Charges of a month that were paid on the spot, beside what the meter's tariff makes of their units; null when none was. */
export function fairOf(books: readonly MoneyBook[], month: string) {
  const sums = fairMonth(
    books.flatMap(({ logs, terms }) =>
      judgedOf(
        logs.filter(({ date }) => date.startsWith(month)),
        terms,
      ),
    ),
  );
  return sums.judged > 0 ? sums : null;
}

/** The same of some days of one vehicle; null when nothing was paid on the spot. */
export function fairOfLogs(logs: readonly DayLog[], terms: Terms) {
  const judged = judgedOf(logs, terms);
  return judged.length > 0 ? fairMonth(judged) : null;
}

const judgedOf = (logs: readonly DayLog[], terms: Terms): readonly (FairCharge | null)[] =>
  logs.flatMap((log) => {
    const tariff = valueOn(terms.tariff, log.date);
    const paid = (log.charges ?? []).filter((charge) => charge.paidMinor !== null);
    return paid.map((charge): FairCharge | null => (tariff ? fairCharge(charge, tariff) : null));
  });

/** Grams of carbon dioxide less than with fuel; null while one side has no figure. */
export const savedCarbonG = (sums: Sums): number | null => (sums.carbonDays > 0 ? sums.fuelCo2G - sums.gridCo2G : null);
