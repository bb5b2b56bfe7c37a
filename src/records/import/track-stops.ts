import type { TrackPath } from "./track-path.js";

/** Within this far of one place for longer than STAY_S, a vehicle stands there. */
const STAY_RADIUS_M = 50;
const STAY_S = 180;
/** Two stays at one place with less than this between them are one. */
const JOIN_S = 120;
/** At the edges of a stay, faster than this is still driving. [m/s] */
const ROLLING_MS = 1.5;
const ROLLING_S = 5;
/** A silent receiver for longer than this, over more than this, is a gap. */
const GAP_S = 60;
const GAP_M = 300;

/** A standing place on a track: from the point where the vehicle came to rest to the one where it set off. */
export interface Stay {
  from: number;
  to: number;
  seconds: number;
}

export interface Standing {
  readonly stays: readonly Stay[];
  /** Seconds of driving of each step, NaN where the track has no times. */
  readonly driveS: Float64Array;
  readonly gaps: number;
  readonly gapM: number;
}

/**
 * Where a track stands for more than three minutes, and how long its driving takes.
 * Stay points as in Q. Li, Y. Zheng and others (2008), Mining user similarity based on location history, ACM GIS; radius 50 m.
 * A silent stretch that is far too slow for driving is taken as standing for what the driving does not need.
 */
export function standing(path: TrackPath): Standing {
  const utcMs = path.utcMs;
  const driveS = new Float64Array(path.count).fill(Number.NaN);
  if (!utcMs) return { stays: [], driveS, gaps: 0, gapM: 0 };
  for (let i = 1; i < path.count; i++) driveS[i] = ((utcMs[i] as number) - (utcMs[i - 1] as number)) / 1000;
  const stays = joined(path, staysOf(path, utcMs), utcMs);
  const usualMs = usualSpeedMs(path, driveS);
  const hidden: Stay[] = [];
  let gaps = 0;
  let gapM = 0;
  for (let i = 1; i < path.count; i++) {
    const step = (path.alongM[i] as number) - (path.alongM[i - 1] as number);
    const seconds = driveS[i] as number;
    if (seconds > GAP_S && step > GAP_M) {
      gaps++;
      gapM += step;
    }
    const spare = seconds - step / usualMs;
    if (step > STAY_RADIUS_M && spare > STAY_S && step < ROLLING_MS * seconds) {
      hidden.push({ from: i - 1, to: i - 1, seconds: spare });
      driveS[i] = seconds - spare;
    }
  }
  return { stays: inPlace(stays, hidden), driveS, gaps, gapM };
}

function staysOf(path: TrackPath, utcMs: Float64Array): Stay[] {
  const stays: Stay[] = [];
  let i = 0;
  while (i < path.count - 1) {
    const to = lastNear(path, i);
    if ((utcMs[to] as number) - (utcMs[i] as number) > STAY_S * 1000) {
      const stay = trimmed(path, utcMs, i, to);
      if (stay.seconds > STAY_S) stays.push(stay);
      i = to;
    }
    i++;
  }
  return stays;
}

/** Last point of the unbroken run that stays near the mean of its points so far. */
function lastNear(path: TrackPath, from: number): number {
  let east = path.eastM[from] as number;
  let north = path.northM[from] as number;
  for (let k = from + 1; k < path.count; k++) {
    const dEast = (path.eastM[k] as number) - east;
    const dNorth = (path.northM[k] as number) - north;
    if (dEast * dEast + dNorth * dNorth > STAY_RADIUS_M * STAY_RADIUS_M) return k - 1;
    const n = k - from + 1;
    east += dEast / n;
    north += dNorth / n;
  }
  return path.count - 1;
}

function trimmed(path: TrackPath, utcMs: Float64Array, first: number, last: number): Stay {
  let from = first;
  let to = last;
  while (from < to && rolls(path, utcMs, from, later(utcMs, from, last))) from++;
  while (to > from && rolls(path, utcMs, earlier(utcMs, to, first), to)) to--;
  return { from, to, seconds: ((utcMs[to] as number) - (utcMs[from] as number)) / 1000 };
}

/** The point ROLLING_S later, or the next one where the points lie further apart. */
function later(utcMs: Float64Array, i: number, last: number): number {
  let k = i + 1;
  while (k < last && (utcMs[k + 1] as number) - (utcMs[i] as number) <= ROLLING_S * 1000) k++;
  return k;
}

function earlier(utcMs: Float64Array, i: number, first: number): number {
  let k = i - 1;
  while (k > first && (utcMs[i] as number) - (utcMs[k - 1] as number) <= ROLLING_S * 1000) k--;
  return k;
}

/** Whether a vehicle really gets away between two points; wander goes nowhere. */
function rolls(path: TrackPath, utcMs: Float64Array, from: number, to: number): boolean {
  const east = (path.eastM[to] as number) - (path.eastM[from] as number);
  const north = (path.northM[to] as number) - (path.northM[from] as number);
  return Math.hypot(east, north) * 1000 > ROLLING_MS * ((utcMs[to] as number) - (utcMs[from] as number));
}

function joined(path: TrackPath, stays: readonly Stay[], utcMs: Float64Array): Stay[] {
  const result: Stay[] = [];
  for (const stay of stays) {
    const before = result[result.length - 1];
    if (before && isSamePlace(path, before, stay, utcMs)) {
      before.to = stay.to;
      before.seconds = ((utcMs[stay.to] as number) - (utcMs[before.from] as number)) / 1000;
    } else result.push({ ...stay });
  }
  return result;
}

function isSamePlace(path: TrackPath, a: Stay, b: Stay, utcMs: Float64Array): boolean {
  const east = (path.eastM[a.to] as number) - (path.eastM[b.from] as number);
  const north = (path.northM[a.to] as number) - (path.northM[b.from] as number);
  return (
    (utcMs[b.from] as number) - (utcMs[a.to] as number) < JOIN_S * 1000 && Math.hypot(east, north) < 2 * STAY_RADIUS_M
  );
}

/** Median over the distance driven of the speed of the steps, at least a walk. [m/s] */
function usualSpeedMs(path: TrackPath, driveS: Float64Array): number {
  const speeds: number[] = [];
  for (let i = 1; i < path.count; i++) {
    const step = (path.alongM[i] as number) - (path.alongM[i - 1] as number);
    if (step > ROLLING_MS * (driveS[i] as number)) speeds.push(step / (driveS[i] as number));
  }
  speeds.sort((a, b) => a - b);
  return Math.max(ROLLING_MS, speeds[speeds.length >> 1] ?? 5);
}

/** Both lists in the order of the track; a hidden pause beside a stay lengthens it. */
function inPlace(stays: readonly Stay[], hidden: readonly Stay[]): Stay[] {
  const all = [...stays, ...hidden].sort((a, b) => a.from - b.from);
  const result: Stay[] = [];
  for (const stay of all) {
    const before = result[result.length - 1];
    if (before && stay.from <= before.to + 1 && stay.from === stay.to) before.seconds += stay.seconds;
    else result.push({ ...stay });
  }
  return result;
}
