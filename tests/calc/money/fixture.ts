import type { DayLog, Tariff, Terms, YearTerms } from "../../../src/calc/money/index.js";
import { always } from "../../../src/calc/money/index.js";

/** All figures here are made up for sums that can be followed by hand. Coins are paise: 100 to the rupee. */
export const nightTariff: Tariff = {
  kind: "bands",
  bands: [{ fromMinute: 22 * 60, toMinute: 6 * 60, perKwhMinor: 500 }],
  otherwisePerKwhMinor: 900,
  feeMinor: 0,
  currency: "INR",
};

export const terms: Terms = {
  currency: always("INR"),
  baseline: always({ fuel: "diesel", per100Km: 4, doubtShare: 0.1, upkeepPerKmMinor: 60 }),
  fuelPrice: { diesel: always({ perUnitMinor: 9000, currency: "INR" }) },
  tariff: always(nightTariff),
  upkeepNow: always({ perUnitMinor: 25, currency: "INR" }),
  set: always({
    priceMinor: 4_500_000,
    scrapMinor: 900_000,
    lifeKmLow: 12_000,
    lifeKm: 18_000,
    lifeKmHigh: 24_000,
    currency: "INR",
  }),
  fixed: [],
  grid: always({ co2KgPerKwh: 0.7117, country: "India", year: "2024-25", source: "CEA CO2 baseline database v21" }),
  gridToBatteryEfficiency: 0.8,
};

/** 60 km, 6 units read at the meter from 23:00 to 05:00, 1.2 units of sun estimated. */
export const day: DayLog = {
  date: "2027-02-10",
  state: "worked",
  km: 60,
  kmHow: "odometer",
  charges: [{ kwh: 6, kwhHow: "meter", fromMinute: 23 * 60, toMinute: 5 * 60, paidMinor: null }],
  sun: { kwh: 1.2, how: "estimated" },
};

/** A round year: 60 km a day on 300 days, so that each line can be checked in the head. */
export const year: YearTerms = {
  kmPerDay: 60,
  workDaysPerYear: 300,
  fuel: { netHeatMjKg: 43, co2KgPerTj: 74_100, densityKgL: 0.84 },
  fuelPer100Km: 4,
  fuelPricePerUnit: 9000,
  batteryWhPerKm: 80,
  sunShare: 0.25,
  gridToBatteryEfficiency: 0.8,
  tariffPerKwh: 500,
  gridKgPerKwh: 0.7117,
  fuelUpkeepPerKm: 60,
  electricUpkeepPerKm: 25,
  setPrice: 4_500_000,
  setScrap: 900_000,
  setLifeKm: 18_000,
  setLifeYears: 3,
  fixedPerYear: 0,
};
