import { HOUR_MS } from "../../units/numbers.js";
import type { DaySegment } from "../day/segments.js";
import type { StepColumns } from "../day/simulate.js";
import { piecesOf } from "../day/steps.js";
import { type Roof, type RoofMoment, roofByOktaW } from "../roof/index.js";
import { type Site, SKY_CHANCES, sunInstant } from "../sun/index.js";
import type { SizingMonth } from "./input.js";
import { SKY_WORDS, sharesOf } from "./sky-chain.js";

const COVERS = 9;
/** A year has no need of five-minute steps: the sun of a day changes by less than 0.5 % with half an hour. */
const STEP_MS = HOUR_MS / 2;

/** Steps of a usual day and what one watt of roof gives in each of them under every cover. */
export interface DaySun {
  readonly columns: StepColumns;
  /** W per watt of roof, steps with light x covers. */
  readonly byCover: Float64Array;
  /** Clock hour (UTC, counted from the first) of each row. */
  readonly hourOfRow: Int32Array;
  readonly hoursOfRow: Float64Array;
  readonly hourCount: number;
}

export interface Light {
  readonly site: Site;
  readonly albedo: number;
  readonly roof: Roof;
}

/** Works out the sun of a day once, for every size of the roof and every sky. */
export function daySun(
  segments: readonly DaySegment[],
  month: Pick<SizingMonth, "linkeTurbidity">,
  light: Light,
): DaySun {
  const cuts = segments.flatMap(halfHours);
  const columns = columnsOf(cuts);
  const ratedW = light.roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
  const byCover: number[] = [];
  const hourOfRow: number[] = [];
  const hoursOfRow: number[] = [];
  const from = Math.floor((cuts[0]?.fromUtcMs ?? 0) / HOUR_MS);
  const w = new Float64Array(COVERS);
  cuts.forEach((cut, i) => {
    const middle = (cut.fromUtcMs + cut.toUtcMs) / 2;
    const sun = ratedW > 0 ? sunInstant(middle, light.site, month.linkeTurbidity) : null;
    columns.sunRow[i] = sun ? hourOfRow.length : -1;
    if (!sun) return;
    roofByOktaW(sun, light.roof, momentOf(cut.segment, light.albedo), w);
    for (const watts of w) byCover.push(watts / ratedW);
    hourOfRow.push(Math.floor(middle / HOUR_MS) - from);
    hoursOfRow.push((cut.toUtcMs - cut.fromUtcMs) / HOUR_MS);
  });
  return {
    columns,
    byCover: Float64Array.from(byCover),
    hourOfRow: Int32Array.from(hourOfRow),
    hoursOfRow: Float64Array.from(hoursOfRow),
    hourCount: (hourOfRow[hourOfRow.length - 1] ?? -1) + 1,
  };
}

interface Cut {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly segment: DaySegment;
}

function halfHours(segment: DaySegment): Cut[] {
  const cuts: Cut[] = [];
  for (let from = segment.fromUtcMs; from < segment.toUtcMs; ) {
    const to = Math.min(segment.toUtcMs, (Math.floor(from / STEP_MS) + 1) * STEP_MS);
    cuts.push({ fromUtcMs: from, toUtcMs: to, segment });
    from = to;
  }
  return cuts;
}

function columnsOf(cuts: readonly Cut[]): StepColumns {
  const first = cuts.findIndex((cut) => cut.segment.onShift);
  return {
    count: cuts.length,
    fromUtcMs: Float64Array.from(cuts, (cut) => cut.fromUtcMs),
    hours: Float64Array.from(cuts, (cut) => (cut.toUtcMs - cut.fromUtcMs) / HOUR_MS),
    pieces: Int32Array.from(cuts, (cut) => piecesOf(cut.toUtcMs - cut.fromUtcMs)),
    driveW: Float64Array.from(cuts, ({ segment }) => segment.drainW - segment.regenW),
    otherW: Float64Array.from(cuts, (cut) => cut.segment.otherW),
    chargerW: Float64Array.from(cuts, (cut) => cut.segment.chargerW),
    sunRow: new Int32Array(cuts.length).fill(-1),
    lowestFrom: Math.max(0, first),
    lowestTo: first < 0 ? cuts.length : cuts.findLastIndex((cut) => cut.segment.onShift) + 1,
  };
}

const momentOf = (segment: DaySegment, albedo: number): RoofMoment => ({
  headingDeg: segment.headingDeg,
  airC: segment.airC,
  windMs: segment.windMs,
  directBlocked: segment.directBlocked,
  diffuseBlocked: segment.diffuseBlocked,
  albedo,
});

/** Sun that one watt of roof offers over the day under the usual sky of the month, or under a given mix of covers. [Wh] */
export function meanSunWh(sun: DaySun, chances: readonly number[]): number {
  let wh = 0;
  for (let r = 0; r < sun.hoursOfRow.length; r++)
    for (let okta = 0; okta < COVERS; okta++)
      wh += (sun.byCover[r * COVERS + okta] as number) * (chances[okta] ?? 0) * (sun.hoursOfRow[r] as number);
  return wh;
}

/** Chances of 0 to 8 oktas in any hour of a month. */
export function monthChances(month: Pick<SizingMonth, "usualSky">): readonly number[] {
  const shares = sharesOf(month.usualSky);
  return Array.from({ length: COVERS }, (_, okta) =>
    SKY_WORDS.reduce((sum, word, i) => sum + (shares[i] as number) * (SKY_CHANCES[word][okta] ?? 0), 0),
  );
}

/** Fills `into` with the power of each row, per watt of roof, for the covers of each hour. */
export function rowsUnder(sun: DaySun, oktaOfHour: ArrayLike<number>, into: Float64Array): void {
  for (let r = 0; r < sun.hourOfRow.length; r++)
    into[r] = sun.byCover[r * COVERS + (oktaOfHour[sun.hourOfRow[r] as number] as number)] as number;
}
