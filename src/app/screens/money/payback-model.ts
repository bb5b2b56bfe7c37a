import {
  breakEven,
  dayNumber,
  flowsOf,
  type PaybackMonth,
  paybackMonths,
  type Worth,
  worthOf,
  type YearTerms,
} from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";

type Answered = NonNullable<MoneyBook["payback"]>;

/** Rows that a picture and its table can hold on a phone. */
const MOST_ROWS = 24;
const LEAST_MONTHS = 12;
const MOST_MONTHS = 96;
const MONTH_DAYS = 30.44;

/** Months from today to a little after the latest payback, thinned to what a phone can show; the last one is always there. */
export function shownMonths({ of, answer }: Answered): readonly PaybackMonth[] {
  const until = answer.high ?? answer.likely;
  const wanted = until === null ? of.lifeYears * 12 : (dayNumber(until) - dayNumber(of.today)) / MONTH_DAYS + 3;
  const months = Math.min(MOST_MONTHS, Math.max(LEAST_MONTHS, Math.ceil(wanted)));
  const step = Math.ceil(months / MOST_ROWS);
  const all = paybackMonths(of, answer.perYear, Math.ceil(months / step) * step);
  return all.filter((_, i) => i % step === 0);
}

/** What must be saved a year for the price to come back within the life. */
const neededPerYear = ({ of }: Answered): number => Math.max(0, of.priceMinor - of.savedMinor) / of.lifeYears;

export interface Turn {
  readonly field: "fuelPricePerUnit" | "kmPerDay" | "setLifeKm";
  readonly value: number;
}

/** Where it would begin to pay, one figure at a time; those that no value within reach brings about are left out. */
export function turnsOf(answered: Answered): readonly Turn[] {
  const wanted = neededPerYear(answered);
  const at = (field: Turn["field"]): Turn | null => {
    const value = breakEven(answered.of.terms as YearTerms, field, wanted);
    return value === null ? null : { field, value };
  };
  return [at("fuelPricePerUnit"), at("kmPerDay"), at("setLifeKm")].filter((turn) => turn !== null);
}

/** Worth of the purchase over its life at the owner's yearly rate. */
export function worthOfKit({ of }: Answered, discountPerYear: number, resale: number): Worth {
  const lifeYears = Math.max(1, Math.round(of.lifeYears));
  return worthOf(
    flowsOf(of.terms, { price: of.priceMinor, lifeYears, ratePerYear: discountPerYear, resale }),
    discountPerYear,
  );
}
