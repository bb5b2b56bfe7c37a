import { currencyPlaces } from "../../../calc/money/currency.js";
import type { Minor } from "../../../calc/money/minor.js";
import { dayAndMonth, fig, figures, monthName, numberTag } from "../format.js";

/** Figures that money is told in, beside tables and reports: more would be a false promise. */
const FIGURES = 3;

const formats = new Map<string, Intl.NumberFormat>();
function formatOf(currency: string, places: number): Intl.NumberFormat {
  const key = `${numberTag()} ${currency} ${places}`;
  const found = formats.get(key);
  if (found) return found;
  const made = new Intl.NumberFormat(numberTag(), {
    style: "currency",
    currency,
    currencyDisplay: "narrowSymbol",
    minimumFractionDigits: places,
    maximumFractionDigits: places,
  });
  formats.set(key, made);
  return made;
}

const placesOf = (currency: string): number => currencyPlaces(currency) ?? 0;
const RIGHT_TO_LEFT = "ur";
/** Between marks that keep its own order within a line that runs from right to left, else the minus would stand at the wrong end. */
const isolated = (text: string): string => (numberTag().startsWith(RIGHT_TO_LEFT) ? `\u2066${text}\u2069` : text);
const written = (value: number, currency: string, places: number): string => {
  const text = formatOf(currency, places).format(Math.abs(value));
  return isolated(value < 0 ? `−${text}` : text);
};

/** An amount to the last coin, for tables and reports. */
export const exactAmount = (minor: Minor, currency: string): string =>
  written(minor / 10 ** placesOf(currency), currency, placesOf(currency));

/**
 * An amount to three figures, whole from ten on, marked as a figure. Gains go down and losses up in size, so that neither is made better
 * than it is; `near` for what is neither.
 */
export function roughAmount(minor: number, currency: string, towards: "down" | "near" = "near"): string {
  const all = placesOf(currency);
  const value = minor / 10 ** all;
  const whole = Math.abs(value) >= WHOLE_FROM;
  const step = whole ? 10 ** Math.max(0, Math.floor(Math.log10(Math.abs(value))) - FIGURES + 1) : 10 ** -all;
  const steps = value / step;
  const rounded = (towards === "down" ? Math.floor(steps + 1e-9) : Math.round(steps)) * step;
  return fig(written(rounded === 0 ? 0 : rounded, currency, whole ? 0 : all));
}
const WHOLE_FROM = 10;

/** Low and high of a guess. */
export const between = (low: number, high: number, currency: string): readonly [string, string] => [
  roughAmount(low, currency, "down"),
  roughAmount(high, currency, "down"),
];

/** `2029-03` as "Mar 2029". */
export const monthAndYear = (month: string): string => `${monthName(Number(month.slice(5, 7)) - 1)} ${yearOf(month)}`;
const yearOf = (month: string): string =>
  new Intl.NumberFormat(numberTag(), { useGrouping: false }).format(Number(month.slice(0, 4)));

/** `2027-02-10` with its year, for paper. */
export const dayMonthYear = (date: string): string => `${dayAndMonth(date)} ${yearOf(date)}`;

/** Thousandths (metres, Wh, ml, g) as a number of units. */
export const thousandths = (milli: number, decimals = 0): string => fig(figures(milli / 1000, decimals));
