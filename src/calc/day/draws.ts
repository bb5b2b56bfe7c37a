import { evenNormals, normalShare } from "../../units/dice.js";
import { clamp } from "../../units/numbers.js";
import type { DayFactors } from "./simulate.js";
import { rowW, type SunTable } from "./sky-table.js";

/** What is not known about a day. Factors are log-normal around their middle. */
export interface Doubt {
  /** Level at the start, and its standard deviation (a truncated normal). */
  readonly startShare: number;
  readonly startSdShare: number;
  readonly driveMiddle: number;
  readonly driveSdLog: number;
  /** Of the energy itself, where how much the set holds is in doubt too; as `driveSdLog` when left out. */
  readonly driveEnergySdLog?: number;
  readonly roofMiddle: number;
  readonly roofSdLog: number;
  readonly otherMiddle: number;
  readonly otherSdLog: number;
  /** Correlation of the cover of two far-apart hours of one day, 0..1. */
  readonly coverDayCorrelation: number;
}

/** Columns of the normals: one each for start, drive, roof, others and the whole day's cloud, then the course of the cloud. */
const START = 0;
const DRIVE = 1;
const ROOF = 2;
const OTHER = 3;
const CLOUD_DAY = 4;
const CLOUD_COURSE = 5;
/** The course of the cloud has a free value every third hour and goes straight between them. */
const COURSE_STEP_MS = 3 * 3_600_000;

export interface Draws {
  readonly count: number;
  readonly startShare: Float64Array;
  readonly drive: Float64Array;
  readonly roof: Float64Array;
  readonly other: Float64Array;
  /** Normals of the day's cloud, by draw. */
  readonly cloudDay: Float64Array;
  /** Cover in eighths, draws x hours. */
  readonly okta: Float64Array;
  readonly hourCount: number;
}

/** Draws whole days: each has its own start, consumption, roof, accessories and course of cloud. The same seed gives the same days. */
export function drawDays(doubt: Doubt, table: SunTable, count: number, seed: number): Draws {
  const hours = table.hourMiddleUtcMs;
  const first = hours[0] ?? 0;
  const courses =
    hours.length === 0 ? 0 : Math.floor(((hours[hours.length - 1] as number) - first) / COURSE_STEP_MS) + 2;
  const normals = evenNormals(count, CLOUD_COURSE + courses, seed);
  const column = (c: number) => normals.subarray(c * count, (c + 1) * count);
  const factor = (c: number, middle: number, sdLog: number) => column(c).map((z) => middle * Math.exp(sdLog * z));
  return {
    count,
    startShare: column(START).map((z) => clamp(doubt.startShare + doubt.startSdShare * z, 0, 1)),
    drive: factor(DRIVE, doubt.driveMiddle, doubt.driveSdLog),
    roof: factor(ROOF, doubt.roofMiddle, doubt.roofSdLog),
    other: factor(OTHER, doubt.otherMiddle, doubt.otherSdLog),
    cloudDay: column(CLOUD_DAY),
    okta: oktasOf(normals, count, doubt.coverDayCorrelation, table),
    hourCount: hours.length,
  };
}

function oktasOf(normals: Float64Array, count: number, correlation: number, table: SunTable): Float64Array {
  const hours = table.hourMiddleUtcMs;
  const places = new Float64Array(count * hours.length);
  const dayPart = Math.sqrt(correlation);
  const coursePart = Math.sqrt(1 - correlation);
  hours.forEach((middle, h) => {
    const place = (middle - (hours[0] as number)) / COURSE_STEP_MS;
    const node = Math.floor(place);
    const share = place - node;
    const keep = 1 / Math.hypot(1 - share, share); // a mix of two normals has less spread than each: put it back
    const before = (CLOUD_COURSE + node) * count;
    const cover = table.covers[h];
    for (let d = 0; d < count; d++) {
      const course =
        keep * ((1 - share) * (normals[before + d] as number) + share * (normals[before + count + d] as number));
      const z = dayPart * (normals[CLOUD_DAY * count + d] as number) + coursePart * course;
      places[d * hours.length + h] = cover ? cover.oktaAt(normalShare(z)) : 0;
    }
  });
  return places;
}

/** One drawn day as the walk takes it; `sunW` is a scratch row that the next call overwrites. */
export function drawnDay(draws: Draws, d: number, table: SunTable, usableWh: number, sunW: Float64Array): DayFactors {
  const roof = draws.roof[d] as number;
  const base = d * draws.hourCount;
  for (let r = 0; r < sunW.length; r++) {
    const place = draws.okta[base + (table.hourOfRow[r] as number)] as number;
    sunW[r] = roof * rowW(table, r, place);
  }
  return {
    startWh: (draws.startShare[d] as number) * usableWh,
    drive: draws.drive[d] as number,
    other: draws.other[d] as number,
    sunW,
  };
}
