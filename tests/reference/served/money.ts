import {
  annuityFactor,
  compareFuel,
  discountedPaybackYears,
  type FuelFacts,
  type FuelUnit,
  fuelBurnt,
  fuelFactors,
  levelPayment,
  netPresentValue,
  paybackYears,
  type SavingTerms,
  yearlyRates,
} from "../../../src/calc/money/index.js";
import type { Served } from "./index.js";

type Facts = Pick<FuelFacts, "netHeatMjKg" | "co2KgPerTj" | "densityKgL">;

export const served: Served = {
  annuityFactor: (input: { readonly ratePerYear: number; readonly years: number }) => ({
    annuityFactor: annuityFactor(input.ratePerYear, input.years),
  }),
  fuelFactors: (input: Facts) => fuelFactors(input),
  fuelCo2: (input: Facts & { readonly quantity: number; readonly quantityUnit: FuelUnit }) =>
    fuelBurnt(input, input.quantity, input.quantityUnit),
  fuelSaving: (
    input: Facts &
      Omit<SavingTerms, "km" | "fuel" | "fuelPer100Km" | "fuelUpkeepPerKm" | "electricUpkeepPerKm"> & {
        readonly kmPerDay: number;
        readonly days: number;
        readonly kmPerFuelUnit: number;
        readonly solarShare: number;
        readonly fuelMaintenancePerKm: number;
        readonly electricMaintenancePerKm: number;
      },
  ) =>
    compareFuel({
      ...input,
      fuel: input,
      km: input.kmPerDay * input.days,
      fuelPer100Km: 100 / input.kmPerFuelUnit,
      sunShare: input.solarShare,
      fuelUpkeepPerKm: input.fuelMaintenancePerKm,
      electricUpkeepPerKm: input.electricMaintenancePerKm,
    }),
  loanPayment: (input: {
    readonly principal: number;
    readonly nominalRatePerYear: number;
    readonly months: number;
  }) => {
    const monthlyPayment = levelPayment(input.principal, input.nominalRatePerYear / 12, input.months);
    return { monthlyPayment, totalInterest: monthlyPayment * input.months - input.principal };
  },
  npv: (input: { readonly ratePerYear: number; readonly flowsFromYear0: readonly number[] }) => {
    const { signChanges, ratesPerYear } = yearlyRates(input.flowsFromYear0);
    return {
      npv: netPresentValue(input.ratePerYear, input.flowsFromYear0),
      irrPerYear: signChanges === 1 ? (ratesPerYear[0] ?? null) : null,
      paybackYears: paybackYears(input.flowsFromYear0),
      discountedPaybackYears: discountedPaybackYears(input.ratePerYear, input.flowsFromYear0),
    };
  },
};
