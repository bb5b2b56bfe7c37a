import type { Minor } from "./minor.js";

/**
 * Everything of a day, a month or a fleet that adds up, in whole numbers: days, metres, Wh, millilitres, grams and smallest coins of one
 * currency. A day is "counted" when its km and its charging cost are both known; only counted days stand in the comparison with fuel.
 * Fixed costs run on every day, worked or not, written or not.
 */
export interface Sums {
  readonly days: number;
  readonly workedDays: number;
  readonly restDays: number;
  readonly offRoadDays: number;
  readonly missingDays: number;
  readonly countedDays: number;
  /** Written days that lack a price, the km or the units, so that they cannot be counted. */
  readonly openDays: number;
  /** Counted days whose figures were filled in at the owner's wish. */
  readonly filledDays: number;
  readonly distanceM: number;
  /** Metres of open days, left out of `distanceM`. */
  readonly openM: number;
  readonly gridWh: number;
  readonly gridGuessWh: number;
  readonly sunWh: number;
  readonly sunGuessWh: number;
  readonly fuelMl: number;
  /** Fuel sold by the kilogram. */
  readonly fuelG: number;
  readonly fuelThen: Minor;
  readonly upkeepThen: Minor;
  readonly power: Minor;
  readonly upkeepNow: Minor;
  readonly setAside: Minor;
  readonly instalment: Minor;
  readonly rent: Minor;
  readonly insurance: Minor;
  readonly otherFixed: Minor;
  /** Low and high guess of the two lines, beside the likely ones of `energyOnly` and `allIn`. */
  readonly energyLow: Minor;
  readonly energyHigh: Minor;
  readonly allInLow: Minor;
  readonly allInHigh: Minor;
  /** What the sun's units would have cost at the socket, on days with a price per unit. */
  readonly sunWorth: Minor;
  readonly fuelCo2G: number;
  readonly gridCo2G: number;
  /** Counted days with a carbon figure on both sides. */
  readonly carbonDays: number;
}

export const NO_SUMS: Sums = {
  days: 0,
  workedDays: 0,
  restDays: 0,
  offRoadDays: 0,
  missingDays: 0,
  countedDays: 0,
  openDays: 0,
  filledDays: 0,
  distanceM: 0,
  openM: 0,
  gridWh: 0,
  gridGuessWh: 0,
  sunWh: 0,
  sunGuessWh: 0,
  fuelMl: 0,
  fuelG: 0,
  fuelThen: 0,
  upkeepThen: 0,
  power: 0,
  upkeepNow: 0,
  setAside: 0,
  instalment: 0,
  rent: 0,
  insurance: 0,
  otherFixed: 0,
  energyLow: 0,
  energyHigh: 0,
  allInLow: 0,
  allInHigh: 0,
  sunWorth: 0,
  fuelCo2G: 0,
  gridCo2G: 0,
  carbonDays: 0,
};
export type SumField = keyof Sums;
export const SUM_FIELDS = Object.keys(NO_SUMS) as readonly SumField[];

export type MutableSums = { -readonly [Field in SumField]: number };

/**
 * Adds one set of sums into another, in place. Written out field by field: the months of a fleet are added by tens of thousands, and a loop
 * over the names takes many times as long. The tests see that no field is left out.
 */
export function addInto(total: MutableSums, part: Sums, times: 1 | -1 = 1): void {
  total.days += times * part.days;
  total.workedDays += times * part.workedDays;
  total.restDays += times * part.restDays;
  total.offRoadDays += times * part.offRoadDays;
  total.missingDays += times * part.missingDays;
  total.countedDays += times * part.countedDays;
  total.openDays += times * part.openDays;
  total.filledDays += times * part.filledDays;
  total.distanceM += times * part.distanceM;
  total.openM += times * part.openM;
  total.gridWh += times * part.gridWh;
  total.gridGuessWh += times * part.gridGuessWh;
  total.sunWh += times * part.sunWh;
  total.sunGuessWh += times * part.sunGuessWh;
  total.fuelMl += times * part.fuelMl;
  total.fuelG += times * part.fuelG;
  total.fuelThen += times * part.fuelThen;
  total.upkeepThen += times * part.upkeepThen;
  total.power += times * part.power;
  total.upkeepNow += times * part.upkeepNow;
  total.setAside += times * part.setAside;
  total.instalment += times * part.instalment;
  total.rent += times * part.rent;
  total.insurance += times * part.insurance;
  total.otherFixed += times * part.otherFixed;
  total.energyLow += times * part.energyLow;
  total.energyHigh += times * part.energyHigh;
  total.allInLow += times * part.allInLow;
  total.allInHigh += times * part.allInHigh;
  total.sunWorth += times * part.sunWorth;
  total.fuelCo2G += times * part.fuelCo2G;
  total.gridCo2G += times * part.gridCo2G;
  total.carbonDays += times * part.carbonDays;
}

export function addSums(parts: Iterable<Sums>): Sums {
  const total: MutableSums = { ...NO_SUMS };
  for (const part of parts) addInto(total, part);
  return total;
}

/** Fuel then, less power now: the first of the two lines. */
export const energyOnly = (sums: Sums): Minor => sums.fuelThen - sums.power;
export const fixedCosts = (sums: Sums): Minor => sums.instalment + sums.rent + sums.insurance + sums.otherFixed;
/** The second line: upkeep, the set put aside and the fixed costs with it. */
export const allIn = (sums: Sums): Minor =>
  energyOnly(sums) + sums.upkeepThen - sums.upkeepNow - sums.setAside - fixedCosts(sums);
