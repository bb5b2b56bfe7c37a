import { clamp, interpolate } from "../../units/numbers.js";
import type { Problem } from "../../units/outcome.js";
import { type Curve, cellsOf, cellVAt, restedCurves } from "./curves.js";
import type { Battery, Chemistry, Level, Reading } from "./types.js";

interface VoltFacts {
  /** Volts of one cell that a resting set can show, from flat to just off the charger. */
  readonly restV: readonly [low: number, high: number];
  /** Up to here it is on a charger, down to here it is flat or broken; beyond, the figure belongs to another set. */
  readonly chargingToV: number;
  readonly flatFromV: number;
  /** Cells between the clamps of a meter that is not put across the whole set: a block or a cell. */
  readonly parts: readonly number[];
  /** What a cell still has to settle right after work, V, its time, and what never settles. */
  readonly settleV: number;
  readonly settleMin: number;
  readonly leftV: number;
  readonly neededMin: number;
  /** A reading with a wider standard deviation tells nothing that counting from the last full charge does not. */
  readonly usableSd: number;
  /** Levels at which the curve is too flat to be read at all. */
  readonly flat: readonly [low: number, high: number];
}
/**
 * Rest: lead-acid an hour after driving at least, LFP longer (Batteries 11, 2025, 186: it moves for 24 h); hysteresis of LFP 10 to 20 mV either way.
 * Settling voltages and times are common practice.
 */
const LFP: VoltFacts = {
  restV: [2, 3.6],
  chargingToV: 3.75,
  flatFromV: 1,
  parts: [4, 8, 1],
  settleV: 0.04,
  settleMin: 60,
  leftV: 0.012,
  neededMin: 120,
  usableSd: 0.1,
  flat: [0.35, 0.9],
};
const LEAD: VoltFacts = {
  restV: [1.75, 2.25],
  chargingToV: 2.75,
  flatFromV: 1,
  parts: [6, 3, 1],
  settleV: 0.04,
  settleMin: 60,
  leftV: 0.003,
  neededMin: 60,
  usableSd: 0.15,
  flat: [0, 0],
};
const factsOf = (chemistry: Chemistry): VoltFacts => (chemistry === "lfp" ? LFP : LEAD);

interface Measured {
  readonly cellV: number;
  readonly cells: number;
}

/** Which part of the set a voltage belongs to; null when it fits none that `perBlock` allows. */
function measuredOf(reading: Reading, battery: Battery): Measured | null {
  const { restV, parts } = factsOf(battery.chemistry);
  const all = cellsOf(battery);
  const smaller = parts.filter((cells) => cells < all);
  const tried = reading.perBlock === true ? smaller : reading.perBlock === false ? [all] : [all, ...smaller];
  const cells = tried.find((n) => reading.value / n >= restV[0] && reading.value / n <= restV[1]);
  return cells === undefined ? null : { cells, cellV: reading.value / cells };
}

/**
 * Why a voltage cannot be read: `likely` is oneBlock or wholeSet (the other one was meant), charging, flat, or otherSet; `low` and `high` are what
 * the whole set shows at rest, V.
 */
export function outOfVolts(reading: Reading, battery: Battery): Problem {
  const { restV, chargingToV, flatFromV } = factsOf(battery.chemistry);
  const cells = cellsOf(battery);
  const likely = (): string => {
    if (typeof reading.perBlock === "boolean" && measuredOf({ ...reading, perBlock: !reading.perBlock }, battery))
      return reading.perBlock ? "wholeSet" : "oneBlock";
    const cellV = reading.value / cells;
    if (cellV > restV[1] && cellV <= chargingToV) return "charging";
    return cellV < restV[0] && cellV >= flatFromV ? "flat" : "otherSet";
  };
  const figures = { likely: likely(), low: restV[0] * cells, high: restV[1] * cells };
  return { code: "reading-out-of-range", where: "value", figures };
}

/** A cheap meter: 1 % at most is about 0.4 % as a standard deviation; read to 0.1 V. */
const METER_SHARE = 0.004;
const ROUND_V = 0.1 / Math.sqrt(12);
/** Taken where nobody said how long the vehicle stood, minutes. */
const REST_UNKNOWN_MIN = 30;

/** Standard deviation of one cell's voltage. */
function doubtV(measured: Measured, facts: VoltFacts, restedMin: number): number {
  const settling = facts.settleV * Math.exp(-restedMin / facts.settleMin);
  return Math.hypot(METER_SHARE * measured.cellV, ROUND_V / measured.cells, settling, facts.leftV);
}

const GRID = 400;
/** Weight of each level 0..1 that could have shown the voltage, all levels and curves held equally likely before (Bayes). */
function weightsOf(curves: readonly Curve[], cellV: number, sdV: number): Float64Array {
  const weights = new Float64Array(GRID + 1);
  for (const curve of curves)
    for (let i = 0; i <= GRID; i++) {
      const off = (cellV - cellVAt(curve, i / GRID)) / sdV;
      weights[i] = (weights[i] as number) + Math.exp(-0.5 * off * off);
    }
  return weights;
}

function quantileOf(weights: Float64Array, level: number): number {
  const goal = level * weights.reduce((all, weight) => all + weight, 0);
  let sum = 0;
  for (let i = 0; i <= GRID; i++) {
    const weight = weights[i] as number;
    if (sum + weight >= goal) return clamp((i - 0.5 + (goal - sum) / weight) / GRID, 0, 1);
    sum += weight;
  }
  return 1;
}

function levelOf(weights: Float64Array): Pick<Level, "share" | "sdShare" | "low" | "high"> {
  let total = 0;
  let mean = 0;
  let square = 0;
  weights.forEach((weight, i) => {
    total += weight;
    mean += (weight * i) / GRID;
    square += weight * (i / GRID) ** 2;
  });
  const share = mean / total;
  const sdShare = Math.sqrt(Math.max(square / total - share * share, (0.5 / GRID) ** 2));
  return { share, sdShare, low: quantileOf(weights, 0.1), high: quantileOf(weights, 0.9) };
}

/**
 * Level from volts at rest, of the whole set, a block or a cell, with the doubt of meter, rest and the published curves; null when the figure cannot be
 * (`outOfVolts` says why). 25 C; a cold set reads a little low.
 */
export function levelFromVolts(reading: Reading, battery: Battery): Level | null {
  const measured = measuredOf(reading, battery);
  if (!measured) return null;
  const facts = factsOf(battery.chemistry);
  const restedMin = reading.restedMin ?? REST_UNKNOWN_MIN;
  const curves = restedCurves(battery.chemistry);
  const ends = curves.flatMap((curve) => [cellVAt(curve, 0), cellVAt(curve, 1)]);
  // Just off the charger a cell stands above its curve: full. Below the curve: empty.
  const cellV = clamp(measured.cellV, Math.min(...ends), Math.max(...ends));
  const level = levelOf(weightsOf(curves, cellV, doubtV(measured, facts, restedMin)));
  const flat = level.share > facts.flat[0] && level.share < facts.flat[1];
  if (level.sdShare <= facts.usableSd && !flat) return { ...level, usable: true };
  return { ...level, usable: false, why: !flat && restedMin < facts.neededMin ? "notRested" : "voltsSayLittle" };
}

/** Part of what a cell still has to settle that differs from look to look; the rest is the same every evening. Common practice, no source. */
const SETTLES_ANEW = 0.5;

/**
 * A lead-acid set's rested volts as a share of the way from empty to full on the deep-cycle table, carried on beyond 0 and 1: for one gauge looked at
 * every day, whose meter and whose own curve err the same way each time and are learned. `sdShare` is what differs from look to look (rounding,
 * rest). Null for lithium, whose curve is too flat for it, and for volts of another set. Published tables agree on full and differ by up to 0.15 V a
 * 12 V block, 11 % of the charge, at the low end (shared/reference/battery/lead-acid-rest-tables).
 */
export function shareByVolts(reading: Reading, battery: Battery): Pick<Level, "share" | "sdShare"> | null {
  const measured = battery.chemistry === "lfp" ? null : measuredOf(reading, battery);
  const table = restedCurves(battery.chemistry)[0];
  if (!measured || !table) return null;
  const { settleV, settleMin, leftV } = LEAD;
  const settling = SETTLES_ANEW * settleV * Math.exp(-(reading.restedMin ?? REST_UNKNOWN_MIN) / settleMin);
  const [emptyV, fullV] = [cellVAt(table, 0), cellVAt(table, 1)];
  const within = clamp(measured.cellV, emptyV, fullV);
  return {
    share: interpolate(table.cellV, table.shares, within) + (measured.cellV - within) / (fullV - emptyV),
    sdShare: Math.hypot(ROUND_V / measured.cells, settling, leftV) / (fullV - emptyV),
  };
}
