import type { Sky, Yard } from "../../../records/index.js";
import { wordOf } from "../../../records/map/sky-word.js";
import { monthIndex } from "../../../units/zone.js";
import { monthName } from "../../words/format.js";
import { skyWords } from "../../words/sky.js";
import { isGuess } from "../edit/spec.js";
import { partsOf } from "./cover.js";

const daysOfMonth = (date: string): number =>
  new Date(Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)), 0)).getUTCDate();

/** What the answer takes the sky for: what was said, else the month's usual for the place with the day before mixed in. */
export function usedWords(yard: Yard, date: string, sky: Sky | undefined, before: Sky | undefined): string {
  const words = skyWords.now();
  const cover = sky?.cover;
  if (cover) {
    if (cover.kind === "three") return words.typed.three(words.words[cover.value]);
    if (cover.kind === "hours") return words.typed.hours;
    const [morning = "mixed", midday = morning, afternoon = midday] = partsOf(cover);
    return words.typed.parts(words.words[morning], words.words[midday], words.words[afternoon]);
  }
  const month = monthIndex(date);
  const usual = yard.usualSkyByMonth?.[month];
  const yesterday = wordOf(before);
  const more = yesterday ? ` ${words.yesterday(words.words[yesterday])}` : "";
  if (!usual) return words.nothing + more;
  const days = daysOfMonth(date);
  const bright = Math.round(usual.bright * days);
  const dark = Math.round(usual.dark * days);
  const guess = isGuess(yard, `usualSkyByMonth.${month}`) ? ` ${words.usualGuess}` : "";
  return words.usual(days, monthName(month), bright, Math.max(0, days - bright - dark), dark) + guess + more;
}
