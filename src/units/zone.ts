import { tzOffset } from "@date-fns/tz/tzOffset";
import { DAY_MS, HOUR_MS, MINUTE_MS } from "./numbers.js";

/** A calendar day of a place, as `2027-02-10`. */
export type CivilDate = string;

/** Minutes that the clocks of `zone` (IANA name) are ahead of UTC at an instant; NaN for an unknown zone. */
export function offsetMinutes(zone: string, utcMs: number): number {
  const hour = Math.floor(utcMs / HOUR_MS) * HOUR_MS; // clocks change on whole half-hours at the finest, never twice in an hour
  const key = utcMs - hour < HOUR_MS / 2 ? hour : hour + HOUR_MS / 2;
  const known = offsets.get(zone) ?? offsets.set(zone, new Map()).get(zone);
  const held = known?.get(key);
  if (held !== undefined) return held;
  const found = tzOffset(zone, new Date(key));
  if (known && known.size > 20_000) known.clear();
  known?.set(key, found);
  return found;
}
const offsets = new Map<string, Map<number, number>>();

export const isZone = (zone: string): boolean => Number.isFinite(tzOffset(zone, new Date(0)));

/** The wall clock of a place, read as if it were UTC. */
export const wallMs = (utcMs: number, zone: string): number => utcMs + offsetMinutes(zone, utcMs) * MINUTE_MS;

/**
 * Instant of a wall-clock time: the earlier one of a repeated hour, moved forward over a skipped one, whatever zone the phone is in.
 * Agrees with the "compatible" rule of ECMAScript Temporal.
 */
export function utcMsOfWall(wallAsUtcMs: number, zone: string): number {
  const before = offsetMinutes(zone, wallAsUtcMs - DAY_MS);
  const after = offsetMinutes(zone, wallAsUtcMs + DAY_MS);
  const first = wallAsUtcMs - before * MINUTE_MS;
  const second = wallAsUtcMs - after * MINUTE_MS;
  if (before === after || offsetMinutes(zone, first) === before) return first;
  return offsetMinutes(zone, second) === after ? second : first;
}

/** Instant of `minutes` after midnight on the clock of a day; minutes may pass 1440 into the next day. */
export const utcMsAt = (date: CivilDate, minutes: number, zone: string): number =>
  utcMsOfWall(Date.parse(`${date}T00:00:00Z`) + minutes * MINUTE_MS, zone);

export function civilDate(utcMs: number, zone: string): CivilDate {
  const day = Math.floor(wallMs(utcMs, zone) / DAY_MS);
  const held = dates.get(day);
  if (held !== undefined) return held;
  const date = new Date(day * DAY_MS).toISOString().slice(0, 10);
  if (dates.size > 5_000) dates.clear();
  dates.set(day, date);
  return date;
}
/** Written once for each day: a look back over a log asks for the same few thousands of times. */
const dates = new Map<number, CivilDate>();

/** Minutes after local midnight, 0 up to 1440. */
export const minuteOfDay = (utcMs: number, zone: string): number => {
  const wall = wallMs(utcMs, zone);
  return (wall - Math.floor(wall / DAY_MS) * DAY_MS) / MINUTE_MS;
};

// In UTC every day has 24 hours, so days on the calendar are days of the count.
const midnightMs = (date: CivilDate): number => Date.parse(`${date}T00:00:00Z`);
const LAST_DAY = "9999-12-31";

/** So many days later or earlier, at most the last day that four figures for the year can name. */
export const plusDays = (date: CivilDate, days: number): CivilDate =>
  new Date(Math.min(midnightMs(LAST_DAY), midnightMs(date) + days * DAY_MS)).toISOString().slice(0, 10);
export const daysBetween = (from: CivilDate, to: CivilDate): number => (midnightMs(to) - midnightMs(from)) / DAY_MS;
/** Month of a day, 0 for January. */
export const monthIndex = (date: CivilDate): number => Number(date.slice(5, 7)) - 1;
/** The day that a text names, as an address may; else another. */
export const dayNamed = (text: string | undefined, otherwise: CivilDate): CivilDate =>
  text !== undefined && isCivilDate(text) ? text : otherwise;
export const isCivilDate = (text: string): boolean =>
  /^\d{4}-\d\d-\d\d$/.test(text) &&
  !Number.isNaN(Date.parse(`${text}T00:00:00Z`)) &&
  new Date(`${text}T00:00:00Z`).toISOString().slice(0, 10) === text;
