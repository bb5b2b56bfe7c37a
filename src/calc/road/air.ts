const GAS_CONSTANT = 8.31432; // J/(mol K), the figure of the standard of 1976
const MOLAR_KG = 0.0289644;

/**
 * Air of the standard atmosphere at a height of 0 to 11,000 m (geopotential).
 * Source: US Standard Atmosphere, 1976, troposphere.
 */
export function airStandard(altitudeM: number): { temperatureK: number; pressurePa: number; densityKgM3: number } {
  const temperatureK = 288.15 - 0.0065 * altitudeM;
  const pressurePa = 101_325 * (temperatureK / 288.15) ** 5.255876;
  return { temperatureK, pressurePa, densityKgM3: (pressurePa * MOLAR_KG) / (GAS_CONSTANT * temperatureK) };
}

/** Geopotential height of a geometric one, m. Source: US Standard Atmosphere, 1976, eq. 18. */
export const geopotentialM = (geometricM: number): number => (6_356_766 * geometricM) / (6_356_766 + geometricM);

/**
 * Density of moist air, kg/m3, -40..50 C.
 * Source: mixture of ideal gases; saturation pressure of D. Bolton (1980), Mon. Weather Rev. 108, 1046.
 */
export function moistAirDensityKgM3(air: { pressurePa: number; airC: number; relativeHumidity: number }): number {
  const saturatedPa = 611.2 * Math.exp((17.67 * air.airC) / (air.airC + 243.5));
  const vapourPa = air.relativeHumidity * saturatedPa;
  const kelvin = air.airC + 273.15;
  return (air.pressurePa - vapourPa) / (287.05 * kelvin) + vapourPa / (461.5 * kelvin);
}

/** Density at a place and temperature, kg/m3; half-saturated air where nobody measured (it changes the third digit). */
export const airDensityKgM3 = (altitudeM: number, airC: number, relativeHumidity = 0.5): number =>
  moistAirDensityKgM3({ pressurePa: airStandard(geopotentialM(altitudeM)).pressurePa, airC, relativeHumidity });
