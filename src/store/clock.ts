/**
 * A moment of writing that compares as text: 9 characters of ms since 1970 and 3 of a counter, base 36, then the device.
 * Later writes always have the greater stamp, also where the phone's clock was set back or was days off.
 */
export type Stamp = string;

const MS_LENGTH = 9;
const COUNTER_LENGTH = 3;
const MOST_COUNT = 36 ** COUNTER_LENGTH - 1;

const digits = (value: number, length: number): string => value.toString(36).padStart(length, "0");
const stampOf = (ms: number, count: number, device: string): Stamp =>
  digits(ms, MS_LENGTH) + digits(count, COUNTER_LENGTH) + device;

/** Wall time in a stamp, ms since 1970: a hint only, phones' clocks are wrong at times. */
export const msOfStamp = (stamp: Stamp): number => Number.parseInt(stamp.slice(0, MS_LENGTH), 36);
const countOfStamp = (stamp: Stamp): number => Number.parseInt(stamp.slice(MS_LENGTH, MS_LENGTH + COUNTER_LENGTH), 36);

/** Stamps another device may have written. Anything else is no stamp and must not reach a comparison. */
export const isStamp = (text: unknown): text is Stamp =>
  typeof text === "string" && /^[0-9a-z]{12}[0-9A-Za-z-]{1,28}$/.test(text);

/**
 * The next stamp after `last` on this device: the wall clock where it has moved on, else the last time and a higher count.
 * A stamp from a clock that runs days ahead is followed, never refused. Source: Kulkarni et al. (2014), hybrid logical clocks.
 */
export function nextStamp(last: Stamp | null, nowMs: number, device: string): Stamp {
  const wallMs = Number.isFinite(nowMs) ? Math.max(0, Math.floor(nowMs)) : 0;
  if (last === null) return stampOf(wallMs, 0, device);
  const lastMs = msOfStamp(last);
  if (wallMs > lastMs) return stampOf(wallMs, 0, device);
  const count = countOfStamp(last) + 1;
  return count <= MOST_COUNT ? stampOf(lastMs, count, device) : stampOf(lastMs + 1, 0, device);
}

export const laterStamp = (a: Stamp | null, b: Stamp | null): Stamp | null => {
  if (a === null || b === null) return a ?? b;
  return isLater(a, b) ? a : b;
};
export const isLater = (a: Stamp, b: Stamp): boolean => a > b;
