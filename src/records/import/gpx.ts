import { bad, good, type Outcome, type Problem } from "../../units/outcome.js";
import { type XmlName, xmlScanner } from "./xml-scan.js";

/** Points of a track as the file tells them, NaN where it does not: height in metres, time in UTC milliseconds. */
export interface RawPoints {
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
  readonly heightM: readonly number[];
  readonly utcMs: readonly number[];
}

export interface RawTrack {
  readonly name: string;
  readonly kind: "track" | "route";
  readonly points: RawPoints;
}

/** A named place of the file. */
export interface RawPlace {
  readonly name: string;
  readonly latDeg: number;
  readonly lonDeg: number;
}

export interface RawGpx {
  readonly tracks: readonly RawTrack[];
  readonly places: readonly RawPlace[];
  /** Points without a position on the Earth, left out; and the line of the first one, null when there is none. */
  readonly badPoints: number;
  readonly firstBadLine: number | null;
}

/** GPX 1.1, its forerunner with the same track elements, and files that name no namespace at all. */
const SPACES = new Set(["http://www.topografix.com/GPX/1/1", "http://www.topografix.com/GPX/1/0", ""]);
export const MOST_CHARACTERS = 32 << 20;
export const MOST_POINTS = 400_000;
const MOST_NAME = 60;

export interface GpxReader {
  readonly push: (piece: string) => Problem | null;
  readonly end: () => Outcome<RawGpx>;
}

/** Reads a GPX 1.1 file piece by piece. Source: topografix.com, GPX 1.1 schema (tracks, routes, way points; extensions are passed over). */
export function gpxReader(): GpxReader {
  const found = gpxCollector();
  const scanner = xmlScanner({
    open: (name, attribute) => found.open(name, attribute, scanner.line()),
    text: found.text,
    close: found.close,
  });
  let characters = 0;
  let problem: Problem | null = null;
  const push = (piece: string): Problem | null => {
    characters += piece.length;
    problem ??= scanner.push(piece) ?? found.problem(scanner.line());
    if (characters > MOST_CHARACTERS) problem ??= problemAt("gpxTooBig", scanner.line());
    return problem;
  };
  const end = (): Outcome<RawGpx> => {
    problem ??= scanner.end() ?? found.problem(scanner.line());
    return problem ? bad(problem) : found.result();
  };
  return { push, end };
}

/** The same for a file that is at hand as a whole. */
export function readGpx(text: string): Outcome<RawGpx> {
  const reader = gpxReader();
  reader.push(text);
  return reader.end();
}

const problemAt = (code: string, line: number): Problem => ({ code, where: `line.${line}`, figures: { line } });

interface Point {
  lat: number;
  lon: number;
  height: number;
  utcMs: number;
  name: string;
}
interface Columns {
  readonly latDeg: number[];
  readonly lonDeg: number[];
  readonly heightM: number[];
  readonly utcMs: number[];
}

function gpxCollector() {
  const tracks: { name: string; kind: "track" | "route"; points: Columns }[] = [];
  const places: RawPlace[] = [];
  const path: string[] = [];
  let foreign = 0; // depth inside an element of another namespace
  let point: Point | null = null;
  let words = "";
  let badPoints = 0;
  let firstBadLine: number | null = null;
  let count = 0;
  let code: string | null = null;

  const startPoint = (attribute: (local: string) => string | undefined, line: number): void => {
    const lat = numberOf(attribute("lat"));
    const lon = numberOf(attribute("lon"));
    point = { lat, lon, height: Number.NaN, utcMs: Number.NaN, name: "" };
    if (Math.abs(lat) <= 90 && Math.abs(lon) <= 180) return;
    badPoints++;
    firstBadLine ??= line;
  };

  const keepPoint = (kind: string): void => {
    const done = point;
    point = null;
    if (!done || !(Math.abs(done.lat) <= 90 && Math.abs(done.lon) <= 180)) return;
    if (++count > MOST_POINTS) code ??= "gpxTooManyPoints";
    if (kind === "wpt") places.push({ name: done.name, latDeg: done.lat, lonDeg: done.lon });
    else add(tracks[tracks.length - 1]?.points, done);
  };

  const takeWords = (local: string): void => {
    const value = words.trim();
    const track = tracks[tracks.length - 1];
    if (point && local === "ele") point.height = heightOf(value);
    else if (point && local === "time") point.utcMs = timeOf(value);
    else if (point && local === "name") point.name = value.slice(0, MOST_NAME);
    else if (!point && local === "name" && track && isTrack(path[path.length - 1]))
      track.name = value.slice(0, MOST_NAME);
  };

  return {
    open: (name: XmlName, attribute: (local: string) => string | undefined, line: number): void => {
      if (path.length === 0 && (name.local !== "gpx" || !SPACES.has(name.space))) code ??= "gpxNotGpx";
      if (foreign > 0 || !SPACES.has(name.space) || name.local === "extensions") {
        foreign++;
        return;
      }
      words = "";
      if (isTrack(name.local) && path.length === 1) {
        const points = { latDeg: [], lonDeg: [], heightM: [], utcMs: [] };
        tracks.push({ name: "", kind: name.local === "trk" ? "track" : "route", points });
      } else if (isPoint(name.local, path)) startPoint(attribute, line);
      path.push(name.local);
    },
    text: (value: string): void => {
      if (foreign === 0 && words.length < 1000) words += value;
    },
    close: (name: XmlName): void => {
      if (foreign > 0) {
        foreign--;
        return;
      }
      path.pop();
      if (point && isPoint(name.local, path)) keepPoint(name.local);
      else takeWords(name.local);
      words = "";
    },
    problem: (line: number): Problem | null => (code === null ? null : problemAt(code, line)),
    result: (): Outcome<RawGpx> => {
      const filled = tracks.filter((track) => track.points.latDeg.length > 1);
      if (filled.length > 0) return good({ tracks: filled, places, badPoints, firstBadLine });
      return bad(firstBadLine === null ? { code: "gpxNoTrack", where: "" } : problemAt("gpxBadPoint", firstBadLine));
    },
  };
}

const isTrack = (local: string | undefined): boolean => local === "trk" || local === "rte";

/** A way point of the file, a point of a route or of a track, each in its own place. */
function isPoint(local: string, path: readonly string[]): boolean {
  const parent = path[path.length - 1];
  if (local === "trkpt") return parent === "trkseg" && path[path.length - 2] === "trk";
  return local === "rtept" ? parent === "rte" : local === "wpt" && parent === "gpx";
}

function add(to: Columns | undefined, point: Point): void {
  to?.latDeg.push(point.lat);
  to?.lonDeg.push(point.lon);
  to?.heightM.push(point.height);
  to?.utcMs.push(point.utcMs);
}

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
/** A decimal number as XML Schema writes it, else NaN. */
const numberOf = (text: string | undefined): number =>
  text !== undefined && NUMBER.test(text.trim()) ? Number(text) : Number.NaN;

/** Deepest shore to highest peak with room; anything else is a slip of the recorder. */
const heightOf = (text: string): number => {
  const heightM = numberOf(text);
  return heightM >= -500 && heightM <= 9000 ? heightM : Number.NaN;
};

const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{1,9})?(Z|[+-]\d\d:\d\d)?$/;
/** An instant as XML Schema writes it; GPX means UTC where no zone is given. NaN when it is none. */
export function timeOf(text: string): number {
  const match = TIME.exec(text);
  if (match === null) return Number.NaN;
  return Date.parse(match[1] === undefined ? `${text}Z` : text);
}
