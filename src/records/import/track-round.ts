import { eastNorth } from "./earth.js";
import type { RawGpx, RawPlace, RawTrack } from "./gpx.js";
import { quietHeights } from "./track-height.js";
import { headingOf, type LegTrack, legsBetween, type Piece } from "./track-legs.js";
import { type PathRepairs, type TrackPath, trackPath } from "./track-path.js";
import { type TrackPicture, trackPicture } from "./track-picture.js";
import { type Standing, type Stay, standing } from "./track-stops.js";

/** A leg or stop as a track tells it; what a track cannot tell is left to the round's own defaults. */
export type ImportedPart =
  | {
      readonly kind: "leg";
      readonly km: number;
      readonly minutes: number;
      readonly climbM: number;
      readonly dropM: number;
      /** Clockwise from north, null for a winding leg. */
      readonly headingDeg: number | null;
      /** Short halts per km; null when the points lie too far apart in time to see them. */
      readonly stopsPerKm: number | null;
    }
  | {
      readonly kind: "stop";
      /** From a named place of the file near it, else empty. */
      readonly name: string;
      readonly minutes: number;
      /** The way the vehicle came in, clockwise from north; null when it is not clear. */
      readonly sideDeg: number | null;
    };

/** What had to be put right, or could not be known, in order of worth to a reader. */
export type TrackNote =
  | { readonly code: "noTimes" | "noHeights" | "plannedRoute" | "moreTracks" }
  | { readonly code: "gaps"; readonly count: number; readonly km: number }
  | {
      readonly code: "badPoints" | "outOfOrder" | "duplicates" | "withoutTime" | "jumps";
      readonly count: number;
    };

export interface ImportedTrack {
  readonly name: string;
  readonly points: number;
  readonly km: number;
  readonly driveMinutes: number;
  readonly standMinutes: number;
  readonly climbM: number;
  readonly dropM: number;
  readonly parts: readonly ImportedPart[];
  readonly notes: readonly TrackNote[];
  readonly picture: TrackPicture;
}

/** Most legs of one round that still can be read and edited on a phone. */
const MOST_LEGS = 24;
const MOST_STOPS = 40;
/** Pace taken where a file tells no times. [km/h] Common practice, no source: a loaded three-wheeler in town. */
const USUAL_KMH = 18;
/** A named place this near to a stop gives it its name. [m] */
const NAME_M = 120;
const MOST_PLACES = 2000;
/** A vehicle moved about less than this at either end of the track has not left yet, or is back. [m] */
const SHUFFLE_M = 100;
/** A halt: slower than this, until faster than that, for at least so long. [m/s, m/s, s] */
const HALT = { slowMs: 1, fastMs: 2.5, seconds: 3 };
/** Points further apart than this in time do not show short halts. [s] */
const DENSE_S = 5;

/** Turns the tracks of a file into rounds, the longest first. Positions end here: only distances, heights and directions go on. */
export function roundsOf(gpx: RawGpx): ImportedTrack[] {
  const rounds = gpx.tracks.map((track) => roundOf(track, gpx)).filter((round) => round.km > 0);
  return rounds.sort((a, b) => b.km - a.km);
}

function roundOf(track: RawTrack, gpx: RawGpx): ImportedTrack {
  const repairs: PathRepairs = { outOfOrder: 0, duplicates: 0, withoutTime: 0, jumps: 0 };
  const path = trackPath(track.points, repairs);
  const stand = standing(path);
  const quietM = quietHeights(path.alongM, path.heightM);
  const route: Route = { path, stand, legTrack: { ...path, quietM }, nameOf: namesOf(track, path, gpx.places) };
  const drives = drivesBetween(path, stand.stays);
  const stretches = drives.map((drive) => ({ ...drive, legs: legsOf(route.legTrack, drive, drives) }));
  const parts = stretches.flatMap((stretch) => partsOf(route, stretch));
  const legs = stretches.flatMap((stretch) => stretch.legs);
  const total = (pick: (piece: Piece) => number) => legs.reduce((sum, piece) => sum + pick(piece), 0);
  const minutesOf = (kind: string) => parts.reduce((sum, part) => sum + (part.kind === kind ? part.minutes : 0), 0);
  return {
    name: track.name,
    points: path.count,
    km: roundTo(total((piece) => piece.lengthM) / 1000, 0.01),
    driveMinutes: minutesOf("leg"),
    standMinutes: minutesOf("stop"),
    climbM: Math.round(total((piece) => piece.climbM)),
    dropM: Math.round(total((piece) => piece.dropM)),
    parts,
    notes: notesOf(gpx, track, route, repairs),
    picture: trackPicture(path, quietM, stand.driveS, drives),
  };
}

interface Route {
  readonly path: TrackPath;
  readonly stand: Standing;
  readonly legTrack: LegTrack;
  readonly nameOf: (stay: Stay) => string;
}
/** Driving between two standing places; `after` is the place at its end, null at the end of the track. */
interface Drive {
  readonly from: number;
  readonly to: number;
  readonly after: Stay | null;
}

/** The driving of a track; what it stands before the first and after the last drive is no part of the round. */
function drivesBetween(path: TrackPath, stays: readonly Stay[]): Drive[] {
  const drives: Drive[] = [];
  let from = 0;
  for (const stay of longest(stays)) {
    if (stay.from > from) drives.push({ from, to: stay.from, after: stay });
    from = stay.to;
  }
  const driven = (drive: Drive): number => (path.alongM[drive.to] as number) - (path.alongM[drive.from] as number);
  if (from < path.count - 1) drives.push({ from, to: path.count - 1, after: null });
  const real = drives.filter((drive, i) => driven(drive) > (i === 0 || drive.after === null ? SHUFFLE_M : 0));
  return real.map((drive, i) => (i === real.length - 1 ? { ...drive, after: null } : drive));
}

/** The longest standing places, in their order; a round of more cannot be read, and short ones may count as driving. */
function longest(stays: readonly Stay[]): readonly Stay[] {
  if (stays.length <= MOST_STOPS) return stays;
  const least = stays.map((stay) => stay.seconds).sort((a, b) => b - a)[MOST_STOPS] as number;
  return stays.filter((stay) => stay.seconds > least);
}

/** Each stretch may have its share of the legs by its length, and one at least. */
function legsOf(track: LegTrack, drive: Drive, all: readonly Drive[]): Piece[] {
  const lengthM = (d: Drive): number => (track.alongM[d.to] as number) - (track.alongM[d.from] as number);
  const wholeM = all.reduce((sum, d) => sum + lengthM(d), 0);
  return legsBetween(track, drive.from, drive.to, Math.max(1, Math.round((MOST_LEGS * lengthM(drive)) / wholeM)));
}

function partsOf(route: Route, drive: Drive & { readonly legs: readonly Piece[] }): ImportedPart[] {
  const legs = drive.legs.map((piece): ImportedPart => legOf(route, piece));
  const last = drive.legs[drive.legs.length - 1];
  if (!drive.after || !last) return legs;
  const minutes = roundTo(drive.after.seconds / 60, 0.1);
  return [
    ...legs,
    { kind: "stop", name: route.nameOf(drive.after), minutes, sideDeg: whole(headingOf(arrival(route.path, last))) },
  ];
}

function legOf({ path, stand }: Route, piece: Piece): ImportedPart {
  let seconds = 0;
  for (let i = piece.from + 1; i <= piece.to; i++) seconds += stand.driveS[i] as number;
  const km = piece.lengthM / 1000;
  const minutes = path.utcMs ? seconds / 60 : (km / USUAL_KMH) * 60;
  return {
    kind: "leg",
    km: roundTo(km, 0.01),
    minutes: roundTo(minutes, 0.1),
    climbM: Math.round(piece.climbM),
    dropM: Math.round(piece.dropM),
    headingDeg: whole(headingOf(piece)),
    stopsPerKm: km > 0 ? haltsPerKm(path, stand.driveS, piece) : null,
  };
}

/** The last 100 m of a piece, to tell which way the vehicle came in. */
function arrival(path: TrackPath, piece: Piece): Piece {
  let from = piece.to;
  while (from > piece.from && (path.alongM[piece.to] as number) - (path.alongM[from] as number) < 100) from--;
  return {
    ...piece,
    from,
    lengthM: (path.alongM[piece.to] as number) - (path.alongM[from] as number),
    eastM: (path.eastM[piece.to] as number) - (path.eastM[from] as number),
    northM: (path.northM[piece.to] as number) - (path.northM[from] as number),
  };
}

function haltsPerKm(path: TrackPath, driveS: Float64Array, piece: Piece): number | null {
  let halts = 0;
  let slowS = 0;
  let rolling = false;
  let sparse = 0;
  for (let i = piece.from + 1; i <= piece.to; i++) {
    const seconds = driveS[i] as number;
    const speedMs = ((path.alongM[i] as number) - (path.alongM[i - 1] as number)) / seconds;
    if (!(seconds <= DENSE_S)) sparse++;
    if (speedMs > HALT.fastMs) rolling = true;
    slowS = speedMs < HALT.slowMs ? slowS + seconds : 0;
    if (rolling && slowS >= HALT.seconds) {
      halts++;
      rolling = false;
    }
  }
  return sparse * 10 > piece.to - piece.from ? null : roundTo((halts * 1000) / piece.lengthM, 0.1);
}

/** Finds the nearest named place of the file to a stop. */
function namesOf(track: RawTrack, path: TrackPath, places: readonly RawPlace[]): (stay: Stay) => string {
  const named = places.filter((place) => place.name !== "").slice(0, MOST_PLACES);
  const { latDeg, lonDeg } = track.points;
  return (stay) => {
    const at = path.rawIndex[stay.to] as number;
    let name = "";
    let leastM = NAME_M;
    for (const place of named) {
      const way = eastNorth(latDeg[at] as number, lonDeg[at] as number, place.latDeg, place.lonDeg);
      const farM = Math.hypot(way.eastM, way.northM);
      if (farM >= leastM) continue;
      leastM = farM;
      name = place.name;
    }
    return name;
  };
}

function notesOf(gpx: RawGpx, track: RawTrack, route: Route, repairs: PathRepairs): TrackNote[] {
  const { path, stand, legTrack } = route;
  const notes: TrackNote[] = [];
  if (track.kind === "route") notes.push({ code: "plannedRoute" });
  if (path.utcMs === null) notes.push({ code: "noTimes" });
  if (legTrack.quietM === null) notes.push({ code: "noHeights" });
  if (gpx.tracks.length > 1) notes.push({ code: "moreTracks" });
  if (stand.gaps > 0) notes.push({ code: "gaps", count: stand.gaps, km: roundTo(stand.gapM / 1000, 0.1) });
  const counted = { badPoints: gpx.badPoints, ...repairs };
  for (const code of ["badPoints", "outOfOrder", "duplicates", "withoutTime", "jumps"] as const)
    if (counted[code] > 0) notes.push({ code, count: counted[code] });
  return notes;
}

const roundTo = (value: number, step: number): number => Math.round(value / step) / Math.round(1 / step);
const whole = (deg: number | null): number | null => (deg === null ? null : Math.round(deg) % 360);
