import type { TrackPath } from "./track-path.js";

/** What a screen draws of a track, evenly spaced along the driving; nothing of it is stored. */
export interface TrackPicture {
  readonly km: readonly number[];
  /** Against the start, noise taken out; null without heights. */
  readonly heightM: readonly number[] | null;
  /** Mean driving speed of the stretch up to each point, the first repeated; null without times. */
  readonly speedKmh: readonly number[] | null;
  /** The way as a bare line, its longer side from 0 to 1, north up; without a place on the Earth. */
  readonly outline: { readonly x: readonly number[]; readonly y: readonly number[] };
  /** Kilometres at which the vehicle stood. */
  readonly stopsKm: readonly number[];
}

const PARTS = 100;

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Samples a track at 101 places that lie evenly along its driving. */
export function trackPicture(
  path: TrackPath,
  quietM: Float64Array | null,
  driveS: Float64Array,
  drives: readonly Stretch[],
): TrackPicture {
  const lengths = drives.map((d) => (path.alongM[d.to] as number) - (path.alongM[d.from] as number));
  const wholeM = lengths.reduce((sum, length) => sum + length, 0);
  const places: number[] = [];
  const seconds: number[] = [];
  const ends: number[] = [];
  let doneM = 0;
  let doneS = 0;
  for (const drive of drives) {
    for (let i = drive.from; i <= drive.to; i++) {
      const stepM = i > drive.from ? (path.alongM[i] as number) - (path.alongM[i - 1] as number) : 0;
      const stepS = i > drive.from ? (driveS[i] as number) : 0;
      while (places.length <= PARTS && (doneM + stepM) * PARTS >= places.length * wholeM - 1e-6) {
        const share = stepM > 0 ? ((places.length * wholeM) / PARTS - doneM) / stepM : 0;
        places.push(i);
        seconds.push(doneS + stepS * share);
      }
      doneM += stepM;
      doneS += stepS;
    }
    ends.push(doneM / 1000);
  }
  const startM = quietM?.[places[0] ?? 0] ?? 0;
  const partKm = wholeM / PARTS / 1000;
  return {
    km: places.map((_, k) => k * partKm),
    heightM: quietM && places.map((i) => Math.round(((quietM[i] as number) - startM) * 10) / 10),
    speedKmh: path.utcMs && speedsOf(seconds, partKm),
    outline: outlineOf(path, places),
    stopsKm: ends.slice(0, -1),
  };
}

function speedsOf(seconds: readonly number[], partKm: number): number[] {
  const speeds = seconds.map((at, k) => {
    const spent = at - (seconds[k - 1] ?? at);
    return spent > 0 ? Math.round((partKm * 36_000) / spent) / 10 : 0;
  });
  return speeds.map((speed, k) => (k === 0 ? (speeds[1] ?? 0) : speed));
}

function outlineOf(path: TrackPath, places: readonly number[]): { x: number[]; y: number[] } {
  const east = places.map((i) => path.eastM[i] as number);
  const north = places.map((i) => path.northM[i] as number);
  const left = Math.min(...east);
  const low = Math.min(...north);
  const side = Math.max(Math.max(...east) - left, Math.max(...north) - low, 1);
  const round = (value: number): number => Math.round(value * 1000) / 1000;
  return { x: east.map((e) => round((e - left) / side)), y: north.map((n) => round((n - low) / side)) };
}
