import { type FairCharge, fairCharge, fairMonth, type Sums, valueOn } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";

/** Charges of a month that were paid on the spot, beside what the meter's tariff makes of their units; null when none was. */
export function fairOf(books: readonly MoneyBook[], month: string) {
  const judged = books.flatMap((book) =>
    book.logs
      .filter((log) => log.date.startsWith(month))
      .flatMap((log) => {
        const tariff = valueOn(book.terms.tariff, log.date);
        const paid = (log.charges ?? []).filter((charge) => charge.paidMinor !== null);
        return paid.map((charge): FairCharge | null => (tariff ? fairCharge(charge, tariff) : null));
      }),
  );
  const sums = fairMonth(judged);
  return sums.judged > 0 ? sums : null;
}

/** Grams of carbon dioxide less than with fuel; null while one side has no figure. */
export const savedCarbonG = (sums: Sums): number | null => (sums.carbonDays > 0 ? sums.fuelCo2G - sums.gridCo2G : null);
