import type { DaySky } from "../../calc/day/sky-table.js";
import { ALBEDO, type CoverDay, coverDay, HAZE } from "../../calc/sun/index.js";
import { DAY_MS, HOUR_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, minuteOfDay, monthIndex, plusDays } from "../../units/zone.js";
import type { Sky, Yard } from "../index.js";
import { siteOf } from "./place.js";
import { wordOf } from "./sky-word.js";

export { wordOf } from "./sky-word.js";

/** The skies that somebody typed, by date. */
export type SkiesByDate = ReadonlyMap<CivilDate, Sky>;

export const skiesByDate = (skies: readonly Sky[], yardId: string): SkiesByDate =>
  new Map(skies.filter((sky) => sky.yardId === yardId).map((sky) => [sky.date, sky]));

/** Sun and cloud of a yard as the day's calculation asks for them: what was typed for the date, else the usual sky mixed with the day before. */
export function daySkyOf(yard: Yard, skies: SkiesByDate, date: CivilDate): DaySky {
  const haze = skies.get(date)?.haze ?? yard.hazeByMonth[monthIndex(date)] ?? "country";
  const days = new Map<CivilDate, CoverDay>();
  return {
    site: siteOf(yard),
    linkeTurbidity: HAZE[haze],
    albedo: ALBEDO[yard.groundClass],
    coverAt: (utcMs) => {
      const day = civilDate(utcMs, yard.zone);
      const held = days.get(day) ?? coverOfDay(yard, skies, day);
      days.set(day, held);
      const hour = Math.floor(minuteOfDay(utcMs, yard.zone) / 60);
      return held.hours[hour] as CoverDay["hours"][number];
    },
  };
}

const coverOfDay = (yard: Yard, skies: SkiesByDate, date: CivilDate): CoverDay =>
  coverDay({
    entry: skies.get(date)?.cover ?? null,
    usual: yard.usualSkyByMonth?.[monthIndex(date)] ?? null,
    yesterday: wordOf(skies.get(plusDays(date, -1))),
  });

/** Air temperature at an instant: between the day's lowest, at five in the morning, and its highest, at three. Common practice, no source. */
export function airCAt(yard: Yard, skies: SkiesByDate, utcMs: number): number {
  const date = civilDate(utcMs, yard.zone);
  const month = monthIndex(date);
  const typed = skies.get(date);
  const low = typed?.airMinC ?? yard.airMinCByMonth[month] ?? 20;
  const high = typed?.airMaxC ?? yard.airMaxCByMonth[month] ?? 30;
  const hours = minuteOfDay(utcMs, yard.zone) / 60;
  const rising = hours >= 5 && hours <= 15;
  const phase = rising ? (hours - 5) / 10 : ((hours < 5 ? hours + 24 : hours) - 15) / 14;
  const share = rising ? (1 - Math.cos(Math.PI * phase)) / 2 : (1 + Math.cos(Math.PI * phase)) / 2;
  return low + (high - low) * share;
}

/** Air on the coldest hour of the night before an instant. */
const nightAirC = (yard: Yard, skies: SkiesByDate, utcMs: number): number =>
  Math.min(...[0, 2, 4, 6, 8, 10].map((hours) => airCAt(yard, skies, utcMs - hours * HOUR_MS)));

/** Mean air temperature of the 24 hours before and after: what a set of many kilograms follows. */
export const meanAirC = (yard: Yard, skies: SkiesByDate, utcMs: number): number =>
  (airCAt(yard, skies, utcMs) +
    airCAt(yard, skies, utcMs + DAY_MS / 4) +
    airCAt(yard, skies, utcMs + DAY_MS / 2) +
    airCAt(yard, skies, utcMs - DAY_MS / 4)) /
  4;

/** A set in the night before an instant: between the mean of the day, which it follows slowly, and the coldest hour. Common practice, no source. */
export const nightCellC = (yard: Yard, skies: SkiesByDate, utcMs: number): number =>
  (meanAirC(yard, skies, utcMs) + nightAirC(yard, skies, utcMs)) / 2;

const STILL_AIR_MS = 2; // usual light wind over a low roof; common practice, no source
export const windAt = (yard: Yard, skies: SkiesByDate, utcMs: number): number =>
  skies.get(civilDate(utcMs, yard.zone))?.windMs ?? STILL_AIR_MS;
export const wetOn = (skies: SkiesByDate, date: CivilDate): boolean => skies.get(date)?.wet ?? false;
