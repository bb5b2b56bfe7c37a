import { describe, expect, test } from "vitest";
import { FUELS, fuelBurnt, fuelFactors, gridCo2Kg } from "../../../src/calc/money/index.js";

describe("fuel factors against other published figures, which differ by about 2 %", () => {
  const near = (value: number | null, published: number) =>
    expect(Math.abs((value ?? Number.NaN) / published - 1)).toBeLessThan(0.025);
  test("22.38 lb of carbon dioxide from a US gallon of diesel, 19.56 from one of petrol (UnitsAndConversions, IAM consortium)", () => {
    const KG_PER_L = 0.45359237 / 3.785411784;
    near(fuelFactors(FUELS.diesel).co2KgPerL, 22.38 * KG_PER_L);
    near(fuelFactors(FUELS.petrol).co2KgPerL, 19.56 * KG_PER_L);
  });
  test("New Zealand 2006: diesel 2.61 kg a litre, LPG 2.96 kg a kg (Ministry for the Environment, guidance, table 1)", () => {
    expect(Math.abs((fuelFactors(FUELS.diesel).co2KgPerL ?? 0) / 2.61 - 1)).toBeLessThan(0.03);
    near(fuelFactors(FUELS.lpg).co2KgPerKg, 2.96);
  });
  test("Ireland: 73.3, 70.0 and 56.9 t of carbon dioxide a TJ of diesel, petrol, natural gas (SEAI)", () => {
    near(FUELS.diesel.co2KgPerTj, 73_300);
    near(FUELS.petrol.co2KgPerTj, 70_000);
    near(FUELS.cng.co2KgPerTj, 56_900);
  });
  test("heat: diesel 35.8 MJ a litre, petrol 32.1 net (UnitsAndConversions, IAM consortium)", () => {
    near((fuelFactors(FUELS.diesel).kwhPerL ?? 0) * 3.6, 35.8);
    expect(Math.abs(((fuelFactors(FUELS.petrol).kwhPerL ?? 0) * 3.6) / 32.1 - 1)).toBeLessThan(0.03);
  });
});

test("litres of a gas sold by the kilogram say nothing", () => {
  expect(fuelBurnt(FUELS.cng, 10, "l")).toEqual({ co2Kg: null, energyKwh: null });
  expect(fuelFactors(FUELS.cng)).toMatchObject({ co2KgPerL: null, kwhPerL: null });
});

test("a power-station factor is lifted by the loss on the way: 0.7 kg with 20 % lost is 0.875 at the meter", () => {
  const grid = { co2KgPerKwh: 0.7, country: "x", year: "2025", source: "made up" };
  expect(gridCo2Kg(10, grid)).toBeCloseTo(7, 9);
  expect(gridCo2Kg(10, { ...grid, lossShare: 0.2 })).toBeCloseTo(8.75, 9);
});
