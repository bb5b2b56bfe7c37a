import { HOUR_MS } from "../../units/numbers.js";
import { type Roof, type RoofMoment, roofByOktaW, roofW } from "../roof/index.js";
import { type CoverHour, lightUnder, type Site, type SunInstant } from "../sun/index.js";
import type { DaySegment } from "./segments.js";
import type { SunRowPlace } from "./steps.js";

/** The roof is worked out for every whole cover, 0 to 8 oktas. */
export const COVERS = 9;

export interface DaySky {
  readonly site: Site;
  readonly linkeTurbidity: number;
  readonly albedo: number;
  /** Cover of the hour that begins at or before the instant. */
  readonly coverAt: (utcMs: number) => CoverHour;
}

export interface SunTable {
  /** W at the battery bus, rows x covers. */
  readonly byCoverW: Float64Array;
  /** W the same roof would give there unshaded under a clear sky. */
  readonly openSkyW: Float64Array;
  /** Cover of each clock hour with light, the hour of each row, and the hours' middles. */
  readonly covers: readonly CoverHour[];
  readonly hourOfRow: Int32Array;
  readonly hourMiddleUtcMs: readonly number[];
}

/** The whole hour of the place's clock, told by its midnight: in zones half an hour off, the clock's hours are not those of UTC. */
export const clockHourOf = (utcMs: number, midnightUtcMs: number): number =>
  midnightUtcMs + Math.floor((utcMs - midnightUtcMs) / HOUR_MS) * HOUR_MS;

/** The roof's power in every row of the day for every cover: all that the drawn days need of sun, sky and shade. */
export function sunTable(
  rows: readonly SunRowPlace[],
  sky: DaySky,
  roof: Roof | null,
  given: { readonly sunAt: (utcMs: number) => SunInstant | null; readonly midnightUtcMs: number },
): SunTable {
  const byCoverW = new Float64Array(rows.length * COVERS);
  const openSkyW = new Float64Array(rows.length);
  const covers: CoverHour[] = [];
  const hourMiddleUtcMs: number[] = [];
  const hourOfRow = new Int32Array(rows.length);
  let hourOpen = Number.NaN;
  rows.forEach((row, r) => {
    const hour = clockHourOf(row.middleUtcMs, given.midnightUtcMs);
    if (hour !== hourOpen) {
      covers.push(sky.coverAt(row.middleUtcMs));
      hourMiddleUtcMs.push(hour + HOUR_MS / 2);
      hourOpen = hour;
    }
    hourOfRow[r] = covers.length - 1;
    const sun = given.sunAt(row.middleUtcMs);
    if (!roof || !sun) return;
    const at = momentOf(row.segment, sky.albedo);
    roofByOktaW(sun, roof, at, byCoverW.subarray(r * COVERS, (r + 1) * COVERS));
    const open = { ...at, directBlocked: 0, diffuseBlocked: 0 };
    openSkyW[r] = roofW(sun, lightUnder(sun, 0), roof, open);
  });
  return { byCoverW, openSkyW, covers, hourOfRow, hourMiddleUtcMs };
}

const momentOf = (segment: DaySegment, albedo: number): RoofMoment => ({
  headingDeg: segment.headingDeg,
  airC: segment.airC,
  windMs: segment.windMs,
  directBlocked: segment.directBlocked,
  diffuseBlocked: segment.diffuseBlocked,
  albedo,
});

/** Power of a row under a whole cover of `okta` eighths. */
export const rowW = (table: SunTable, row: number, okta: number): number =>
  table.byCoverW[row * COVERS + okta] as number;
