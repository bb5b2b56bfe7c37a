import { clockOfMinute, minuteOfClock } from "../../../records/clock.js";

export interface Run {
  readonly fromH: number;
  /** Up to 24. */
  readonly toH: number;
  readonly kw: number;
}

/** 24 hourly values as stretches of the same value; those of nothing are left out. */
export function runsOf(byHour: readonly number[]): readonly Run[] {
  const runs: Run[] = [];
  for (let hour = 0; hour < byHour.length; ) {
    const kw = byHour[hour] ?? 0;
    let to = hour + 1;
    while (to < byHour.length && byHour[to] === kw) to++;
    if (kw > 0) runs.push({ fromH: hour, toH: to, kw });
    hour = to;
  }
  return runs;
}

/** Hours of a stretch that may cross midnight; the same hour twice means the whole day. */
export function hoursBetween(fromH: number, toH: number): readonly number[] {
  const length = (((toH - fromH) % 24) + 24) % 24 || 24;
  return Array.from({ length }, (_, n) => (fromH + n) % 24);
}

export const withHours = (byHour: readonly number[], hours: readonly number[], kw: number): readonly number[] =>
  byHour.map((old, hour) => (hours.includes(hour) ? kw : old));

/** The hour with the least left for vehicles under a limit and its margin. */
export function tightest(
  byHour: readonly number[],
  limitKw: number,
  marginKw: number,
): { readonly hour: number; readonly kw: number } {
  const most = Math.max(...byHour);
  return { hour: byHour.indexOf(most), kw: limitKw - marginKw - most };
}

/** The text of a minute of day, the end of the day as 24:00. */
export const clockText = (minute: number): string => (minute === 1440 ? "24:00" : clockOfMinute(minute));
export const minuteText = (text: string): number => minuteOfClock(text);

/** Minutes of a stretch on the clock as one or two stretches of one day; equal ends mean the whole day. */
export function stretchesOf(span: {
  readonly from: string;
  readonly to: string;
}): readonly (readonly [number, number])[] {
  const from = minuteOfClock(span.from) % 1440;
  const to = minuteOfClock(span.to);
  if (to > from) return [[from, to]];
  return to === 0
    ? [[from, 1440]]
    : [
        [from, 1440],
        [0, to],
      ];
}
