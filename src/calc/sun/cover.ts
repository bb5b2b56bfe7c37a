import { normalQuantile } from "../../units/dice.js";
import { effectiveOkta } from "./cloud.js";

/** Cloud of one hour as a distribution over whole covers. */
export interface CoverHour {
  /** Chance of each cover, 0 to 8 oktas. */
  readonly chances: readonly number[];
}

export type SkyWord = "bright" | "mixed" | "dark";
/** Shares of bright, mixed and dark days; any positive scale. */
export type UsualSky = Readonly<Record<SkyWord, number>>;

/** What a person says of tomorrow's cloud: one word, a word for morning, midday and afternoon, or oktas by hour. */
export type CoverEntry =
  | { readonly kind: "three"; readonly value: SkyWord }
  | { readonly kind: "parts"; readonly values: readonly SkyWord[] }
  | { readonly kind: "hours"; readonly oktas: readonly number[]; readonly thin: readonly boolean[] };

export interface CoverDay {
  /** 24 hours of the local day. */
  readonly hours: readonly CoverHour[];
  /** Where it comes from; with "nothing" all three kinds of day are held equally likely. */
  readonly from: "entry" | "usual" | "yesterday" | "nothing";
}

const OKTAS = [0, 1, 2, 3, 4, 5, 6, 7, 8] as const;

/** A cover hour from the chances of 0 to 8 oktas, of any positive scale; all zero is held to be equal. */
export function coverOf(weights: readonly number[]): CoverHour {
  const total = OKTAS.reduce<number>((sum, k) => sum + Math.max(0, weights[k] ?? 0), 0);
  const chances = OKTAS.map((k) => (total > 0 ? Math.max(0, weights[k] ?? 0) / total : 1 / OKTAS.length));
  return { chances };
}

/** Standard normal numbers at which a cover passes to the next okta, for `oktaAt`: nine, and no number reaches the last that can be. */
export function coverEdges({ chances }: CoverHour): Float64Array {
  const most = chances.findLastIndex((chance) => chance > 0);
  let sum = 0;
  return Float64Array.from(chances, (chance, okta) => {
    sum += chance;
    if (okta >= most) return Number.POSITIVE_INFINITY;
    return sum > 0 ? normalQuantile(sum) : Number.NEGATIVE_INFINITY;
  });
}

/** Whole cover, 0..8, for a standard normal number; rises with it. */
export function oktaAt(edges: Float64Array, normal: number): number {
  let okta = 0;
  while (normal >= (edges[okta] as number)) okta++;
  return okta;
}

const geometric = (ratio: number): readonly number[] => coverOf(OKTAS.map((k) => ratio ** k)).chances;

/**
 * Covers met in the hours of a bright, mixed or dark day: the least-assuming (geometric) spread over 0..8 oktas whose mean
 * Kasten-Czeplak factor is the measured share of a clear day: 0.89, 0.64 and 0.37, for days of mean cover 0-2, 3-6 and 7-8 oktas.
 * Measured on 3,653 days of a pyranometer at 52 N (KNMI De Bilt daily series 2012 to 2021, clear day learned over 30 days).
 */
export const SKY_CHANCES: Readonly<Record<SkyWord, readonly number[]>> = {
  bright: geometric(0.8395),
  mixed: geometric(1.3156),
  dark: geometric(2.9772),
};

/**
 * Share of the doubt that the hours of a day have in common. [1] With it the daily sun scatters by 32.6 % of its mean when only the
 * word for the day is known, as measured at De Bilt (32.5 %); hours drawn each for itself would give 13 %.
 */
export const DAY_TOGETHER = 0.7;

/** Normal number for `oktaAt` from two of them: one for the day, one for the hour. */
export const coverNormal = (dayNormal: number, hourNormal: number, together: number = DAY_TOGETHER): number =>
  Math.sqrt(together) * dayNormal + Math.sqrt(1 - together) * hourNormal;

/**
 * Best mix of what yesterday was and what the month usually is, on De Bilt and Bengaluru days; the mix is proposed by
 * D. Yang (2019), Solar Energy 193, 981.
 */
const YESTERDAY_SHARE = 0.33;

/** Spread of an hour's cover given by oktas: a good day-ahead guess errs by about this much; common practice, no source. [okta] */
const ENTERED_SD_OKTA = 1.5;

function skyMix(shares: UsualSky): CoverHour {
  const words = Object.keys(SKY_CHANCES) as SkyWord[];
  const total = words.reduce((sum, word) => sum + shares[word], 0);
  const share = (word: SkyWord) => (total > 0 ? shares[word] / total : 1 / words.length);
  return coverOf(OKTAS.map((k) => words.reduce((sum, word) => sum + share(word) * (SKY_CHANCES[word][k] ?? 0), 0)));
}

/** Cover around a typed okta: a normal spread cut at clear and overcast; thin cloud counts half. */
export function coverAround(okta: number, thin: boolean, sdOkta: number = ENTERED_SD_OKTA): CoverHour {
  const middle = Math.min(8, Math.max(0, effectiveOkta(okta, thin)));
  return coverOf(OKTAS.map((k) => Math.exp(-(((k - middle) / sdOkta) ** 2) / 2)));
}

function entered(entry: CoverEntry): readonly CoverHour[] {
  if (entry.kind === "hours")
    return Array.from({ length: 24 }, (_, h) => coverAround(entry.oktas[h] ?? 4, entry.thin[h] ?? false));
  const words = entry.kind === "three" ? [entry.value, entry.value, entry.value] : entry.values;
  const [morning = "mixed", midday = morning, afternoon = midday] = words;
  const word = (hour: number) => (hour < 10 ? morning : hour < 14 ? midday : afternoon);
  const hours = new Map(([morning, midday, afternoon] as const).map((each) => [each, coverOf(SKY_CHANCES[each])]));
  return Array.from({ length: 24 }, (_, h) => hours.get(word(h)) ?? coverOf([]));
}

const EQUAL: UsualSky = { bright: 1, mixed: 1, dark: 1 };
const scaled = (sky: UsualSky): UsualSky => {
  const total = sky.bright + sky.mixed + sky.dark;
  return total > 0 ? { bright: sky.bright / total, mixed: sky.mixed / total, dark: sky.dark / total } : scaled(EQUAL);
};

/**
 * Cloud of a day, hour by hour: the entry if there is one; else the month's usual sky, with yesterday mixed in; never silently clear.
 * `yesterday` is the word for the day before, when it was noted.
 */
export function coverDay(of: {
  readonly entry: CoverEntry | null;
  readonly usual: UsualSky | null;
  readonly yesterday: SkyWord | null;
}): CoverDay {
  if (of.entry) return { hours: entered(of.entry), from: "entry" };
  const usual = scaled(of.usual ?? EQUAL);
  const past = (word: SkyWord) =>
    of.yesterday === null
      ? usual[word]
      : (1 - YESTERDAY_SHARE) * usual[word] + (word === of.yesterday ? YESTERDAY_SHARE : 0);
  const hour = skyMix({ bright: past("bright"), mixed: past("mixed"), dark: past("dark") });
  const from = of.usual ? "usual" : of.yesterday ? "yesterday" : "nothing";
  return { hours: new Array<CoverHour>(24).fill(hour), from };
}
