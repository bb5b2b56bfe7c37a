export type Fuel = "diesel" | "petrol" | "cng" | "lpg";
export type FuelUnit = "l" | "kg";

/** What is in a fuel. */
export interface FuelFacts {
  /** Net heating value. [MJ/kg] Source: 2006 IPCC Guidelines, vol. 2, table 1.2. */
  readonly netHeatMjKg: number;
  /** Carbon dioxide of burning it. [kg per TJ, net] Source: the same, tables 1.4 and 3.2.1. */
  readonly co2KgPerTj: number;
  /** Density at 15 C [kg/l], null for gas sold by the kilogram; from memory, within the ranges of EN 590 and EN 228. */
  readonly densityKgL: number | null;
  /** What it is sold by at the pump, common practice, no source. */
  readonly soldBy: FuelUnit;
}

export const FUELS: Readonly<Record<Fuel, FuelFacts>> = {
  diesel: { netHeatMjKg: 43, co2KgPerTj: 74_100, densityKgL: 0.84, soldBy: "l" },
  petrol: { netHeatMjKg: 44.3, co2KgPerTj: 69_300, densityKgL: 0.745, soldBy: "l" },
  cng: { netHeatMjKg: 48, co2KgPerTj: 56_100, densityKgL: null, soldBy: "kg" },
  lpg: { netHeatMjKg: 47.3, co2KgPerTj: 63_100, densityKgL: 0.54, soldBy: "l" },
};

/** Carbon dioxide and heat of one kg and one litre; the litre is null for a fuel without a density. */
export function fuelFactors(fuel: Pick<FuelFacts, "netHeatMjKg" | "co2KgPerTj" | "densityKgL">) {
  const co2KgPerKg = fuel.netHeatMjKg * fuel.co2KgPerTj * 1e-6;
  const kwhPerKg = fuel.netHeatMjKg / 3.6;
  const density = fuel.densityKgL;
  return {
    co2KgPerKg,
    kwhPerKg,
    co2KgPerL: density === null ? null : co2KgPerKg * density,
    kwhPerL: density === null ? null : kwhPerKg * density,
  };
}

/** Mass of a quantity. [kg] Null for litres of a fuel without a density. */
function massKg(fuel: Pick<FuelFacts, "densityKgL">, quantity: number, unit: FuelUnit): number | null {
  if (unit === "kg") return quantity;
  return fuel.densityKgL === null ? null : quantity * fuel.densityKgL;
}

/** Carbon dioxide [kg] and heat [kWh] of burning a quantity; nulls for litres of a fuel without a density. */
export function fuelBurnt(
  fuel: Pick<FuelFacts, "netHeatMjKg" | "co2KgPerTj" | "densityKgL">,
  quantity: number,
  unit: FuelUnit,
): { readonly co2Kg: number | null; readonly energyKwh: number | null } {
  const kg = massKg(fuel, quantity, unit);
  const factors = fuelFactors(fuel);
  return kg === null
    ? { co2Kg: null, energyKwh: null }
    : { co2Kg: kg * factors.co2KgPerKg, energyKwh: kg * factors.kwhPerKg };
}

/** Carbon dioxide of a unit of electricity, always with where the figure is from. */
export interface GridFactor {
  readonly co2KgPerKwh: number;
  readonly country: string;
  readonly year: string;
  readonly source: string;
  /** Share lost between power station and meter, 0..0.6, when the figure is of the power station; else 0. */
  readonly lossShare?: number;
}

/** Carbon dioxide of units at the meter. [kg] */
export const gridCo2Kg = (kwh: number, grid: GridFactor): number =>
  (kwh * grid.co2KgPerKwh) / (1 - (grid.lossShare ?? 0));
