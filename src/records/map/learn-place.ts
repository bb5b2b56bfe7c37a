import {
  learnGain,
  learnScatter,
  learnSky,
  type PlaceSky,
  type SunOfWords,
  skyFromMeters,
  skyGain,
  skyOfDay,
  threeOf,
} from "../../calc/learn/sky.js";
import { type CivilDate, monthIndex } from "../../units/zone.js";
import type { Sky, Yard } from "../index.js";
import { skiesByDate, wordOf } from "./weather.js";

/** Sun of one day by a roof's own meter, against what was to be expected of its sky. */
export interface SunSeen extends SunOfWords {
  readonly date: CivilDate;
  readonly likelyWh: number;
  readonly sdWh: number;
}

/** The sky of a day that is over: said by a person, else worked out from the roofs' meters; a day of which nothing is known teaches nothing. */
export function learnPlace(
  before: PlaceSky,
  yard: Yard,
  skies: readonly Sky[],
  date: CivilDate,
  suns: readonly SunSeen[],
): PlaceSky {
  const usual = yard.usualSkyByMonth?.[monthIndex(date)] ?? null;
  const word = wordOf(skiesByDate(skies, yard.id).get(date));
  const today = suns.filter((sun) => sun.date === date && sun.likelyWh > 20);
  if (word === null && today.length === 0) return before;
  const { bright, mixed, dark } = skyOfDay(before, date, usual);
  const chances = word === null ? skyFromMeters([bright, mixed, dark], today) : threeOf(word);
  const learned = learnSky(before, date, chances, usual);
  if (today.length === 0) return learned;
  const mean = (of: (sun: SunSeen) => number) => today.reduce((sum, sun) => sum + of(sun), 0) / today.length;
  const z = mean((sun) => (sun.seenWh - sun.likelyWh) / Math.max(1, sun.sdWh));
  const scattered = learnScatter(learned, z);
  return learnGain(
    scattered,
    word,
    mean((sun) => (sun.seenWh / sun.likelyWh) * skyGain(before, word) - 1),
  );
}
