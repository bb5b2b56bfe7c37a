import { HOUR_MS } from "../../units/numbers.js";
import { atLevel, type StoreTable } from "./store-table.js";

/** Steps of a day in time order, as columns: one entry per step, steady powers within it. */
export interface StepColumns {
  readonly count: number;
  readonly fromUtcMs: Float64Array;
  readonly hours: Float64Array;
  /** Equal pieces of at most five minutes that a step is walked in where what the set takes changes with its level. */
  readonly pieces: Int32Array;
  /** Net W of the drive line at drive factor 1; below 0 where braking downhill gives back more than is taken. */
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
 * While a set empties, or charges below the level from which it takes less, it does so in a straight line: the step is walked at once, and exactly.
 * One long loop on local numbers: it runs some 20,000 times for one answer, and calls with the book in memory took twice as long.
 */
export function walkDay(
  steps: StepColumns,
  store: StoreTable,
  day: DayFactors,
  book: Float64Array,
  track?: WalkTrack,
): void {
  const {
    count,
    fromUtcMs,
    hours: stepHours,
    pieces: stepPieces,
    driveW: stepDriveW,
    otherW: stepOtherW,
    chargerW: stepChargerW,
    sunRow,
  } = steps;
  const { acceptanceByLevelW, storedByLevel } = store;
  // What comes out of an object with a plus is known to be a number: without it every step would leave a few on the heap.
  const usableWh = +store.usableWh;
  const selfDischargeW = +store.selfDischargeW;
  const straightToWh = +store.straightToWh;
  const lossPerW = +store.lossPerW;
  const peukertRatedW = +store.peukertRatedW;
  const peukertExponent = +store.peukertExponent;
  const startWh = +day.startWh;
  const driveFactor = +day.drive;
  const otherFactor = +day.other;
  const daySunW = day.sunW;
  const levelsWh = track?.levelsWh;
  const sunTakenWh = track?.sunTakenWh;
  let levelWh = Math.min(startWh, usableWh);
  let lowestWh = Number.POSITIVE_INFINITY;
  let lowestUtcMs = 0;
  let fullUtcMs = startWh >= usableWh ? (fromUtcMs[0] as number) : -1;
  let offered = 0;
  let taken = 0;
  let grid = 0;
  let drive = 0;
  let other = 0;
  let loss = 0;
  let missing = 0;
  for (let i = 0; i < count; i++) {
    const hours = stepHours[i] as number;
    const row = sunRow[i] as number;
    const sunW = row < 0 ? 0 : (daySunW[row] as number);
    const netW = (stepDriveW[i] as number) * driveFactor;
    const driveW = Math.max(netW, 0);
    const brakeW = driveW - netW;
    const otherW = (stepOtherW[i] as number) * otherFactor;
    const chargerW = stepChargerW[i] as number;
    const spareW = sunW + chargerW + brakeW - driveW - otherW;
    const watched = i >= steps.lowestFrom && i < steps.lowestTo;
    if (i === steps.lowestFrom && watched) {
      lowestWh = levelWh;
      lowestUtcMs = fromUtcMs[i] as number;
    }
    offered += sunW * hours;
    drive += driveW * hours;
    other += otherW * hours;
    if (spareW >= 0) {
      const drawnW = driveW + otherW;
      const pieces = levelWh + spareW * hours <= straightToWh ? 1 : (stepPieces[i] as number);
      const pieceH = hours / pieces;
      for (let p = 0; p < pieces; p++) {
        const acceptedW = spareW === 0 ? 0 : Math.min(spareW, atLevel(acceptanceByLevelW, store, levelWh));
        const storedW = spareW === 0 ? 0 : acceptedW * atLevel(storedByLevel, store, levelWh);
        const risingW = storedW - selfDischargeW;
        const room = usableWh - levelWh;
        let charging = pieceH;
        let gained = risingW * pieceH;
        if (gained >= room && risingW > 0) {
          charging = room / risingW;
          gained = room;
          if (fullUtcMs < 0) fullUtcMs = (fromUtcMs[i] as number) + (p * pieceH + charging) * HOUR_MS;
        }
        if (levelWh + gained < 0) gained = -levelWh;
        const usedW = drawnW + acceptedW;
        const fromBrakeW = Math.min(brakeW, usedW);
        const fromSunW = Math.min(sunW, usedW - fromBrakeW);
        drive -= fromBrakeW * charging;
        taken += fromSunW * charging;
        grid += (usedW - fromBrakeW - fromSunW) * charging;
        if (charging < pieceH) {
          // full: only what is drawn is still used, the sun before the charger
          const fullH = pieceH - charging;
          const brakeLeftW = Math.min(brakeW, drawnW);
          const sunLeftW = Math.min(sunW, drawnW - brakeLeftW);
          drive -= brakeLeftW * fullH;
          taken += sunLeftW * fullH;
          grid += (drawnW - brakeLeftW - sunLeftW) * fullH;
        }
        loss += acceptedW * charging - gained;
        levelWh = gained === room ? usableWh : levelWh + gained;
      }
    } else {
      // emptyingW written out: a call that returns a number leaves it on the heap
      const outW = -spareW;
      const steep = peukertExponent > 1 && outW > peukertRatedW ? (outW / peukertRatedW) ** (peukertExponent - 1) : 1;
      const pullW = outW * (1 + lossPerW * outW) * steep + selfDischargeW;
      const empties = pullW * hours > levelWh;
      const lasting = empties ? levelWh / pullW : hours;
      drive -= brakeW * hours;
      taken += sunW * hours;
      grid += chargerW * hours;
      loss += (pullW + spareW) * lasting;
      missing -= spareW * (hours - lasting);
      levelWh = empties ? 0 : levelWh - pullW * hours;
      if (empties && watched && lowestWh > 0) {
        lowestWh = 0;
        lowestUtcMs = (fromUtcMs[i] as number) + lasting * HOUR_MS;
      }
    }
    if (watched && levelWh < lowestWh - 1e-9) {
      lowestWh = levelWh;
      lowestUtcMs = (fromUtcMs[i] as number) + hours * HOUR_MS;
    }
    if (levelsWh) levelsWh[i] = levelWh;
    if (sunTakenWh) sunTakenWh[i] = taken;
  }
  book[BOOK.sunOffered] = offered;
  book[BOOK.sunTaken] = taken;
  book[BOOK.grid] = grid;
  book[BOOK.drive] = drive;
  book[BOOK.other] = other;
  book[BOOK.loss] = loss;
  book[BOOK.missing] = missing;
  book[BOOK.level] = levelWh;
  book[BOOK.lowest] = lowestWh;
  book[BOOK.lowestUtcMs] = lowestUtcMs;
  book[BOOK.fullUtcMs] = fullUtcMs;
}
