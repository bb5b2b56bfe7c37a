import { HOUR_MS, MINUTE_MS } from "../../units/numbers.js";
import type { DaySegment } from "./segments.js";
import type { StepColumns } from "./simulate.js";

/** Longest piece in which a set is charged; a step may be longer where its level runs straight. */
const PIECE_MS = 5 * MINUTE_MS;
/** The sun moves little in a quarter of an hour: its power is worked out once for that long, at the middle. */
const STEP_MS = 15 * MINUTE_MS;
const DRAWN_MS = 30 * MINUTE_MS;

export const piecesOf = (stepMs: number): number => Math.max(1, Math.ceil(stepMs / PIECE_MS));

/** One row of the sun table: a step whose sun is worked out at its middle. */
export interface SunRowPlace {
  readonly middleUtcMs: number;
  readonly hours: number;
  readonly segment: DaySegment;
}

export interface DaySteps {
  readonly columns: StepColumns;
  readonly rows: readonly SunRowPlace[];
  /** Steps whose end is worth drawing: half hours and ends of segments. */
  readonly drawn: readonly number[];
}

/**
 * Cuts a day's segments into steps of at most a quarter of an hour that end on the segments' own times, charged in pieces of at most five
 * minutes, and into rows of the sun table, one for each step with light. `dark(utcMs)` tells where no sun can come; those steps get no row,
 * and where nothing flows either they become one, but for a cut at `edgeUtcMs`.
 */
export function cutSteps(
  segments: readonly DaySegment[],
  dark: (utcMs: number) => boolean,
  edgeUtcMs: number | null = null,
): DaySteps {
  const cuts = segments.flatMap((segment) => cutSegment(segment, dark, edgeUtcMs));
  const columns = emptyColumns(cuts);
  const rows: SunRowPlace[] = [];
  const drawn: number[] = [];
  cuts.forEach(({ segment, fromUtcMs, toUtcMs, isDark }, i) => {
    const hours = (toUtcMs - fromUtcMs) / HOUR_MS;
    columns.fromUtcMs[i] = fromUtcMs;
    columns.hours[i] = hours;
    columns.pieces[i] = piecesOf(toUtcMs - fromUtcMs);
    columns.driveW[i] = segment.drainW - segment.regenW;
    columns.otherW[i] = segment.otherW;
    columns.chargerW[i] = segment.chargerW;
    columns.sunRow[i] = isDark ? -1 : rows.length;
    if (!isDark) rows.push({ middleUtcMs: (fromUtcMs + toUtcMs) / 2, hours, segment });
    if (toUtcMs % DRAWN_MS === 0 || toUtcMs === segment.toUtcMs) drawn.push(i);
  });
  return { columns, rows, drawn };
}

interface Cut {
  readonly segment: DaySegment;
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly isDark: boolean;
}

function cutSegment(segment: DaySegment, dark: (utcMs: number) => boolean, edgeUtcMs: number | null): Cut[] {
  const idle = segment.drainW === 0 && segment.otherW === 0 && segment.chargerW === 0;
  const cuts: Cut[] = [];
  let from = segment.fromUtcMs;
  while (from < segment.toUtcMs) {
    const to = Math.min(segment.toUtcMs, (Math.floor(from / STEP_MS) + 1) * STEP_MS);
    const isDark = dark((from + to) / 2);
    const last = cuts.at(-1);
    if (idle && isDark && last?.isDark && from !== edgeUtcMs) cuts[cuts.length - 1] = { ...last, toUtcMs: to };
    else cuts.push({ segment, fromUtcMs: from, toUtcMs: to, isDark });
    from = to;
  }
  return cuts;
}

function emptyColumns(cuts: readonly Cut[]): StepColumns {
  const count = cuts.length;
  const onShift = cuts.map((cut) => cut.segment.onShift);
  const first = onShift.indexOf(true);
  return {
    count,
    fromUtcMs: new Float64Array(count),
    hours: new Float64Array(count),
    pieces: new Int32Array(count),
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
    pieces: columns.pieces.subarray(from, to),
    driveW: columns.driveW.subarray(from, to),
    otherW: columns.otherW.subarray(from, to),
    chargerW: columns.chargerW.subarray(from, to),
    sunRow: columns.sunRow.subarray(from, to),
    lowestFrom: Math.max(0, columns.lowestFrom - from),
    lowestTo: Math.max(0, Math.min(columns.lowestTo, to) - from),
  };
}
