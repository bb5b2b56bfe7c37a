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

/** Adds one set of sums into another, in place: the months of a fleet are added thousands at a time. */
export function addInto(total: MutableSums, part: Sums, times: 1 | -1 = 1): void {
  for (const field of SUM_FIELDS) total[field] += times * part[field];
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
