import { DAY_MS, MINUTE_MS } from "../../units/numbers.js";
import { dayOfYear } from "./extraterrestrial.js";
import { sunPosition } from "./position.js";
import { equationOfTimeMin } from "./sundial.js";
import type { Site } from "./types.js";

/** Null where the sun does not cross that height on this day; never an invalid date. */
export interface SunTimes {
  readonly riseUtcMs: number | null;
  readonly setUtcMs: number | null;
  /** The sun due south or north, at its highest away from the poles. */
  readonly noonUtcMs: number;
  /** Sun six degrees below the horizon: about when lamps go out and on. */
  readonly civilDawnUtcMs: number | null;
  readonly civilDuskUtcMs: number | null;
  readonly alwaysUp: boolean;
  readonly alwaysDown: boolean;
}

const RISE_ZENITH_DEG = 90.833; // upper edge of the disc, 34 minutes of refraction: Meeus, chapter 15
const CIVIL_ZENITH_DEG = 96;

interface Crossings {
  readonly upUtcMs: number | null;
  readonly downUtcMs: number | null;
  readonly startsUp: boolean;
}

/** Between two instants half a day apart the sun passes a height at most once, so halving finds it. */
function crossing(at: { fromUtcMs: number; toUtcMs: number; zenithDeg: number; site: Site }): number {
  const isUp = (utcMs: number) => sunPosition(utcMs, at.site).zenithTrueDeg < at.zenithDeg;
  const startsUp = isUp(at.fromUtcMs);
  let [low, high] = [at.fromUtcMs, at.toUtcMs];
  while (high - low > 500) {
    const middle = (low + high) / 2;
    if (isUp(middle) === startsUp) low = middle;
    else high = middle;
  }
  return Math.round((low + high) / 2);
}

function crossings(noonUtcMs: number, zenithDeg: number, site: Site): Crossings {
  const ends = [noonUtcMs - DAY_MS / 2, noonUtcMs, noonUtcMs + DAY_MS / 2];
  const up = ends.map((utcMs) => sunPosition(utcMs, site).zenithTrueDeg < zenithDeg);
  let upUtcMs: number | null = null;
  let downUtcMs: number | null = null;
  for (const half of [0, 1]) {
    if (up[half] === up[half + 1]) continue;
    const at = crossing({ fromUtcMs: ends[half] ?? 0, toUtcMs: ends[half + 1] ?? 0, zenithDeg, site });
    if (up[half]) downUtcMs = at;
    else upUtcMs = at;
  }
  return { upUtcMs, downUtcMs, startsUp: up[0] ?? false };
}

const MINUTES_PER_DEG = 4;

/** Middle of the solar day that holds an instant, by the sundial's lead over the clock (J. W. Spencer, 1971). */
function solarNoon(utcMs: number, lonDeg: number): number {
  const meanMs = lonDeg * MINUTES_PER_DEG * MINUTE_MS;
  const aheadMs = meanMs + equationOfTimeMin(dayOfYear(utcMs + meanMs)) * MINUTE_MS;
  return Math.round(Math.floor((utcMs + aheadMs) / DAY_MS) * DAY_MS + DAY_MS / 2 - aheadMs);
}

/**
 * Sunrise, noon, sunset and civil twilight of the solar day that holds `utcMs` (from midnight to midnight by the sun at that longitude),
 * within a minute for level ground. Poles and polar days give nulls and a flag that says why.
 */
export function sunTimes(utcMs: number, site: Site): SunTimes {
  const noonUtcMs = solarNoon(utcMs, site.lonDeg);
  const day = crossings(noonUtcMs, RISE_ZENITH_DEG, site);
  const civil = crossings(noonUtcMs, CIVIL_ZENITH_DEG, site);
  const never = day.upUtcMs === null && day.downUtcMs === null;
  return {
    riseUtcMs: day.upUtcMs,
    setUtcMs: day.downUtcMs,
    noonUtcMs,
    civilDawnUtcMs: civil.upUtcMs,
    civilDuskUtcMs: civil.downUtcMs,
    alwaysUp: never && day.startsUp,
    alwaysDown: never && !day.startsUp,
  };
}
