import { type Dice, normalQuantile } from "../../units/dice.js";
import type { SkyWord, UsualSky } from "../sun/index.js";

export const SKY_WORDS: readonly SkyWord[] = ["bright", "mixed", "dark"];

/**
 * Share of yesterday in today's sky; the rest is the month's usual. Best mix measured on De Bilt and Bengaluru days;
 * mix proposed by D. Yang (2019), Solar Energy 193, 981.
 */
export const PERSISTENCE = 0.33;

/**
 * How far the sky of a month strays from its usual between years, as the log of bright over mixed over dark. Laid so that the sun of a
 * month with all three kinds of days strays by about a tenth from year to year. Common practice, no source.
 */
export const YEARS_SD_LOG = 0.45;

/** Shares of the three words that add to 1; equal where nothing is known. */
export function sharesOf(usual: UsualSky): readonly [number, number, number] {
  const total = usual.bright + usual.mixed + usual.dark;
  return total > 0 ? [usual.bright / total, usual.mixed / total, usual.dark / total] : [1 / 3, 1 / 3, 1 / 3];
}

/** The shares of one drawn year's month: brighter or darker than usual by `strayLog`. */
export function strayed(
  shares: readonly [number, number, number],
  strayLog: number,
): readonly [number, number, number] {
  const [bright, mixed, dark] = shares;
  const up = Math.exp(strayLog);
  const total = bright * up + mixed + dark / up;
  return [(bright * up) / total, mixed / total, dark / up / total];
}

/** Chances of tomorrow's word after today's. */
export const tomorrow = (
  shares: readonly [number, number, number],
  today: number,
  persistence = PERSISTENCE,
): readonly number[] => shares.map((share, word) => (1 - persistence) * share + (word === today ? persistence : 0));

export const pick = (chances: readonly number[], u: number): number => {
  let sum = 0;
  for (let i = 0; i < chances.length - 1; i++) {
    sum += chances[i] as number;
    if (u < sum) return i;
  }
  return chances.length - 1;
};

/**
 * Words (places in SKY_WORDS) of a run of days, each remembering the day before: a Markov chain with the month's shares as its
 * long-run mean. `monthOfDay` gives the month of each day.
 */
export function drawWords(of: {
  readonly shares: readonly (readonly [number, number, number])[];
  readonly monthOfDay: ArrayLike<number>;
  readonly dice: Dice;
  readonly straySdLog?: number;
  readonly persistence?: number;
}): Uint8Array {
  const { monthOfDay, dice, straySdLog = YEARS_SD_LOG, persistence = PERSISTENCE } = of;
  const drawn = of.shares.map((shares) => strayed(shares, straySdLog * normalQuantile(dice())));
  const words = new Uint8Array(monthOfDay.length);
  for (let day = 0; day < words.length; day++) {
    const shares = drawn[monthOfDay[day] as number] as readonly [number, number, number];
    const chances = day === 0 ? shares : tomorrow(shares, words[day - 1] as number, persistence);
    words[day] = pick(chances, dice());
  }
  return words;
}
