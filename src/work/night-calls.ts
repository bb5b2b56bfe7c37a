import type { Plan, Score } from "../calc/yard/night.js";
import { type Bounds, planNight } from "../calc/yard/plan-night.js";
import { type WalkedPlan, walkPlan } from "../calc/yard/walk-plan.js";
import { type WhyShort, type WhyThen, whyShort, whyThen } from "../calc/yard/why.js";
import { type NightCase, type NightLayout, nightLayoutOf } from "../records/map/night.js";
import { shareAtKwh } from "../records/map/night-plan.js";
import { seedOf } from "../units/dice.js";
import { good, type Outcome } from "../units/outcome.js";

/** A plan with everything the screens say of it. */
export interface NightShown {
  readonly layout: NightLayout;
  readonly plan: Plan;
  readonly score: Score;
  /** What no plan can go below; the money among plans that leave equally few short. */
  readonly proof: Bounds;
  readonly walked: WalkedPlan;
  /** By stay: why it ends short, or why it is plugged in when it is. */
  readonly short: Readonly<Record<string, WhyShort>>;
  readonly then: Readonly<Record<string, WhyThen>>;
  /** From quick forecasts of many vehicles: to be looked at until the real plan comes, not to be followed. */
  readonly rough: boolean;
}

export interface NightAsk {
  readonly given: NightCase;
  /** Milliseconds spent on bettering the first plan. */
  readonly budgetMs: number;
}

export interface NightHears {
  /** How far the forecasts are, 0..1. */
  readonly onShare: (share: number) => void;
  /** A first plan, then only better ones. */
  readonly onBetter: (shown: NightShown) => void;
  readonly cancelled?: () => boolean;
}

/** From so many vehicles on a first look from quick forecasts is shown while the forecasts are worked out. */
const MANY = 120;
/** Days drawn for a quick forecast: enough to see who is far short. */
const ROUGH_DRAWS = 6;
/** Share of all forecasting that the quick forecasts take; measured, about a third. */
const ROUGH_SHARE = 0.3;

/** Tells of whole percents only: each telling draws the screen anew. */
function byPercent(onShare: (share: number) => void): (share: number) => void {
  let told = -1;
  return (share) => {
    const percent = Math.floor(100 * share);
    if (percent === told) return;
    told = percent;
    onShare(share);
  };
}

/** The hears of the real forecasts, after a first look where there are many vehicles. */
function afterFirstLook(given: NightCase, hears: NightHears): NightHears {
  if (given.vehicles.length < MANY) return hears;
  const laid = nightLayoutOf({ ...given, draws: ROUGH_DRAWS }, (share) => hears.onShare(ROUGH_SHARE * share));
  if (laid.ok) hears.onBetter(planLaid(laid.value, { budgetMs: 0, rough: true }, { ...hears, onBetter: () => {} }));
  return { ...hears, onShare: (share) => hears.onShare(ROUGH_SHARE + (1 - ROUGH_SHARE) * share) };
}

/**
 * Lays the night out and plans it; the last plan heard is the answer. Where a midday visit ends short, the night after it begins lower: it
 * is laid out and planned once more.
 */
export function planYard({ given, budgetMs }: NightAsk, hearing: NightHears): Outcome<NightShown> {
  const hears = afterFirstLook(given, { ...hearing, onShare: byPercent(hearing.onShare) });
  const laid = nightLayoutOf(given, hears.onShare);
  if (!laid.ok) return laid;
  const shown = planLaid(laid.value, { budgetMs, rough: false }, hears);
  const leftAt = endsEarly(shown);
  if (Object.keys(leftAt).length === 0 || hears.cancelled?.()) return good(shown);
  const lower = nightLayoutOf({ ...given, leftAt });
  return lower.ok ? good(planLaid(lower.value, { budgetMs, rough: false }, hears)) : lower;
}

/** Short visits that another visit of the same vehicle follows, with the level they end at. */
function endsEarly({ layout, walked }: NightShown): Record<string, number> {
  const last = new Map(layout.about.map((one) => [one.vehicleId, one.stayId]));
  const outcomes = new Map(walked.outcomes.map((one) => [one.stay.id, one]));
  return Object.fromEntries(
    layout.about.flatMap((about) => {
      const outcome = outcomes.get(about.stayId);
      if (!outcome?.short || last.get(about.vehicleId) === about.stayId) return [];
      return [[about.stayId, shareAtKwh(about, outcome.departKwh)]];
    }),
  );
}

interface Planning {
  readonly budgetMs: number;
  readonly rough: boolean;
}

function planLaid(layout: NightLayout, { budgetMs, rough }: Planning, hears: NightHears): NightShown {
  const result = planNight(layout.night, {
    seed: seedOf(layout.night.id),
    clockMs: () => performance.now(),
    budgetMs,
    onBetter: (plan, score, bounds) => hears.onBetter(shownOf(layout, { plan, score, bounds, rough })),
    cancelled: hears.cancelled ?? (() => false),
  });
  const tariffProblems = result.problems.filter(({ where }) => where.startsWith("tariff"));
  return shownOf({ ...layout, problems: [...layout.problems, ...tariffProblems] }, { ...result, rough });
}

interface Planned {
  readonly plan: Plan;
  readonly score: Score;
  readonly bounds: Bounds;
  readonly rough: boolean;
}

function shownOf(layout: NightLayout, { plan, score, bounds, rough }: Planned): NightShown {
  const walked = walkPlan(layout.night, plan);
  const short: Record<string, WhyShort> = {};
  const then: Record<string, WhyThen> = {};
  for (const own of walked.outcomes) {
    const why = whyShort(layout.night, walked, own);
    const when = whyThen(layout.night, walked, own);
    if (why) short[own.stay.id] = why;
    if (when) then[own.stay.id] = when;
  }
  return { layout, plan, score, proof: bounds, walked, short, then, rough };
}
