import { evenNormals, seedPart } from "../../units/dice.js";
import { clamp } from "../../units/numbers.js";
import { type CoverHour, coverEdges, oktaAt } from "../sun/index.js";
import type { DayFactors } from "./simulate.js";
import { COVERS, type SunTable } from "./sky-table.js";

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
  readonly okta: Uint8Array;
  readonly hourCount: number;
}

/** Draws whole days: each has its own start, consumption, roof, accessories and course of cloud. The same seed gives the same days. */
export function drawDays(doubt: Doubt, table: SunTable, count: number, seed: number): Draws {
  const hours = table.hourMiddleUtcMs;
  const nodes = nodesOf(hours);
  const seeds = Array.from({ length: CLOUD_COURSE + nodes.count }, (_, c) =>
    seedPart(seed, c < CLOUD_COURSE ? c : c + nodes.first),
  );
  const normals = evenNormals(count, seeds);
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

/** The free values lie on the clock, so that an hour more or less at the edge of the light leaves all others as they were drawn. */
function nodesOf(hours: readonly number[]): { readonly first: number; readonly count: number } {
  if (hours.length === 0) return { first: 0, count: 0 };
  const first = Math.floor((hours[0] as number) / COURSE_STEP_MS);
  return { first, count: Math.floor((hours[hours.length - 1] as number) / COURSE_STEP_MS) + 2 - first };
}

function oktasOf(normals: Float64Array, count: number, correlation: number, table: SunTable): Uint8Array {
  const hours = table.hourMiddleUtcMs;
  const oktas = new Uint8Array(count * hours.length);
  const dayPart = Math.sqrt(correlation);
  const coursePart = Math.sqrt(1 - correlation);
  const { first } = nodesOf(hours);
  const edges = new Map(table.covers.map((cover) => [cover, coverEdges(cover)]));
  hours.forEach((middle, h) => {
    const place = middle / COURSE_STEP_MS;
    const node = Math.floor(place) - first;
    const share = place - Math.floor(place);
    const keep = 1 / Math.hypot(1 - share, share); // a mix of two normals has less spread than each: put it back
    const before = (CLOUD_COURSE + node) * count;
    const edge = edges.get(table.covers[h] as CoverHour) as Float64Array;
    for (let d = 0; d < count; d++) {
      const course =
        keep * ((1 - share) * (normals[before + d] as number) + share * (normals[before + count + d] as number));
      const z = dayPart * (normals[CLOUD_DAY * count + d] as number) + coursePart * course;
      oktas[d * hours.length + h] = oktaAt(edge, z);
    }
  });
  return oktas;
}

/** One drawn day as the walk takes it; `sunW` is a scratch row that the next call overwrites. */
export function drawnDay(draws: Draws, d: number, table: SunTable, usableWh: number, sunW: Float64Array): DayFactors {
  const roof = draws.roof[d] as number;
  const { byCoverW, hourOfRow } = table;
  const base = d * draws.hourCount;
  for (let r = 0; r < sunW.length; r++) {
    const okta = draws.okta[base + (hourOfRow[r] as number)] as number;
    sunW[r] = roof * (byCoverW[r * COVERS + okta] as number);
  }
  return factorsOf(draws, d, usableWh, sunW);
}

/** The same with a sun worked out already. */
export const factorsOf = (draws: Draws, d: number, usableWh: number, sunW: Float64Array): DayFactors => ({
  startWh: (draws.startShare[d] as number) * usableWh,
  drive: draws.drive[d] as number,
  other: draws.other[d] as number,
  sunW,
});

/** Mean sun of all drawn days by row of the table. [W] */
export function meanSunW({ okta, roof, count, hourCount }: Draws, { byCoverW, hourOfRow }: SunTable): Float64Array {
  const weights = new Float64Array(hourCount * COVERS);
  for (let d = 0; d < count; d++)
    for (let h = 0; h < hourCount; h++)
      (weights[h * COVERS + (okta[d * hourCount + h] as number)] as number) += (roof[d] as number) / count;
  return Float64Array.from(hourOfRow, (hour, r) => {
    let w = 0;
    for (let k = 0; k < COVERS; k++) w += (weights[hour * COVERS + k] as number) * (byCoverW[r * COVERS + k] as number);
    return w;
  });
}
