import type { CivilDate } from "../../units/zone.js";
import { dayNumber } from "./calendar.js";
import { type Dated, type Price, valueOn } from "./dated.js";
import { costOnDay, type DayCost, dayCosts, type FixedCost } from "./fixed.js";
import { FUELS, type Fuel, fuelBurnt, type GridFactor, gridCo2Kg } from "./fuel.js";
import { toMinor } from "./minor.js";
import { roofWorth } from "./saving.js";
import { fixedCosts, type MutableSums, NO_SUMS, type Sums } from "./sums.js";
import { type Charge, chargeCost, meanUnitPrice, type Tariff } from "./tariff.js";

/** How the km of a day came about, with the doubt that goes with it as a share: common practice, no source. */
export const KM_DOUBT = { odometer: 0.02, typed: 0.05, trips: 0.15, filled: 0.25 } as const;
export type KmHow = keyof typeof KM_DOUBT;

/** A day of one vehicle as the log tells it. Null is not known, never nothing. */
export interface DayLog {
  readonly date: CivilDate;
  readonly state: "worked" | "rest" | "offRoad" | "missing";
  readonly km: number | null;
  readonly kmHow: KmHow;
  /** Plug-ins of the day; empty when there was none, null when nobody wrote whether there was. */
  readonly charges: readonly Charge[] | null;
  /** Units the roof brought into the set. */
  readonly sun: { readonly kwh: number; readonly how: "measured" | "estimated" } | null;
  /** True for figures filled in at the owner's wish. */
  readonly filled?: boolean;
}

/** The vehicle that was replaced, as its owner states it. */
export interface Baseline {
  readonly fuel: Fuel;
  /** Litres or kilograms, as the fuel is sold, per 100 km. */
  readonly per100Km: number;
  /** Doubt of that figure as a share: receipts 0.05, from memory 0.15, a guess by class 0.3 (common practice, no source). */
  readonly doubtShare: number;
  readonly upkeepPerKmMinor: number;
}
export const BASELINE_DOUBT = { receipts: 0.05, memory: 0.15, guess: 0.3 } as const;

/** The battery set to be replaced one day. */
export interface SetCost {
  readonly priceMinor: number;
  readonly scrapMinor: number;
  readonly lifeKmLow: number;
  readonly lifeKm: number;
  readonly lifeKmHigh: number;
  readonly currency: string;
}

/** All that holds for a vehicle beside its log; every history in the order of `inOrder`. */
export interface Terms {
  readonly currency: readonly Dated<string>[];
  readonly baseline: readonly Dated<Baseline>[];
  readonly fuelPrice: Readonly<Partial<Record<Fuel, readonly Dated<Price>[]>>>;
  readonly tariff: readonly Dated<Tariff>[];
  readonly upkeepNow: readonly Dated<Price>[];
  readonly set: readonly Dated<SetCost>[];
  readonly fixed: readonly FixedCost[];
  readonly grid: readonly Dated<GridFactor>[];
  /** Energy into the set over energy at the meter, 0..1; for the worth of the sun's units. */
  readonly gridToBatteryEfficiency: number;
}

/** Why a written day is not counted, or a part of it left out. */
export type Gap =
  | "kmMissing"
  | "chargeMissing"
  | "baselineMissing"
  | "fuelPriceMissing"
  | "fuelPriceZero"
  | "tariffMissing"
  | "setCostMissing"
  | "otherCurrency"
  | "currencyMissing";

export interface DayLine {
  readonly date: CivilDate;
  /** ISO 4217, empty when none is known on the day. */
  readonly currency: string;
  readonly state: DayLog["state"];
  readonly counted: boolean;
  readonly gaps: readonly Gap[];
  readonly sums: Sums;
}

const rel = (...shares: readonly number[]): number => Math.sqrt(shares.reduce((sum, share) => sum + share * share, 0));

/**
 * One line of the book: what fuel would have cost on the day's km, what power did cost, and all that goes with it.
 * The baseline is the one that held on the day, and so is every price. Low and high take doubts as leaning the same way every day,
 * so that they too add up; the true doubt of a month is smaller. `given`: the fixed costs of the days around, when they are at hand.
 */
export function dayLine(log: DayLog, terms: Terms, given: readonly DayCost[] | null = null): DayLine {
  const fixed = given ?? dayCosts(terms.fixed, log.date, log.date);
  const currency = valueOn(terms.currency, log.date);
  const sums: MutableSums = { ...NO_SUMS, days: 1, [DAY_COUNT[log.state]]: 1 };
  const gaps: Gap[] = [];
  if (currency === null) gaps.push("currencyMissing");
  else if (fixed.length > 0) addFixed(sums, { fixed, currency, day: dayNumber(log.date), gaps });
  const counted = log.state !== "missing" && currency !== null && compare(sums, { log, terms, currency, gaps });
  if (log.state !== "missing") sums[counted ? "countedDays" : "openDays"] = 1;
  if (counted && log.filled) sums.filledDays = 1;
  if (!counted) {
    sums.openM = Math.round((log.km ?? 0) * 1000);
    sums.allInLow = sums.allInHigh = -fixedCosts(sums);
  }
  return { date: log.date, currency: currency ?? "", state: log.state, counted, gaps, sums };
}
const DAY_COUNT = { worked: "workedDays", rest: "restDays", offRoad: "offRoadDays", missing: "missingDays" } as const;

function addFixed(
  sums: MutableSums,
  at: { readonly fixed: readonly DayCost[]; readonly currency: string; readonly day: number; readonly gaps: Gap[] },
): void {
  for (const cost of at.fixed) {
    const minor = costOnDay(cost, at.day);
    if (minor === 0) continue;
    if (cost.currency === at.currency) sums[cost.kind] += minor;
    else if (!at.gaps.includes("otherCurrency")) at.gaps.push("otherCurrency");
  }
}

interface Work {
  readonly log: DayLog;
  readonly terms: Terms;
  readonly currency: string;
  readonly gaps: Gap[];
}

/** Fills in fuel against power; false, with the reasons in `gaps` and nothing filled in, when one side is not known. */
function compare(sums: MutableSums, work: Work): boolean {
  const fuel = fuelSide(work);
  const power = powerSide(work);
  if (!fuel || !power) return false;
  Object.assign(sums, fuel.add, power.add);
  addSun(sums, work);
  const upkeepNow = priceOn(work.terms.upkeepNow, work);
  sums.upkeepNow = toMinor(fuel.km * (upkeepNow ?? 0));
  const set = setAside(work, fuel.km);
  sums.setAside = set.likely;
  addCarbon(sums, work, fuel.co2Kg);
  sums.energyLow = fuel.low - power.high;
  sums.energyHigh = fuel.high - power.low;
  const steady = sums.upkeepThen - sums.upkeepNow - fixedCosts(sums);
  sums.allInLow = sums.energyLow + steady - set.high;
  sums.allInHigh = sums.energyHigh + steady - set.low;
  return true;
}

function fuelSide({ log, terms, currency, gaps }: Work) {
  const km = log.km ?? (log.state === "worked" ? null : 0);
  const baseline = valueOn(terms.baseline, log.date);
  if (km === 0) return NO_ROAD;
  if (km === null) gaps.push("kmMissing");
  if (!baseline) gaps.push("baselineMissing");
  if (km === null || !baseline) return null;
  const price = valueOn(terms.fuelPrice[baseline.fuel] ?? [], log.date);
  const why = !price ? "fuelPriceMissing" : price.currency !== currency ? "otherCurrency" : "fuelPriceZero";
  if (!price || price.currency !== currency || price.perUnitMinor <= 0) {
    gaps.push(why);
    return null;
  }
  const quantity = (km * baseline.per100Km) / 100;
  const cost = quantity * price.perUnitMinor;
  const doubt = rel(KM_DOUBT[log.kmHow], baseline.doubtShare);
  const { soldBy } = FUELS[baseline.fuel];
  const amount = Math.round(quantity * 1000);
  return {
    km,
    low: toMinor(cost * Math.max(0, 1 - doubt)),
    high: toMinor(cost * (1 + doubt)),
    co2Kg: fuelBurnt(FUELS[baseline.fuel], quantity, soldBy).co2Kg,
    add: {
      distanceM: Math.round(km * 1000),
      fuelThen: toMinor(cost),
      upkeepThen: toMinor(km * baseline.upkeepPerKmMinor),
      ...(soldBy === "l" ? { fuelMl: amount } : { fuelG: amount }),
    },
  };
}

// A day without road needs no baseline and no price of fuel.
const NO_ROAD = { km: 0, low: 0, high: 0, co2Kg: 0, add: {} } as const;

function powerSide({ log, terms, currency, gaps }: Work) {
  const charges = log.charges ?? (log.state === "worked" ? null : []);
  if (charges === null) {
    gaps.push("chargeMissing");
    return null;
  }
  const tariff = valueOn(terms.tariff, log.date);
  const usable = tariff?.currency === currency ? tariff : null;
  let [low, likely, high, gridWh, gridGuessWh] = [0, 0, 0, 0, 0];
  for (const charge of charges) {
    const cost = chargeCost(charge, usable);
    if (cost === null) {
      gaps.push(charge.kwh === null ? "chargeMissing" : tariff && !usable ? "otherCurrency" : "tariffMissing");
      return null;
    }
    low += cost.lowMinor;
    likely += cost.likelyMinor;
    high += cost.highMinor;
    const wh = Math.round((charge.kwh ?? 0) * 1000);
    if (charge.kwhHow === "meter") gridWh += wh;
    else gridGuessWh += wh;
  }
  return { low, high, add: { power: likely, gridWh, gridGuessWh } };
}

function addSun(sums: MutableSums, { log, terms, currency }: Work): void {
  if (!log.sun) return;
  sums[log.sun.how === "measured" ? "sunWh" : "sunGuessWh"] = Math.round(log.sun.kwh * 1000);
  const tariff = valueOn(terms.tariff, log.date);
  const tariffPerKwh = tariff && tariff.currency === currency ? meanUnitPrice(tariff) : null;
  if (tariffPerKwh === null) return;
  const units = { sunKwh: log.sun.kwh, gridToBatteryEfficiency: terms.gridToBatteryEfficiency, tariffPerKwh };
  sums.sunWorth = toMinor(roofWorth(units).worth);
}

function setAside({ log, terms, currency, gaps }: Work, km: number) {
  const set = valueOn(terms.set, log.date);
  if (set && set.currency === currency) {
    const worth = (set.priceMinor - set.scrapMinor) * km;
    const over = (lifeKm: number) => toMinor(worth / lifeKm);
    return { low: over(set.lifeKmHigh), likely: over(set.lifeKm), high: over(set.lifeKmLow) };
  }
  gaps.push(set ? "otherCurrency" : "setCostMissing");
  return { low: 0, likely: 0, high: 0 };
}

function priceOn(history: readonly Dated<Price>[], { log, currency, gaps }: Work): number | null {
  const price = valueOn(history, log.date);
  if (price && price.currency !== currency) gaps.push("otherCurrency");
  return price && price.currency === currency ? price.perUnitMinor : null;
}

function addCarbon(sums: MutableSums, { log, terms }: Work, fuelCo2Kg: number | null): void {
  const grid = valueOn(terms.grid, log.date);
  const unitsKnown = (log.charges ?? []).every((charge) => charge.kwh !== null);
  if (!grid || fuelCo2Kg === null || !unitsKnown) return;
  sums.fuelCo2G = Math.round(fuelCo2Kg * 1000);
  sums.gridCo2G = Math.round(gridCo2Kg((sums.gridWh + sums.gridGuessWh) / 1000, grid) * 1000);
  sums.carbonDays = 1;
}
