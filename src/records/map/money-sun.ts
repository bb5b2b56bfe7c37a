import { daySun, meanSunWh, monthChances } from "../../calc/sizing/month-sun.js";
import { SKY_CHANCES } from "../../calc/sun/index.js";
import { type CivilDate, monthIndex } from "../../units/zone.js";
import type { Round, Sky, Vehicle, Yard } from "../index.js";
import { sizingCaseOf } from "./sizing.js";
import { skiesByDate, wordOf } from "./weather.js";

/** Share of what a roof on the road offers that finds room: about 85 % over 200 trucks, from a second-hand report (field notes, section 6). */
export const SUN_TAKEN_SHARE = 0.85;

/**
 * Units the roof is thought to have brought on worked days: the usual round of the month under the sky that was typed for the day, else
 * under the month's usual sky. A guess, for days without a counter of the sun; empty without a roof or a round. [kWh]
 */
export function sunEstimates(
  given: { readonly yard: Yard; readonly vehicle: Vehicle; readonly round: Round; readonly skies: readonly Sky[] },
  dates: readonly CivilDate[],
): ReadonlyMap<CivilDate, number> {
  const ratedW = given.vehicle.roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
  const laid = ratedW > 0 ? sizingCaseOf({ ...given, workDaysPerWeek: 6, plugTo: "need", years: 1 }) : null;
  if (!laid?.ok) return new Map();
  const skies = skiesByDate(given.skies, given.yard.id);
  const suns = new Map<number, ReturnType<typeof daySun>>();
  return new Map(
    dates.flatMap((date) => {
      const index = monthIndex(date);
      const month = laid.value.months[index];
      if (!month) return [];
      const sun = suns.get(index) ?? daySun(month.workDay, month, laid.value);
      suns.set(index, sun);
      const word = wordOf(skies.get(date));
      const wh = meanSunWh(sun, word ? SKY_CHANCES[word] : monthChances(month)) * ratedW * SUN_TAKEN_SHARE;
      return [[date, Math.round(wh) / 1000] as const];
    }),
  );
}
