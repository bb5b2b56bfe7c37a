import { HOUR_MS } from "../../units/numbers.js";
import { emptyingW } from "../battery/index.js";
import { atLevel, type StoreTable } from "./store-table.js";

/** Steps of a day in time order, as columns: one entry per step, steady powers within it. */
export interface StepColumns {
  readonly count: number;
  readonly fromUtcMs: Float64Array;
  readonly hours: Float64Array;
  /** Net W of the drive line at drive factor 1, never negative. */
  readonly driveW: Float64Array;
  readonly otherW: Float64Array;
  readonly chargerW: Float64Array;
  /** Row of the day's sun table, -1 in the dark. */
  readonly sunRow: Int32Array;
  /** The lowest point is looked for in steps `lowestFrom` up to, not with, `lowestTo`. */
  readonly lowestFrom: number;
  readonly lowestTo: number;
}

/** What differs from one drawn day to the next. */
export interface DayFactors {
  readonly startWh: number;
  readonly drive: number;
  readonly other: number;
  /** Sun W at the battery bus by row of the sun table. */
  readonly sunW: Float64Array;
}

/** Places in the book of a walk: Wh, then instants (-1 for never). */
export const BOOK = {
  sunOffered: 0,
  sunTaken: 1,
  grid: 2,
  drive: 3,
  other: 4,
  loss: 5,
  missing: 6,
  level: 7,
  lowest: 8,
  lowestUtcMs: 9,
  fullUtcMs: 10,
  size: 11,
} as const;

const { sunOffered, sunTaken, grid, drive, other, loss, missing, level, lowest, lowestUtcMs, fullUtcMs } = BOOK;

/** What a walk writes down after each step, on request. */
export interface WalkTrack {
  readonly levelsWh: Float64Array;
  /** Sun taken since the start of the walk. */
  readonly sunTakenWh?: Float64Array;
}

/**
 * Walks one drawn day through its steps into `book` (length BOOK.size), noting each step's end in `track`.
 * Energy is conserved to rounding: start + grid + sunTaken + missing - drive - other - loss = level at the end.
 * Sun serves what is drawn first, then the charger; what is left charges the set within what it accepts; what finds no room is spilled.
 */
export function walkDay(
  steps: StepColumns,
  store: StoreTable,
  day: DayFactors,
  book: Float64Array,
  track?: WalkTrack,
): void {
  book.fill(0);
  book[level] = Math.min(day.startWh, store.usableWh);
  book[lowest] = Number.POSITIVE_INFINITY;
  book[fullUtcMs] = day.startWh >= store.usableWh ? (steps.fromUtcMs[0] as number) : -1;
  for (let i = 0; i < steps.count; i++) {
    const hours = steps.hours[i] as number;
    const row = steps.sunRow[i] as number;
    const sunW = row < 0 ? 0 : (day.sunW[row] as number);
    const driveW = (steps.driveW[i] as number) * day.drive;
    const otherW = (steps.otherW[i] as number) * day.other;
    const from = steps.fromUtcMs[i] as number;
    const watched = i >= steps.lowestFrom && i < steps.lowestTo;
    if (i === steps.lowestFrom) noteLowest(book, from);
    (book[sunOffered] as number) += sunW * hours;
    (book[drive] as number) += driveW * hours;
    (book[other] as number) += otherW * hours;
    const spareW = sunW + (steps.chargerW[i] as number) - driveW - otherW;
    if (spareW >= 0) chargeFor(book, store, hours, spareW, driveW + otherW, sunW, from);
    else drainFor(book, store, hours, -spareW, sunW, steps.chargerW[i] as number, from, watched);
    if (watched) noteLowest(book, from + hours * HOUR_MS);
    if (!track) continue;
    track.levelsWh[i] = book[level] as number;
    if (track.sunTakenWh) track.sunTakenWh[i] = book[sunTaken] as number;
  }
}

function noteLowest(book: Float64Array, utcMs: number): void {
  if ((book[level] as number) >= (book[lowest] as number) - 1e-9) return;
  book[lowest] = book[level] as number;
  book[lowestUtcMs] = utcMs;
}

// Plain arguments instead of one object: this and drainFor run some 50,000 times for one answer on a cheap phone.
function chargeFor(
  book: Float64Array,
  store: StoreTable,
  hours: number,
  spareW: number,
  loadW: number,
  sunW: number,
  fromUtcMs: number,
): void {
  const now = book[level] as number;
  const acceptedW = Math.min(spareW, atLevel(store.acceptanceByLevelW, store, now));
  const risingW = acceptedW * atLevel(store.storedByLevel, store, now) - store.selfDischargeW;
  const room = store.usableWh - now;
  let charging = hours;
  let gained = risingW * hours;
  if (gained >= room && risingW > 0) {
    charging = room / risingW;
    gained = room;
    if ((book[fullUtcMs] as number) < 0) book[fullUtcMs] = fromUtcMs + charging * HOUR_MS;
  }
  if (now + gained < 0) gained = -now;
  const intoSet = acceptedW * charging;
  const taken = Math.min(sunW * hours, loadW * hours + intoSet);
  (book[sunTaken] as number) += taken;
  (book[grid] as number) += loadW * hours + intoSet - taken;
  (book[loss] as number) += intoSet - gained;
  book[level] = gained === room ? store.usableWh : now + gained;
}

function drainFor(
  book: Float64Array,
  store: StoreTable,
  hours: number,
  needW: number,
  sunW: number,
  chargerW: number,
  fromUtcMs: number,
  watched: boolean,
): void {
  const now = book[level] as number;
  const pullW = emptyingW(store, needW) + store.selfDischargeW;
  const empties = pullW * hours > now;
  const lasting = empties ? now / pullW : hours;
  (book[sunTaken] as number) += sunW * hours;
  (book[grid] as number) += chargerW * hours;
  (book[loss] as number) += (pullW - needW) * lasting;
  (book[missing] as number) += needW * (hours - lasting);
  book[level] = empties ? 0 : now - pullW * hours;
  if (empties && watched) noteLowest(book, fromUtcMs + lasting * HOUR_MS);
}
