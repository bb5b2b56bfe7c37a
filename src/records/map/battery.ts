import type { Battery } from "../../calc/battery/index.js";
import type { Vehicle } from "../index.js";

export function batteryOf(vehicle: Vehicle): Battery {
  const { chemistry, nominalV, ratedAh, health, seriesCount, resistanceOhm, peukertExponent, ratedHours } =
    vehicle.battery;
  return { chemistry, nominalV, ratedAh, health, seriesCount, resistanceOhm, peukertExponent, ratedHours };
}
