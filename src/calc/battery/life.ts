import { type CivilDate, plusDays } from "../../units/zone.js";
import { cyclesAtDepth, type LifeCurve, lfpPrismaticLoss, minerSum } from "./ageing.js";
import { type Cycle, fullCycles, rainflow } from "./rainflow.js";
import type { Battery, Chemistry } from "./types.js";

/** Low, likely and high. */
export interface Span {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** How a set is worked, day after day. */
export interface SetUse {
  /** Levels of a usual day in order, shares of the usable charge; the next day begins where this one did. */
  readonly levels: readonly number[];
  /** Mean over the year. */
  readonly cellC: number;
  /** Charging current over capacity, 1/h. */
  readonly chargeRatePerH: number;
  /** Days from one full charge to the next; null when not known. */
  readonly daysBetweenFull: number | null;
  readonly kmPerDay: number;
}

export interface SetLife {
  /** From new to the end. */
  readonly lifeDays: Span;
  readonly lifeKm: Span;
  /** From the health of today. */
  readonly leftDays: Span;
  /** Share of the rated capacity lost in a day, now. */
  readonly fadePerDay: Span;
  readonly replaceOn: { readonly early: CivilDate; readonly likely: CivilDate; readonly late: CivilDate };
}

/** End of life: the published lives count to 80 % of the rated capacity. */
export const END_OF_LIFE = 0.8;
const LONGEST_DAYS = 20 * 365;
/** Searched beyond that, so that what is left of a slowly fading set is not cut short by its age. */
const SEARCHED_DAYS = 10 * LONGEST_DAYS;

/**
 * Cycles to 80 % capacity by depth. Flooded: average of golf-cart blocks in field use (750 at 50 %, 225 at 80 %; deep-cycle FAQ 7.5), at best the curves of
 * quality data sheets (from memory), at worst the 6 months of e-rickshaw sets in service (from memory; daily 80 %).
 * Sealed: N. Calder's conservative AGM figures, at best the same data sheets.
 */
const DATA_SHEET: LifeCurve = [
  [0.2, 3000],
  [0.3, 2000],
  [0.5, 1100],
  [0.8, 650],
];
const FIELD_FLOODED: LifeCurve = [
  [0.5, 750],
  [0.8, 225],
];
/** A fifth fewer than that. */
const IN_SERVICE_FLOODED: LifeCurve = [
  [0.5, 600],
  [0.8, 180],
];
const CAUTIOUS_SEALED: LifeCurve = [
  [0.1, 3100],
  [0.25, 925],
  [0.5, 370],
  [0.8, 200],
  [1, 150],
];
const betweenCurves = (a: LifeCurve, b: LifeCurve): LifeCurve =>
  [0.2, 0.3, 0.5, 0.8, 1].map(
    (depth) => [depth, Math.sqrt(cyclesAtDepth(a, depth) * cyclesAtDepth(b, depth))] as const,
  );
/** Worked out on call, so that a bundle without lives leaves it out. */
const leadLives = (chemistry: Chemistry): { low: LifeCurve; likely: LifeCurve; high: LifeCurve } =>
  chemistry === "floodedLead"
    ? { low: IN_SERVICE_FLOODED, likely: FIELD_FLOODED, high: DATA_SHEET }
    : { low: CAUTIOUS_SEALED, likely: betweenCurves(CAUTIOUS_SEALED, DATA_SHEET), high: DATA_SHEET };
/** Years a set lasts that hardly works, at 25 C (common practice, no source). */
const LEAD_SHELF_YEARS: Span = { low: 2, likely: 4, high: 6 };

/** Lead-acid life halves with every 10 K above 25 C (from memory; 8.3 K in some texts); cooler is not counted in its favour. */
export const leadHeatFactor = (cellC: number): number => 2 ** (Math.max(0, cellC - 25) / 10);
/** Sets seldom filled sulphate: half as much wear again at a full charge a month, nothing up to a week (common practice, no source). */
const thirstFactor = (daysBetweenFull: number | null): number =>
  1 + 0.5 * Math.min(1, Math.max(0, ((daysBetweenFull ?? 7) - 7) / 23));

/** Cycles of a day that repeats: counted from its highest level, so that all of them close. */
export function cyclesOfDay(levels: readonly number[]): readonly Cycle[] {
  if (levels.length === 0) return [];
  const top = levels.indexOf(Math.max(...levels));
  const fromTop = [...levels.slice(top), ...levels.slice(0, top), levels[top] as number];
  return rainflow(fromTop).filter((cycle) => cycle.range > 1e-6);
}

/** Loss of capacity over days: share of the rated one. */
type Loss = (days: number) => number;

function leadLoss(chemistry: "floodedLead" | "sealedLead", use: SetUse, of: keyof Span): Loss {
  const cycles = cyclesOfDay(use.levels).map(({ range, count }) => [range, count] as const);
  const worked = minerSum(leadLives(chemistry)[of], cycles) * thirstFactor(use.daysBetweenFull);
  const shelf = 1 / (365 * LEAD_SHELF_YEARS[of]);
  const perDay = Math.max(worked, shelf) * leadHeatFactor(use.cellC) * (1 - END_OF_LIFE);
  return (days) => perDay * days;
}

/** A plausible estimate lies within a factor of 2 of the model. */
const LFP_DOUBT: Span = { low: 2, likely: 1, high: 0.5 };
function lfpLoss(use: SetUse, of: keyof Span): Loss {
  const cycles = cyclesOfDay(use.levels);
  const perDay = fullCycles(cycles);
  const depth =
    perDay > 0 ? fullCycles(cycles.map((each) => ({ ...each, count: each.count * each.range }))) / perDay : 0;
  const meanShare = use.levels.reduce((all, level) => all + level, 0) / Math.max(1, use.levels.length);
  const cellC = Math.min(45, Math.max(10, use.cellC));
  const cyclesPerDay = depth > 0 ? perDay / depth : 0;
  const kept = { cellC, meanShare, depth, cRate: Math.min(0.65, use.chargeRatePerH), cyclesPerDay };
  return (days) => LFP_DOUBT[of] * lfpPrismaticLoss(kept, days).totalLoss;
}

const lossOf = (chemistry: Chemistry, use: SetUse, of: keyof Span): Loss =>
  chemistry === "lfp" ? lfpLoss(use, of) : leadLoss(chemistry, use, of);

/** Days until a rising loss reaches a share, as far as is searched. */
function daysUntil(loss: Loss, share: number): number {
  if (share <= 0) return 0;
  if (loss(SEARCHED_DAYS) < share) return SEARCHED_DAYS;
  let low = 0;
  let high = SEARCHED_DAYS;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (loss(middle) < share) low = middle;
    else high = middle;
  }
  return high;
}

const spanOf = (of: (edge: keyof Span) => number): Span => ({ low: of("low"), likely: of("likely"), high: of("high") });

/**
 * How long a set lasts in this use, and when it will have to be replaced, with a band: `low` is the short life.
 * Lead-acid: Palmgren-Miner over rainflow cycles, heat and days not filled, fading evenly. LFP: calendar and cycles of a large prismatic cell, within a
 * factor of 2; both at most twenty years. Assumes that the use stays as it is; `untilHealth` 0..1 is where the owner gives up.
 */
export function setLife(
  battery: Battery,
  use: SetUse,
  at: { readonly today: CivilDate; readonly untilHealth?: number },
): SetLife {
  const until = at.untilHealth ?? END_OF_LIFE;
  const losses = {
    low: lossOf(battery.chemistry, use, "low"),
    likely: lossOf(battery.chemistry, use, "likely"),
    high: lossOf(battery.chemistry, use, "high"),
  };
  const age = spanOf((edge) => daysUntil(losses[edge], 1 - battery.health));
  const whole = spanOf((edge) => daysUntil(losses[edge], 1 - until));
  const lifeDays = spanOf((edge) => Math.min(LONGEST_DAYS, whole[edge]));
  const leftDays = spanOf((edge) => Math.min(LONGEST_DAYS, Math.max(0, whole[edge] - age[edge])));
  const fade = (edge: keyof Span) => (losses[edge](age[edge] + 30) - losses[edge](age[edge])) / 30;
  const on = (days: number) => plusDays(at.today, Math.round(days));
  return {
    lifeDays,
    lifeKm: spanOf((edge) => lifeDays[edge] * use.kmPerDay),
    leftDays,
    fadePerDay: { low: fade("high"), likely: fade("likely"), high: fade("low") },
    replaceOn: { early: on(leftDays.low), likely: on(leftDays.likely), late: on(leftDays.high) },
  };
}
