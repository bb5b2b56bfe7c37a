import { type FuelFacts, fuelBurnt } from "./fuel.js";

/** One vehicle over a stretch of road, told by its rates. Money in any one unit; minor coins in the app. */
export interface SavingTerms {
  readonly km: number;
  readonly fuel: Pick<FuelFacts, "netHeatMjKg" | "co2KgPerTj" | "densityKgL">;
  /** Litres, or kg for gas, per 100 km of the vehicle replaced. */
  readonly fuelPer100Km: number;
  readonly fuelPricePerUnit: number;
  readonly batteryWhPerKm: number;
  /** Share of the energy out of the set that the roof brought, 0..1. */
  readonly sunShare: number;
  /** Energy into the set over energy at the meter, 0..1. */
  readonly gridToBatteryEfficiency: number;
  readonly tariffPerKwh: number;
  /** kg CO2 per kWh, null when no figure with a source was given. */
  readonly gridKgPerKwh: number | null;
  readonly fuelUpkeepPerKm: number;
  readonly electricUpkeepPerKm: number;
}

/**
 * Fuel against power over `km`, unrounded. Costs hold energy and upkeep; the set aside for the next battery is not in them.
 * Gas without a density is counted by the kilogram. Nulls where a figure for carbon is missing.
 */
export function compareFuel(terms: SavingTerms) {
  const fuelQuantity = (terms.km * terms.fuelPer100Km) / 100;
  const batteryKwh = (terms.km * terms.batteryWhPerKm) / 1000;
  const solarKwh = batteryKwh * terms.sunShare;
  const gridKwh = (batteryKwh * (1 - terms.sunShare)) / terms.gridToBatteryEfficiency;
  const fuelCost = fuelQuantity * terms.fuelPricePerUnit + terms.km * terms.fuelUpkeepPerKm;
  const electricCost = gridKwh * terms.tariffPerKwh + terms.km * terms.electricUpkeepPerKm;
  const fuelCo2Kg = fuelBurnt(terms.fuel, fuelQuantity, terms.fuel.densityKgL === null ? "kg" : "l").co2Kg;
  const electricCo2Kg = terms.gridKgPerKwh === null ? null : gridKwh * terms.gridKgPerKwh;
  const savedCo2Kg = fuelCo2Kg === null || electricCo2Kg === null ? null : fuelCo2Kg - electricCo2Kg;
  const saving = fuelCost - electricCost;
  return { fuelQuantity, gridKwh, solarKwh, fuelCost, electricCost, saving, fuelCo2Kg, electricCo2Kg, savedCo2Kg };
}

/** A working year of one vehicle, for what has not happened yet. Money in smallest coins, unrounded. */
export interface YearTerms extends Omit<SavingTerms, "km"> {
  readonly kmPerDay: number;
  readonly workDaysPerYear: number;
  /** The next set, what the old one fetches, and how far and how long one lasts. */
  readonly setPrice: number;
  readonly setScrap: number;
  readonly setLifeKm: number;
  readonly setLifeYears: number;
  /** Yard rent, insurance, papers beyond what the fuel vehicle cost a year. */
  readonly fixedPerYear: number;
}

/** Money of one year, before any instalment. */
export interface YearMoney {
  readonly km: number;
  readonly fuel: number;
  readonly power: number;
  readonly fuelUpkeep: number;
  readonly electricUpkeep: number;
  readonly setAside: number;
  readonly fixed: number;
  /** Fuel less power. */
  readonly energyOnly: number;
  /** The same with upkeep, the set put aside and fixed costs. */
  readonly allIn: number;
}

/** Money put aside per km for the next set: (price - scrap) over the km the set will do, by wear or by age, whichever ends first. */
export function setAsidePerKm(
  terms: Pick<YearTerms, "setPrice" | "setScrap" | "setLifeKm" | "setLifeYears">,
  kmPerYear: number,
): number {
  const km = Math.min(terms.setLifeKm, terms.setLifeYears * kmPerYear);
  return km > 0 ? (terms.setPrice - terms.setScrap) / km : 0;
}

/** A year's money, unrounded. */
export function yearMoney(terms: YearTerms): YearMoney {
  const km = terms.kmPerDay * terms.workDaysPerYear;
  const both = compareFuel({ ...terms, km });
  const fuelUpkeep = km * terms.fuelUpkeepPerKm;
  const electricUpkeep = km * terms.electricUpkeepPerKm;
  const fuel = both.fuelCost - fuelUpkeep;
  const power = both.electricCost - electricUpkeep;
  const setAside = km * setAsidePerKm(terms, km);
  const energyOnly = fuel - power;
  const allIn = energyOnly + fuelUpkeep - electricUpkeep - setAside - terms.fixedPerYear;
  return { km, fuel, power, fuelUpkeep, electricUpkeep, setAside, fixed: terms.fixedPerYear, energyOnly, allIn };
}

/** What the socket would have cost without the roof, and what the roof alone earns: its units over the charging losses, at the price of a unit. */
export function roofWorth(units: {
  readonly sunKwh: number;
  readonly gridToBatteryEfficiency: number;
  readonly tariffPerKwh: number;
}): { readonly socketKwh: number; readonly worth: number } {
  const socketKwh = units.sunKwh / units.gridToBatteryEfficiency;
  return { socketKwh, worth: socketKwh * units.tariffPerKwh };
}
