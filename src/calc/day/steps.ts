import { HOUR_MS, MINUTE_MS } from "../../units/numbers.js";
import type { DaySegment } from "./segments.js";
import type { StepColumns } from "./simulate.js";

export const STEP_MINUTES = 5;
/** The sun moves little in a quarter of an hour: its power is worked out once for that long, at the middle. */
const SUN_ROW_MS = 15 * MINUTE_MS;
const DRAWN_MS = 30 * MINUTE_MS;

/** One row of the sun table: a stretch of a segment whose sun is worked out at its middle. */
export interface SunRowPlace {
  readonly middleUtcMs: number;
  readonly hours: number;
  readonly segment: DaySegment;
}

export interface DaySteps {
  readonly columns: StepColumns;
  readonly rows: readonly SunRowPlace[];
  readonly segmentOfStep: Int32Array;
  /** Steps whose end is worth drawing: half hours and ends of segments. */
  readonly drawn: readonly number[];
}

/**
 * Cuts a day's segments into steps of at most five minutes (a quarter of an hour where nothing flows) that end on the segments' own times, and into rows of the sun table.
 * `dark(utcMs)` tells where no sun can come; those steps get no row.
 */
export function cutSteps(segments: readonly DaySegment[], dark: (utcMs: number) => boolean): DaySteps {
  const cuts = segments.flatMap((segment, index) => cutSegment(segment, index, dark));
  const rows: SunRowPlace[] = [];
  const columns = emptyColumns(cuts.length, segments, cuts);
  const segmentOfStep = new Int32Array(cuts.length);
  const drawn: number[] = [];
  let openRow: { index: number; block: number } | null = null;
  cuts.forEach((cut, i) => {
    const segment = segments[cut.index] as DaySegment;
    const hours = (cut.toUtcMs - cut.fromUtcMs) / HOUR_MS;
    columns.fromUtcMs[i] = cut.fromUtcMs;
    columns.hours[i] = hours;
    columns.driveW[i] = segment.drainW - segment.regenW;
    columns.otherW[i] = segment.otherW;
    columns.chargerW[i] = segment.chargerW;
    segmentOfStep[i] = cut.index;
    const block = Math.floor(cut.fromUtcMs / SUN_ROW_MS);
    if (dark((cut.fromUtcMs + cut.toUtcMs) / 2)) {
      columns.sunRow[i] = -1;
      openRow = null;
    } else {
      if (openRow?.index !== cut.index || openRow.block !== block) {
        openRow = { index: cut.index, block };
        rows.push({ middleUtcMs: cut.fromUtcMs, hours: 0, segment });
      }
      columns.sunRow[i] = rows.length - 1;
      const row = rows[rows.length - 1] as SunRowPlace;
      const total = row.hours + hours;
      rows[rows.length - 1] = { ...row, hours: total, middleUtcMs: cut.toUtcMs - (total * HOUR_MS) / 2 };
    }
    if (cut.toUtcMs % DRAWN_MS === 0 || cut.toUtcMs === segment.toUtcMs) drawn.push(i);
  });
  return { columns, rows, segmentOfStep, drawn };
}

interface Cut {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly index: number;
}

function cutSegment(segment: DaySegment, index: number, dark: (utcMs: number) => boolean): Cut[] {
  const idle = segment.drainW === 0 && segment.otherW === 0 && segment.chargerW === 0;
  const cuts: Cut[] = [];
  let from = segment.fromUtcMs;
  while (from < segment.toUtcMs) {
    // In the dark with nothing switched on the level runs straight: a longer step is exact there.
    const step = idle && dark(from) && dark(from + SUN_ROW_MS) ? SUN_ROW_MS : STEP_MINUTES * MINUTE_MS;
    const to = Math.min(segment.toUtcMs, (Math.floor(from / step) + 1) * step);
    cuts.push({ fromUtcMs: from, toUtcMs: to, index });
    from = to;
  }
  return cuts;
}

function emptyColumns(count: number, segments: readonly DaySegment[], cuts: readonly Cut[]): StepColumns {
  const onShift = cuts.map((cut) => segments[cut.index]?.onShift === true);
  const first = onShift.indexOf(true);
  return {
    count,
    fromUtcMs: new Float64Array(count),
    hours: new Float64Array(count),
    driveW: new Float64Array(count),
    otherW: new Float64Array(count),
    chargerW: new Float64Array(count),
    sunRow: new Int32Array(count),
    lowestFrom: Math.max(0, first),
    lowestTo: first < 0 ? count : onShift.lastIndexOf(true) + 1,
  };
}

/** The steps from `from` up to, not with, `to`, as a day of their own; nothing is copied. */
export function partOf(columns: StepColumns, from: number, to: number): StepColumns {
  return {
    count: to - from,
    fromUtcMs: columns.fromUtcMs.subarray(from, to),
    hours: columns.hours.subarray(from, to),
    driveW: columns.driveW.subarray(from, to),
    otherW: columns.otherW.subarray(from, to),
    chargerW: columns.chargerW.subarray(from, to),
    sunRow: columns.sunRow.subarray(from, to),
    lowestFrom: Math.max(0, columns.lowestFrom - from),
    lowestTo: Math.max(0, Math.min(columns.lowestTo, to) - from),
  };
}
