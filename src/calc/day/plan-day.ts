import { HOUR_MS, quantileOfSorted } from "../../units/numbers.js";
import { sortSpread } from "../../units/sort.js";
import type { Band, DayAnswer, EnergyBook, LevelLines, SunHour, Verdict } from "./answer.js";
import { firstBelow } from "./crossings.js";
import type { DayInput } from "./input.js";
import { type KmLeft, kmLeftOf } from "./km-left.js";
import { segmentsShown } from "./shown.js";
import { BOOK } from "./simulate.js";
import { clockHourOf } from "./sky-table.js";
import { topUpFor } from "./top-up.js";
import { type DayWalks, meanDay, trackOf, walkBoth, walkDraws } from "./walks.js";

const A_MINUTE_H = 1 / 60;
/** A band of levels wider than this (10 to 90 %) is no answer. */
const WIDEST_BAND = 0.5;

let room = new Float64Array(0);
/** Room for the levels of one answer, kept: a fresh 100 kB for each vehicle would keep the collector busy. */
function levelsRoom(size: number): Float64Array {
  if (room.length < size) room = new Float64Array(2 * size);
  return room.subarray(0, size);
}

/**
 * Will this charge, with the sun of the day, get the vehicle home above its reserve - and if not, what does it need?
 * Draws `input.draws` whole days from what is not known and answers from all of them. Pure: the same input gives the same answer.
 */
export function planDay(input: DayInput): DayAnswer {
  const walks = walkDraws(input, levelsRoom);
  const share = 1 / walks.store.usableWh;
  const lowest = bandOf(walks.lowestWh, share);
  const mean = meanWalk(walks, input);
  const driving = input.segments.filter((segment) => segment.kind === "drive" && segment.onShift);
  const km = driving.reduce((total, segment) => total + segment.km, 0);
  const onShift = input.segments.filter((segment) => segment.onShift);
  const leaveUtcMs = onShift[0]?.fromUtcMs ?? null;
  const { left } = mean;
  const stuck = isStuck(input);
  const missing = input.missing;
  const levels = { levelsWh: mean.levelsWh, startWh: mean.book.startWh, lowestUtcMs: mean.lowestAtUtcMs };
  const belowLine = (line: number) => firstBelow(levels, walks.steps.columns, line * walks.store.usableWh);
  return {
    vehicleId: input.vehicleId,
    fromUtcMs: input.segments[0]?.fromUtcMs ?? input.nowUtcMs,
    leaveUtcMs,
    homeUtcMs: onShift[onShift.length - 1]?.toUtcMs ?? null,
    lateMinutes: input.lateMinutes,
    legNotes: input.legNotes,
    verdict: verdictOf(lowest, input.reserveShare, { stuck, unknown: missing.length > 0 || leaveUtcMs === null }),
    stuck,
    missing,
    readingDoubt: input.readingDoubt,
    chance: stuck ? 0 : shareAbove(walks.lowestWh, input.reserveShare * walks.store.usableWh),
    reserveShare: input.reserveShare,
    floorShare: input.floorShare,
    lines: linesOf(walks, input),
    start: bandOf(walks.draws.startShare, 1),
    lowest,
    lowestAtUtcMs: mean.lowestAtUtcMs,
    home: bandOf(walks.homeWh, share),
    spare: bandOf(left.spareWh, share),
    kmLeft: bandOf(left.km, 1),
    hoursLeft: hoursLeftOf(walks, input, mean.book),
    belowReserveUtcMs: belowLine(input.reserveShare),
    stopsUtcMs: belowLine(Math.max(input.floorShare, 1e-9)),
    km,
    whPerKm: left.whPerKm,
    usableWh: walks.store.usableWh,
    book: mean.book,
    sunHours: mean.sunHours,
    sunTaken: bandOf(walks.sunTakenWh, 1),
    drive: driveBand(walks, input),
    topUp: topUpFor(walks, input, mean.book.sunSpilledWh),
    segments: segmentsShown(input.segments),
    doubtShares: doubtShares(walks),
  };
}

let sorted = new Float64Array(0); // kept for the same reason

function bandOf(values: Float64Array, scale: number): Band {
  if (sorted.length !== values.length) sorted = new Float64Array(values.length);
  sortSpread(values, sorted);
  const at = (level: number) => quantileOfSorted(sorted, level) * scale;
  return { p05: at(0.05), p10: at(0.1), p50: at(0.5), p90: at(0.9), p95: at(0.95) };
}

/** Energy of the drive line: the drawn days hold what it takes of the set; how much that is in Wh may be less sure. Log-normal. */
function driveBand(walks: DayWalks, { doubt }: DayInput): Band {
  const band = bandOf(walks.driveWh, 1);
  const { driveSdLog, driveEnergySdLog = driveSdLog } = doubt;
  if (band.p50 <= 0 || driveEnergySdLog <= driveSdLog || driveSdLog <= 0) return band;
  const wide = (wh: number) => band.p50 * (wh / band.p50) ** (driveEnergySdLog / driveSdLog);
  return { p05: wide(band.p05), p10: wide(band.p10), p50: band.p50, p90: wide(band.p90), p95: wide(band.p95) };
}

/** A slope ahead that no gear holds: whatever the charge, this round does not bring the vehicle home. */
export const isStuck = ({ legNotes, nowUtcMs }: Pick<DayInput, "legNotes" | "nowUtcMs">): boolean =>
  legNotes.some(
    ({ problem, untilUtcMs }) => (problem === "tooSteep" || problem === "noSuchRoad") && untilUtcMs > nowUtcMs,
  );

function verdictOf(
  lowest: Band,
  reserveShare: number,
  day: { readonly stuck: boolean; readonly unknown: boolean },
): Verdict {
  if (day.unknown) return "notKnown";
  if (day.stuck) return "short";
  if (lowest.p90 - lowest.p10 > WIDEST_BAND) return "notKnown";
  if (lowest.p10 >= reserveShare) return "enough";
  return lowest.p50 >= reserveShare ? "tight" : "short";
}

function shareAbove(values: Float64Array, line: number): number {
  let above = 0;
  for (const value of values) if (value >= line) above++;
  return above / values.length;
}

function linesOf(walks: DayWalks, input: DayInput): LevelLines {
  const { columns, drawn } = walks.steps;
  const count = walks.draws.count;
  const share = 1 / walks.store.usableWh;
  const start = bandOf(walks.draws.startShare, 1);
  const bands = [start, ...drawn.map((_, k) => bandOf(walks.levelsWh.subarray(k * count, (k + 1) * count), share))];
  const ends = drawn.map((step) => (columns.fromUtcMs[step] as number) + (columns.hours[step] as number) * HOUR_MS);
  return {
    atUtcMs: [input.segments[0]?.fromUtcMs ?? input.nowUtcMs, ...ends.map(Math.round)],
    p05: bands.map((band) => band.p05),
    p10: bands.map((band) => band.p10),
    p50: bands.map((band) => band.p50),
    p90: bands.map((band) => band.p90),
    p95: bands.map((band) => band.p95),
  };
}

/** A vendor's day: hours of stall that the charge above the reserve would still carry. */
function hoursLeftOf(walks: DayWalks, input: DayInput, book: EnergyBook): Band | null {
  const standing = input.segments.filter((segment) => segment.onShift && segment.kind !== "drive");
  const hours = standing.reduce((total, { fromUtcMs, toUtcMs }) => total + (toUtcMs - fromUtcMs) / HOUR_MS, 0);
  const wh = standing.reduce(
    (total, { otherW, fromUtcMs, toUtcMs }) => total + (otherW * (toUtcMs - fromUtcMs)) / HOUR_MS,
    0,
  );
  if (hours < A_MINUTE_H || wh <= Math.max(book.driveWh, 1)) return null; // a stall takes more than a lamp for a moment
  const reserveWh = input.reserveShare * walks.store.usableWh;
  return bandOf(
    walks.lowestWh.map((low, d) => (low - reserveWh) / ((wh / hours) * (walks.draws.other[d] as number))),
    1,
  );
}

interface MeanWalk {
  readonly levelsWh: Float64Array;
  readonly lowestAtUtcMs: number;
  readonly book: EnergyBook;
  readonly sunHours: readonly SunHour[];
  readonly left: KmLeft;
}

function meanWalk(walks: DayWalks, input: DayInput): MeanWalk {
  const day = meanDay(walks, input);
  const track = trackOf(walks);
  const sums = new Float64Array(BOOK.size);
  const startWh = walkBoth(walks, day, sums, track);
  const at = (place: number) => sums[place] as number;
  const book: EnergyBook = {
    startWh,
    endWh: at(BOOK.level),
    sunOfferedWh: at(BOOK.sunOffered),
    sunTakenWh: at(BOOK.sunTaken),
    sunSpilledWh: at(BOOK.sunOffered) - at(BOOK.sunTaken),
    gridWh: at(BOOK.grid),
    driveWh: at(BOOK.drive),
    otherWh: at(BOOK.other),
    lossWh: at(BOOK.loss),
    missingWh: at(BOOK.missing),
  };
  return {
    levelsWh: track.levelsWh,
    lowestAtUtcMs: Math.round(at(BOOK.lowestUtcMs)),
    book,
    sunHours: sunHoursOf(walks, input.dayFromUtcMs, day.sunW, track.sunTakenWh),
    left: kmLeftOf(walks, input, day, book.missingWh > 1 ? Infinity : at(BOOK.lowestUtcMs)),
  };
}

function sunHoursOf(walks: DayWalks, midnightUtcMs: number, sunW: Float64Array, sunTakenWh: Float64Array): SunHour[] {
  const { columns } = walks.steps;
  const hours = new Map<number, { offeredWh: number; takenWh: number; openSkyWh: number }>();
  for (let i = walks.dayStep; i < columns.count; i++) {
    const row = columns.sunRow[i] as number;
    if (row < 0) continue;
    const fromUtcMs = clockHourOf(columns.fromUtcMs[i] as number, midnightUtcMs);
    const hour = hours.get(fromUtcMs) ?? { offeredWh: 0, takenWh: 0, openSkyWh: 0 };
    hour.offeredWh += (sunW[row] as number) * (columns.hours[i] as number);
    hour.openSkyWh += (walks.table.openSkyW[row] as number) * (columns.hours[i] as number);
    hour.takenWh += (sunTakenWh[i] as number) - (i > walks.dayStep ? (sunTakenWh[i - 1] as number) : 0);
    hours.set(fromUtcMs, hour);
  }
  return [...hours].map(([fromUtcMs, hour]) => ({ fromUtcMs, ...hour }));
}

/** First-order shares of the lowest point's variance: squared correlations; the sky takes what the others leave. */
function doubtShares(walks: DayWalks): DayAnswer["doubtShares"] {
  const part = (values: Float64Array) => correlation(values, walks.lowestWh) ** 2;
  const start = part(walks.draws.startShare);
  const drive = part(walks.draws.drive);
  const other = part(walks.draws.other);
  const total = Math.max(1, start + drive + other);
  return {
    start: start / total,
    drive: drive / total,
    other: other / total,
    sky: Math.max(0, 1 - (start + drive + other) / total),
  };
}

function correlation(xs: Float64Array, ys: Float64Array): number {
  const n = xs.length;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let syy = 0;
  let sxy = 0;
  for (let i = 0; i < n; i++) {
    const x = xs[i] as number;
    const y = ys[i] as number;
    sx += x;
    sy += y;
    sxx += x * x;
    syy += y * y;
    sxy += x * y;
  }
  const spread = Math.sqrt((n * sxx - sx * sx) * (n * syy - sy * sy));
  return spread > 1e-9 ? (n * sxy - sx * sy) / spread : 0;
}
