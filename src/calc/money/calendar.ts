import { addMonths, differenceInCalendarMonths, getDaysInMonth } from "date-fns";
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

// Noon of the phone's own clock keeps its clock changes away from the date.
const noonOf = (date: CivilDate): Date =>
  new Date(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10)), 12);
const firstOf = (month: Month): Date => noonOf(`${month}-01`);
const two = (part: number): string => String(part).padStart(2, "0");
const dateOf = (noon: Date): CivilDate =>
  `${String(noon.getFullYear()).padStart(4, "0")}-${two(noon.getMonth() + 1)}-${two(noon.getDate())}`;

export const daysInMonth = (month: Month): number => getDaysInMonth(firstOf(month));

export const monthsBetween = (from: Month, to: Month): number => differenceInCalendarMonths(firstOf(to), firstOf(from));
export const nextMonth = (month: Month, months = 1): Month => monthOf(dateOf(addMonths(firstOf(month), months)));

/**
 * The same day of the month `months` later, or that month's last day: 31 January, 28 February, 31 March.
 * Count from the first date each time, so that a short month does not pull the later ones forward.
 */
export const monthsLater = (date: CivilDate, months: number): CivilDate => dateOf(addMonths(noonOf(date), months));

/** First and last day of a month. */
export const monthEnds = (month: Month): { readonly from: CivilDate; readonly to: CivilDate } => ({
  from: `${month}-01`,
  to: `${month}-${two(daysInMonth(month))}`,
});
