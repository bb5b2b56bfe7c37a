import { bad, good, type Outcome } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import { valueOn } from "./dated.js";
import type { DayLine, Terms } from "./day-line.js";
import { FUELS } from "./fuel.js";
import { type Doubts, USUAL_DOUBTS } from "./payback.js";
import type { YearTerms } from "./saving.js";
import { addSums, type Sums } from "./sums.js";
import { meanUnitPrice } from "./tariff.js";

/** What the owner says about the years to come; null is taken from the book. */
export interface YearWish {
  readonly workDaysPerYear: number;
  readonly kmPerDay: number | null;
  readonly batteryWhPerKm: number | null;
  readonly sunShare: number | null;
  readonly setLifeYears: number;
  readonly fixedPerYear: number;
}
export interface YearFromBook {
  readonly terms: YearTerms;
  readonly doubts: Doubts;
  /** Counted working days the figures rest on. */
  readonly days: number;
}

/** Counted working days below which the figures of a year are called a guess: as for every other default of the app. */
export const LEARNED_DAYS = 10;

/**
 * The years to come as the book, the prices of `date` and the owner's wishes tell them. Problems: `baselineMissing`, `fuelPriceMissing`,
 * `setCostMissing`, `powerPriceMissing`, `noDays` (nothing to take km or units per km from).
 */
export function yearFromBook(
  lines: readonly DayLine[],
  terms: Terms,
  wish: YearWish,
  date: CivilDate,
): Outcome<YearFromBook> {
  const currency = valueOn(terms.currency, date);
  const worked = lines.filter((line) => line.counted && line.currency === currency && line.sums.distanceM > 0);
  const sums = addSums(lines.filter((line) => line.counted && line.currency === currency).map((line) => line.sums));
  const use = energyUse(sums, terms.gridToBatteryEfficiency);
  const baseline = valueOn(terms.baseline, date);
  const fuelPrice = baseline ? valueOn(terms.fuelPrice[baseline.fuel] ?? [], date) : null;
  const set = valueOn(terms.set, date);
  const kmPerDay = wish.kmPerDay ?? (worked.length > 0 ? sums.distanceM / 1000 / worked.length : null);
  const batteryWhPerKm = wish.batteryWhPerKm ?? use?.batteryWhPerKm ?? null;
  const tariffPerKwh = unitPrice(sums, terms, date);
  if (!baseline) return bad({ code: "baselineMissing", where: "baseline" });
  if (!fuelPrice) return bad({ code: "fuelPriceMissing", where: `prices.${baseline.fuel}` });
  if (!set) return bad({ code: "setCostMissing", where: "setCost" });
  if (tariffPerKwh === null) return bad({ code: "powerPriceMissing", where: "prices.power" });
  if (kmPerDay === null || batteryWhPerKm === null) return bad({ code: "noDays", where: "days" });
  const { netHeatMjKg, co2KgPerTj, densityKgL } = FUELS[baseline.fuel];
  return good({
    days: worked.length,
    doubts: doubtsOf(worked, baseline.doubtShare),
    terms: {
      kmPerDay,
      workDaysPerYear: wish.workDaysPerYear,
      fuel: { netHeatMjKg, co2KgPerTj, densityKgL },
      fuelPer100Km: baseline.per100Km,
      fuelPricePerUnit: fuelPrice.perUnitMinor,
      batteryWhPerKm,
      sunShare: wish.sunShare ?? use?.sunShare ?? 0,
      gridToBatteryEfficiency: terms.gridToBatteryEfficiency,
      tariffPerKwh,
      gridKgPerKwh: valueOn(terms.grid, date)?.co2KgPerKwh ?? null,
      fuelUpkeepPerKm: baseline.upkeepPerKmMinor,
      electricUpkeepPerKm: valueOn(terms.upkeepNow, date)?.perUnitMinor ?? 0,
      setPrice: set.priceMinor,
      setScrap: set.scrapMinor,
      setLifeKm: set.lifeKm,
      setLifeYears: wish.setLifeYears,
      fixedPerYear: wish.fixedPerYear,
    },
  });
}

/** Energy into the set per km and the sun's share of it; null without km or units. */
export function energyUse(sums: Sums, gridToBatteryEfficiency: number) {
  const sunWh = sums.sunWh + sums.sunGuessWh;
  const batteryWh = (sums.gridWh + sums.gridGuessWh) * gridToBatteryEfficiency + sunWh;
  if (sums.distanceM <= 0 || batteryWh <= 0) return null;
  return { batteryWhPerKm: batteryWh / (sums.distanceM / 1000), sunShare: sunWh / batteryWh };
}

/** What a unit really cost, fees and bands in it; the tariff's mean where no units were read. */
function unitPrice(sums: Sums, terms: Terms, date: CivilDate): number | null {
  const wh = sums.gridWh + sums.gridGuessWh;
  if (wh > 0) return (sums.power / wh) * 1000;
  const tariff = valueOn(terms.tariff, date);
  return tariff ? meanUnitPrice(tariff) : null;
}

/** Doubts of a mean shrink with the days behind it, down to what the way of measuring leaves; before ten days the usual ones hold. */
function doubtsOf(worked: readonly DayLine[], baselineDoubt: number): Doubts {
  const doubts = { ...USUAL_DOUBTS, fuelPer100Km: baselineDoubt };
  if (worked.length < LEARNED_DAYS) return doubts;
  const km = worked.map((line) => line.sums.distanceM);
  const whPerKm = worked.map(
    (line) => (line.sums.gridWh + line.sums.gridGuessWh + line.sums.sunWh + line.sums.sunGuessWh) / line.sums.distanceM,
  );
  return {
    ...doubts,
    kmPerDay: Math.max(MEASURE_DOUBT, doubtOfMean(km)),
    batteryWhPerKm: Math.max(MEASURE_DOUBT, doubtOfMean(whPerKm)),
  };
}
/** Least doubt of km and units, from odometers and meters: common practice, no source. */
const MEASURE_DOUBT = 0.02;

/** Standard error of the mean, relative to it. Source: sample standard deviation over the square root of the count. */
function doubtOfMean(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return mean > 0 ? Math.sqrt(squares / (values.length - 1) / values.length) / mean : 0;
}
