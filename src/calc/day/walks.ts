import { clamp } from "../../units/numbers.js";
import { type SunInstant, sunInstant } from "../sun/index.js";
import { type Draws, drawDays, drawnDay, factorsOf, meanSunW } from "./draws.js";
import type { DayInput } from "./input.js";
import { BOOK, type DayFactors, type StepColumns, type WalkTrack, walkDay } from "./simulate.js";
import { type SunTable, sunTable } from "./sky-table.js";
import { cutSteps, type DaySteps, partOf } from "./steps.js";
import { type StoreTable, storeTable } from "./store-table.js";

/** A day made ready: its steps, its sun, its drawn days. The parts of the answer all read from here. */
export interface DayWalks {
  readonly steps: DaySteps;
  readonly store: StoreTable;
  readonly table: SunTable;
  readonly draws: Draws;
  /** Steps before this one belong to the day before the shift's. */
  readonly dayStep: number;
  readonly before: StepColumns;
  readonly day: StepColumns;
  readonly shift: StepColumns;
  /** Level in Wh at each drawn instant, instants x draws; empty where no room was given for it. */
  readonly levelsWh: Float64Array;
  /** Level at leaving, by draw. */
  readonly leaveWh: Float64Array;
  readonly homeWh: Float64Array;
  readonly lowestWh: Float64Array;
  readonly sunTakenWh: Float64Array;
  readonly driveWh: Float64Array;
  /** Asked for and not there, by draw. */
  readonly missingWh: Float64Array;
}

const noRoom = () => new Float64Array(0);

/** Walks every drawn day. `roomFor(size)` lends the room for the levels where lines are to be drawn. */
export function walkDraws(input: DayInput, roomFor: (size: number) => Float64Array = noRoom): DayWalks {
  const suns = new Map<number, SunInstant>();
  const steps = cutSteps(input.segments, (utcMs) => isDark(utcMs, input, suns), input.dayFromUtcMs);
  const store = storeTable(input.store);
  const table = sunTable(steps.rows, input.sky, input.roof, {
    sunAt: (utcMs) => suns.get(utcMs) ?? null,
    midnightUtcMs: input.dayFromUtcMs,
  });
  const draws = drawDays(input.doubt, table, input.draws, input.seed);
  const { columns, drawn } = steps;
  let dayStep = 0;
  while (dayStep < columns.count && (columns.fromUtcMs[dayStep] as number) < input.dayFromUtcMs) dayStep++;
  const column = () => new Float64Array(draws.count);
  const walks: DayWalks = {
    steps,
    store,
    table,
    draws,
    dayStep,
    before: partOf(columns, 0, dayStep),
    day: partOf(columns, dayStep, columns.count),
    shift: partOf(columns, columns.lowestFrom, columns.lowestTo),
    levelsWh: roomFor(drawn.length * draws.count),
    leaveWh: column(),
    homeWh: column(),
    lowestWh: column(),
    sunTakenWh: column(),
    driveWh: column(),
    missingWh: column(),
  };
  const sunW = new Float64Array(table.openSkyW.length);
  const track = trackOf(walks);
  const book = new Float64Array(BOOK.size);
  for (let d = 0; d < draws.count; d++) {
    const day = drawnDay(draws, d, table, store.usableWh, sunW);
    walkBoth(walks, day, book, track);
    for (let k = 0, kept = walks.levelsWh.length > 0; kept && k < drawn.length; k++)
      walks.levelsWh[k * draws.count + d] = track.levelsWh[drawn[k] as number] as number;
    walks.leaveWh[d] = levelBefore(track.levelsWh, columns.lowestFrom, day.startWh);
    walks.homeWh[d] = levelBefore(track.levelsWh, columns.lowestTo, day.startWh);
    walks.lowestWh[d] = book[BOOK.lowest] as number;
    walks.sunTakenWh[d] = book[BOOK.sunTaken] as number;
    walks.driveWh[d] = book[BOOK.drive] as number;
    walks.missingWh[d] = book[BOOK.missing] as number;
  }
  return walks;
}

/** Notes the sun of an instant on the way, so that the roof's table need not ask again. */
function isDark(utcMs: number, { roof, sky }: DayInput, suns: Map<number, SunInstant>): boolean {
  const sun = roof ? sunInstant(utcMs, sky.site, sky.linkeTurbidity) : null;
  if (sun) suns.set(utcMs, sun);
  return sun === null;
}

const levelBefore = (levels: Float64Array, step: number, atStart: number): number =>
  step === 0 ? atStart : (levels[step - 1] as number);

/** What both parts of a walk write down: whole columns, and the same memory seen by each part. */
export interface WholeTrack extends WalkTrack {
  readonly sunTakenWh: Float64Array;
  readonly beforeDay: WalkTrack;
  readonly ofDay: WalkTrack;
}

export function trackOf({ steps, dayStep }: Pick<DayWalks, "steps" | "dayStep">): WholeTrack {
  const levelsWh = new Float64Array(steps.columns.count);
  const sunTakenWh = new Float64Array(steps.columns.count);
  return {
    levelsWh,
    sunTakenWh,
    beforeDay: { levelsWh },
    ofDay: { levelsWh: levelsWh.subarray(dayStep), sunTakenWh: sunTakenWh.subarray(dayStep) },
  };
}

/** Walks the evening before, then the shift's day, so that the book in the end holds the shift's day alone; returns the level at its start. */
export function walkBoth(walks: DayWalks, day: DayFactors, book: Float64Array, track: WholeTrack): number {
  if (walks.before.count === 0) {
    walkDay(walks.day, walks.store, day, book, track.ofDay);
    return day.startWh;
  }
  walkDay(walks.before, walks.store, day, book, track.beforeDay);
  const startWh = book[BOOK.level] as number;
  walkDay(walks.day, walks.store, { startWh, drive: day.drive, other: day.other, sunW: day.sunW }, book, track.ofDay);
  return startWh;
}

/** The day of mean sun and middle consumption: the one whose energies are shown hour by hour. */
export function meanDay(walks: DayWalks, input: DayInput): DayFactors {
  const { startShare, driveMiddle, otherMiddle } = input.doubt;
  // a reading's middle may lie beyond empty or full: its draws are cut there, and so is the middle
  const startWh = clamp(startShare, 0, 1) * walks.store.usableWh;
  return { startWh, drive: driveMiddle, other: otherMiddle, sunW: meanSunW(walks.draws, walks.table) };
}

/** The lowest level of every drawn day between leaving and home when it leaves with `extraWh` more, as far as the set holds it. */
export function lowestWith(walks: DayWalks, extraWh: number, sky: "asDrawn" | "noSun"): Float64Array {
  const { draws, table, store } = walks;
  const sunW = new Float64Array(table.openSkyW.length);
  const book = new Float64Array(BOOK.size);
  return walks.leaveWh.map((leaveWh, d) => {
    const { drive, other } =
      sky === "noSun" ? factorsOf(draws, d, store.usableWh, sunW) : drawnDay(draws, d, table, store.usableWh, sunW);
    const startWh = Math.min(store.usableWh, leaveWh + extraWh);
    walkDay(walks.shift, store, { startWh, drive, other, sunW }, book);
    return book[BOOK.lowest] as number;
  });
}
