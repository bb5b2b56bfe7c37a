import { clamp } from "../../units/numbers.js";
import { bad, good, type Outcome } from "../../units/outcome.js";
import { type Curve, cellsOf, cellVAt, restedCurves } from "./curves.js";
import type { Battery, Reading } from "./types.js";

/** voltsSayLittle: the curve is flat there; notRested: too short after driving or charging. */
export type LevelDoubt = "voltsSayLittle" | "notRested";

/** Level as a person's reading tells it, share of what is usable now. */
export interface Level {
  readonly share: number;
  readonly sdShare: number;
  /** 80 % band. */
  readonly low: number;
  readonly high: number;
  /** False when the reading is not worth more than counting from the last full charge. */
  readonly usable: boolean;
  readonly why?: LevelDoubt;
}

/** Gauges: 3 % on lithium with a counter, 5 % on lead-acid (common practice). */
const gaugeSd = (battery: Battery): number => (battery.chemistry === "lfp" ? 0.03 : 0.05);
const NORMAL_90 = 1.2816;
/** An even band holds its middle 80 % within 0.4 of its width. */
const EVEN_90 = 0.4;

const even = (low: number, high: number, gauge: number): Level => {
  const middle = (low + high) / 2;
  const width = high - low;
  const half = Math.hypot(EVEN_90 * width, NORMAL_90 * gauge);
  return {
    share: middle,
    sdShare: Math.sqrt((width * width) / 12 + gauge * gauge),
    low: Math.max(0, middle - half),
    high: Math.min(1, middle + half),
    usable: true,
  };
};

const outOfRange = (figures: Readonly<Record<string, number | string>>): Outcome<Level> =>
  bad({ code: "reading-out-of-range", where: "value", figures });

function ofBars(reading: Reading, battery: Battery): Outcome<Level> {
  const bars = reading.bars ?? 5;
  if (reading.value < 0 || reading.value > bars) return outOfRange({ low: 0, high: bars });
  if (reading.value === 0) return good(even(0, 1 / bars / 2, gaugeSd(battery)));
  return good(even((reading.value - 1) / bars, reading.value / bars, gaugeSd(battery)));
}

function ofPercent(reading: Reading, battery: Battery): Outcome<Level> {
  if (reading.value < 0 || reading.value > 100) return outOfRange({ low: 0, high: 100 });
  return good(even(reading.value / 100, reading.value / 100, gaugeSd(battery)));
}

/** Volts of one cell that a resting set can show, from flat to just off the charger; more or less is another set or a slip. */
const CELL_RANGE_V = { lfp: [2, 3.7], lead: [1.7, 2.4] } as const;
/** Cells behind one terminal pair that a person may put a meter on: a block, or one cell. */
const BLOCK_CELLS = { lfp: [4, 8, 1], lead: [6, 3, 1] } as const;

interface Measured {
  readonly cellV: number;
  readonly cells: number;
}

/** Which part of the set a voltage belongs to; null when it fits none that `perBlock` allows. */
function measuredOf(reading: Reading, battery: Battery): Measured | null {
  const family = battery.chemistry === "lfp" ? "lfp" : "lead";
  const [low, high] = CELL_RANGE_V[family];
  const all = cellsOf(battery);
  const fits = (cells: number) => reading.value / cells >= low && reading.value / cells <= high;
  const parts = BLOCK_CELLS[family].filter((cells) => cells < all);
  const tried = reading.perBlock === true ? parts : reading.perBlock === false ? [all] : [all, ...parts];
  const cells = tried.find(fits);
  return cells === undefined ? null : { cells, cellV: reading.value / cells };
}

function likelySlip(reading: Reading, battery: Battery): string {
  const other = measuredOf({ ...reading, perBlock: !reading.perBlock }, battery);
  if (other) return reading.perBlock ? "wholeSet" : "oneBlock";
  return reading.value > restedHighV(battery) ? "charging" : "flatOrOtherSet";
}
const restedHighV = (battery: Battery): number =>
  cellsOf(battery) * CELL_RANGE_V[battery.chemistry === "lfp" ? "lfp" : "lead"][1];

/** A cheap meter: 1 % at most is about 0.4 % as a standard deviation; read to 0.1 V. */
const METER_SHARE = 0.004;
const ROUND_V = 0.1 / Math.sqrt(12);
/** Volts a cell still has to settle right after work, its time, and what never settles (hysteresis of LFP 10 to 20 mV either way). */
const SETTLING = {
  lfp: { startV: 0.04, minutes: 60, leftV: 0.012, neededMin: 120 },
  lead: { startV: 0.04, minutes: 60, leftV: 0.003, neededMin: 60 },
} as const;
/** Taken where nobody said how long the vehicle stood. */
const REST_UNKNOWN_MIN = 30;

function doubtV(measured: Measured, battery: Battery, restedMin: number): number {
  const settling = SETTLING[battery.chemistry === "lfp" ? "lfp" : "lead"];
  const settle = settling.startV * Math.exp(-restedMin / settling.minutes);
  return Math.hypot(METER_SHARE * measured.cellV, ROUND_V / measured.cells, settle, settling.leftV);
}

const GRID = 400;
/** Weight of each level 0..1 that could have shown the voltage, every level held equally likely before: Bayes over all published curves. */
function weightsOf(curves: readonly Curve[], cellV: number, sdV: number): Float64Array {
  const weights = new Float64Array(GRID + 1);
  for (const curve of curves)
    for (let i = 0; i <= GRID; i++) {
      const off = (cellV - cellVAt(curve, i / GRID)) / sdV;
      weights[i] = (weights[i] as number) + Math.exp(-0.5 * off * off);
    }
  return weights;
}

function levelOf(weights: Float64Array): Pick<Level, "share" | "sdShare" | "low" | "high"> | null {
  let total = 0;
  let mean = 0;
  let square = 0;
  weights.forEach((weight, i) => {
    const share = i / GRID;
    total += weight;
    mean += weight * share;
    square += weight * share * share;
  });
  if (!(total > 1e-200)) return null;
  const share = mean / total;
  const quantile = (level: number): number => {
    let sum = 0;
    for (let i = 0; i <= GRID; i++) {
      sum += weights[i] as number;
      if (sum >= level * total) return i / GRID;
    }
    return 1;
  };
  const sdShare = Math.sqrt(Math.max(square / total - share * share, (0.5 / GRID) ** 2));
  return { share, sdShare, low: quantile(0.1), high: quantile(0.9) };
}

/** A voltage worth less than this tells nothing that counting from the last full charge does not. */
const USABLE_SD = 0.1;

function ofVolts(reading: Reading, battery: Battery): Outcome<Level> {
  const measured = measuredOf(reading, battery);
  if (!measured) return outOfRange({ likely: likelySlip(reading, battery) });
  const restedMin = reading.restedMin ?? REST_UNKNOWN_MIN;
  const curves = restedCurves(battery.chemistry);
  const ends = curves.flatMap((curve) => [cellVAt(curve, 0), cellVAt(curve, 1)]);
  // Just off the charger a cell stands above its curve: full.
  const cellV = clamp(measured.cellV, Math.min(...ends), Math.max(...ends));
  const level = levelOf(weightsOf(curves, cellV, doubtV(measured, battery, restedMin)));
  if (!level) return outOfRange({ likely: "flatOrOtherSet" });
  if (level.sdShare <= USABLE_SD) return good({ ...level, usable: true });
  const family = battery.chemistry === "lfp" ? "lfp" : "lead";
  const tooSoon = restedMin < SETTLING[family].neededMin && battery.chemistry !== "lfp";
  return good({ ...level, usable: false, why: tooSoon ? "notRested" : "voltsSayLittle" });
}

/**
 * Level from what a person read: percent, bars, rested volts (set or block) or a finished charge, with an honest spread.
 * Errors: `reading-out-of-range` for a figure that cannot be, with what is likely: oneBlock, wholeSet, charging or flatOrOtherSet.
 */
export function levelFromReading(reading: Reading, battery: Battery): Outcome<Level> {
  if (!Number.isFinite(reading.value) && reading.kind !== "full") return outOfRange({});
  if (reading.kind === "percent") return ofPercent(reading, battery);
  if (reading.kind === "bars") return ofBars(reading, battery);
  if (reading.kind === "volts") return ofVolts(reading, battery);
  return good(battery.chemistry === "lfp" ? even(0.98, 1, 0.005) : even(0.93, 1, 0.01));
}
