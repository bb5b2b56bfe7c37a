import type { RoadVehicle } from "../road/index.js";

const BOLTZMANN_OVER_CHARGE_V_PER_K = 8.617333e-5;
/** Ideality of silicon cells of today; from memory. */
const IDEALITY = 1.1;

/**
 * Open-circuit voltage of a string in weak light. [V] 50..1000 W/m2, cells -20..70 C: what a charge controller wakes up to.
 * Temperature as on the data sheet, light by the logarithm of the diode. Source: M. A. Green, Solar Cells (1982), ch. 5, from memory.
 */
export function openCircuitV(
  string: { readonly at25CV: number; readonly cellsInSeries: number; readonly pctPerC: number },
  at: { readonly planeWm2: number; readonly cellC: number },
): number {
  const thermalV = BOLTZMANN_OVER_CHARGE_V_PER_K * (at.cellC + 273.15) * IDEALITY;
  const warmV = string.at25CV * (1 + (string.pctPerC / 100) * (at.cellC - 25));
  return Math.max(0, warmV + string.cellsInSeries * thermalV * Math.log(at.planeWm2 / 1000));
}

/** What a fitter hands over with the sheet; each defers to the maker's manual. Common practice, no source. */
export type KitReminder = "gearOilYearly" | "dustAndWaterIp65" | "wipeRoof" | "tightenAfterWeek";

export function kitReminders(vehicle: Pick<RoadVehicle, "gears">, roofW: number): readonly KitReminder[] {
  return [
    ...(vehicle.gears.length > 1 ? (["gearOilYearly"] as const) : []),
    "dustAndWaterIp65",
    ...(roofW > 0 ? (["wipeRoof"] as const) : []),
    "tightenAfterWeek",
  ];
}
