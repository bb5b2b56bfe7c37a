import { bad, good, type Outcome, type Problem } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import { dateOfDay, dayNumber } from "./calendar.js";
import type { DayLog } from "./day-line.js";

/**
 * The log with each day once, in order. The same day written twice alike counts once; written twice differently it is not counted at all
 * (`dayTwice` says which) until its owner picks one: nothing is added up twice and nothing invented.
 */
export function onePerDay(logs: readonly DayLog[]): {
  readonly logs: readonly DayLog[];
  readonly problems: readonly Problem[];
} {
  const byDate = new Map<CivilDate, DayLog>();
  const twice = new Map<CivilDate, number>();
  for (const log of logs) {
    const held = byDate.get(log.date);
    if (!held) byDate.set(log.date, log);
    else if (JSON.stringify(held) !== JSON.stringify(log)) twice.set(log.date, (twice.get(log.date) ?? 1) + 1);
  }
  for (const date of twice.keys()) byDate.set(date, openDay(date));
  return {
    logs: [...byDate.values()].sort((a, b) => (a.date < b.date ? -1 : 1)),
    problems: [...twice].map(([date, times]) => ({ code: "dayTwice", where: `days.${date}`, figures: { times } })),
  };
}
const openDay = (date: CivilDate): DayLog => ({
  date,
  state: "worked",
  km: null,
  kmHow: "typed",
  charges: null,
  sun: null,
});

/** Known days needed before a missing one may be filled: common practice, no source. */
const FILL_DAYS = 10;
const SAME_WEEKDAYS = 3;

/**
 * The log with its missing days filled, only ever at the owner's wish: the mean of the same weekday's known days (rest days count as no km),
 * of all known days when there are fewer than three such. Each filled day says so. Refused (`tooFewDays`) with fewer than ten known days.
 */
export function fillMissing(logs: readonly DayLog[], from: CivilDate, to: CivilDate): Outcome<readonly DayLog[]> {
  const known = logs.filter((log) => log.state !== "missing" && (log.km !== null || log.state !== "worked"));
  if (known.length < FILL_DAYS)
    return bad({ code: "tooFewDays", where: "days", figures: { days: known.length, needed: FILL_DAYS } });
  const written = new Map(logs.map((log) => [log.date, log]));
  const out: DayLog[] = [];
  for (let day = dayNumber(from); day <= dayNumber(to); day++) {
    const date = dateOfDay(day);
    const log = written.get(date);
    out.push(log && log.state !== "missing" ? log : filledDay(date, likeDays(known, day)));
  }
  return good(out);
}

function likeDays(known: readonly DayLog[], day: number): readonly DayLog[] {
  const same = known.filter((log) => (dayNumber(log.date) - day) % 7 === 0);
  return same.length >= SAME_WEEKDAYS ? same : known;
}

function filledDay(date: CivilDate, like: readonly DayLog[]): DayLog {
  const km = tenth(mean(like.map((log) => log.km ?? 0)));
  return {
    date,
    state: km > 0 ? "worked" : "rest",
    km,
    kmHow: "filled",
    charges: usualCharge(like),
    sun: null,
    filled: true,
  };
}
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const tenth = (value: number): number => Math.round(value * 10) / 10;

/** The mean charge of like days: by what was paid when that is known of more of them, else by units; null when neither is known. */
function usualCharge(like: readonly DayLog[]): DayLog["charges"] {
  const paid = like.map((log) => total(log, "paidMinor")).filter((minor) => minor !== null);
  const units = like.map((log) => total(log, "kwh")).filter((kwh) => kwh !== null);
  if (paid.length === 0 && units.length === 0) return null;
  const byMoney = paid.length > units.length;
  const amount = byMoney ? Math.round(mean(paid)) : tenth(mean(units));
  const charge = { kwhHow: "estimated", fromMinute: null, toMinute: null } as const;
  if (amount === 0) return [];
  return [byMoney ? { ...charge, kwh: null, paidMinor: amount } : { ...charge, kwh: amount, paidMinor: null }];
}

/** Units or money of a day's charges, null when one of them is not known. */
function total(log: DayLog, field: "kwh" | "paidMinor"): number | null {
  const charges = log.charges ?? (log.state === "worked" ? null : []);
  if (charges === null || charges.some((charge) => charge[field] === null)) return null;
  return charges.reduce((sum, charge) => sum + (charge[field] ?? 0), 0);
}
