import { eastNorth } from "./earth.js";
import type { RawPoints } from "./gpx.js";

/** A track in metres from its own start: where on Earth it lies is forgotten here. */
export interface TrackPath {
  readonly count: number;
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  /** Along the track from its start. */
  readonly alongM: Float64Array;
  /** NaN where the file tells no height. */
  readonly heightM: Float64Array;
  /** Rising; null when the file tells no usable times. */
  readonly utcMs: Float64Array | null;
  /** For each point its place in the raw track, to find named places near it. */
  readonly rawIndex: Int32Array;
}

/** How many points were put in order or left out, and why. */
export interface PathRepairs {
  outOfOrder: number;
  duplicates: number;
  withoutTime: number;
  jumps: number;
}

/** A point that would need more than this from the last one is a slip of the receiver (144 km/h). */
const FASTEST_MS = 40;
/** After so many slips in a row the new place is believed. */
const MOST_SLIPS = 5;
const SAME_PLACE_M = 0.05;
/** A place is the mean of the fixes up to this long before and after it, three on either side at most. */
const STEADY_MS = 3500;
const STEADY_POINTS = 3;

/** Puts the points of a track in order, leaves out what cannot be, and measures along it. */
export function trackPath(raw: RawPoints, repairs: PathRepairs): TrackPath {
  const timed = isTimed(raw.utcMs);
  const order = timed ? inOrder(raw.utcMs, repairs) : raw.latDeg.map((_, i) => i);
  const path = columns(order.length, timed);
  let count = 0;
  let slips = 0;
  for (const i of order) {
    const before = count > 0 ? (path.rawIndex[count - 1] as number) : -1;
    const step = before < 0 ? START : stepOf(raw, before, i);
    const seconds =
      before < 0 || !timed ? Number.NaN : ((raw.utcMs[i] as number) - (raw.utcMs[before] as number)) / 1000;
    if (before >= 0 && (timed ? seconds === 0 : step.lengthM < SAME_PLACE_M)) {
      repairs.duplicates++;
      continue;
    }
    if (step.lengthM > FASTEST_MS * seconds && slips < MOST_SLIPS) {
      slips++;
      repairs.jumps++;
      continue;
    }
    if (slips >= MOST_SLIPS) repairs.jumps -= MOST_SLIPS;
    slips = 0;
    put(path, count++, i, step, raw);
  }
  return steadied(cut(path, count));
}

interface Step {
  readonly eastM: number;
  readonly northM: number;
  readonly lengthM: number;
}
const START: Step = { eastM: 0, northM: 0, lengthM: 0 };

/** Times are used when most points have one and they do not all say the same. */
function isTimed(utcMs: readonly number[]): boolean {
  const known = utcMs.filter((t) => !Number.isNaN(t));
  return known.length * 2 > utcMs.length && known.some((t) => t !== known[0]);
}

/** Places of the points with a time, in rising time; of several with one time the first stays first. */
function inOrder(utcMs: readonly number[], repairs: PathRepairs): number[] {
  const known: number[] = [];
  let latest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < utcMs.length; i++) {
    const t = utcMs[i] as number;
    if (Number.isNaN(t)) {
      repairs.withoutTime++;
      continue;
    }
    if (t < latest) repairs.outOfOrder++;
    latest = Math.max(latest, t);
    known.push(i);
  }
  return repairs.outOfOrder > 0 ? known.sort((a, b) => (utcMs[a] as number) - (utcMs[b] as number)) : known;
}

function stepOf(raw: RawPoints, from: number, to: number): Step {
  const { eastM, northM } = eastNorth(
    raw.latDeg[from] as number,
    raw.lonDeg[from] as number,
    raw.latDeg[to] as number,
    raw.lonDeg[to] as number,
  );
  return { eastM, northM, lengthM: Math.hypot(eastM, northM) };
}

function columns(length: number, timed: boolean): TrackPath {
  return {
    count: length,
    eastM: new Float64Array(length),
    northM: new Float64Array(length),
    alongM: new Float64Array(length),
    heightM: new Float64Array(length),
    utcMs: timed ? new Float64Array(length) : null,
    rawIndex: new Int32Array(length),
  };
}

function put(path: TrackPath, at: number, i: number, step: Step, raw: RawPoints): void {
  const before = Math.max(at - 1, 0);
  path.eastM[at] = (path.eastM[before] as number) + step.eastM;
  path.northM[at] = (path.northM[before] as number) + step.northM;
  path.alongM[at] = (path.alongM[before] as number) + step.lengthM;
  path.heightM[at] = raw.heightM[i] as number;
  if (path.utcMs) path.utcMs[at] = raw.utcMs[i] as number;
  path.rawIndex[at] = i;
}

/** Takes the receiver's wander from fix to fix out of dense tracks: it would add up to way that nobody drove. */
function steadied(path: TrackPath): TrackPath {
  const utcMs = path.utcMs;
  if (!utcMs) return path;
  const eastM = new Float64Array(path.count);
  const northM = new Float64Array(path.count);
  const alongM = new Float64Array(path.count);
  for (let i = 0; i < path.count; i++) {
    const reach = reachOf(utcMs, i);
    for (let k = i - reach; k <= i + reach; k++) {
      eastM[i] = (eastM[i] as number) + (path.eastM[k] as number) / (2 * reach + 1);
      northM[i] = (northM[i] as number) + (path.northM[k] as number) / (2 * reach + 1);
    }
    if (i === 0) continue;
    const step = Math.hypot(
      (eastM[i] as number) - (eastM[i - 1] as number),
      (northM[i] as number) - (northM[i - 1] as number),
    );
    alongM[i] = (alongM[i - 1] as number) + step;
  }
  return { ...path, eastM, northM, alongM };
}

/** How many fixes on either side of one are near enough in time, the same number before and after. */
function reachOf(utcMs: Float64Array, i: number): number {
  let reach = 0;
  while (reach < STEADY_POINTS && i > reach && i + reach + 1 < utcMs.length) {
    const before = (utcMs[i] as number) - (utcMs[i - reach - 1] as number);
    const after = (utcMs[i + reach + 1] as number) - (utcMs[i] as number);
    if (before > STEADY_MS || after > STEADY_MS) break;
    reach++;
  }
  return reach;
}

const cut = (path: TrackPath, count: number): TrackPath => ({
  count,
  eastM: path.eastM.subarray(0, count),
  northM: path.northM.subarray(0, count),
  alongM: path.alongM.subarray(0, count),
  heightM: path.heightM.subarray(0, count),
  utcMs: path.utcMs?.subarray(0, count) ?? null,
  rawIndex: path.rawIndex.subarray(0, count),
});
