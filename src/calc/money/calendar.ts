import { DAY_MS } from "../../units/numbers.js";
import type { CivilDate } from "../../units/zone.js";

/** A month of a calendar, as `2027-02`. */
export type Month = string;

/** Days since 1970-01-01 of a civil day; plain arithmetic, so no clock or zone can move it. */
export const dayNumber = (date: CivilDate): number =>
  Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10))) / DAY_MS;

export const dateOfDay = (day: number): CivilDate => new Date(day * DAY_MS).toISOString().slice(0, 10);
export const monthOf = (date: CivilDate): Month => date.slice(0, 7);

/** Days from `from` to `to`; negative when `to` is earlier. */
export const daysFrom = (from: CivilDate, to: CivilDate): number => dayNumber(to) - dayNumber(from);
export const daysLater = (date: CivilDate, days: number): CivilDate => dateOfDay(dayNumber(date) + days);

export function earlierOf(a: CivilDate, b: CivilDate): CivilDate {
  if (a < b) return a;
  return b;
}

export function laterOf(a: CivilDate, b: CivilDate): CivilDate {
  if (a > b) return a;
  return b;
}

export const daysInMonth = (month: Month): number =>
  new Date(Date.UTC(Number(month.slice(0, 4)), Number(month.slice(5, 7)), 0)).getUTCDate();

/** Months later, counted from January of year 0. */
const monthCount = (month: Month): number => Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1;
const monthOfCount = (count: number): Month =>
  `${String(Math.floor(count / 12)).padStart(4, "0")}-${String((count % 12) + 1).padStart(2, "0")}`;

export const monthsBetween = (from: Month, to: Month): number => monthCount(to) - monthCount(from);
export const nextMonth = (month: Month, months = 1): Month => monthOfCount(monthCount(month) + months);

/**
 * The same day of the month `months` later, or that month's last day: 31 January, 28 February, 31 March.
 * Count from the first date each time, so that a short month does not pull the later ones forward.
 */
export function monthsLater(date: CivilDate, months: number): CivilDate {
  const month = nextMonth(monthOf(date), months);
  const day = Math.min(Number(date.slice(8, 10)), daysInMonth(month));
  return `${month}-${String(day).padStart(2, "0")}`;
}

/** First and last day of a month. */
export const monthEnds = (month: Month): { readonly from: CivilDate; readonly to: CivilDate } => ({
  from: `${month}-01`,
  to: `${month}-${String(daysInMonth(month)).padStart(2, "0")}`,
});
