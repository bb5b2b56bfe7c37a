import { clamp } from "../../units/numbers.js";
import { type CivilDate, daysBetween, monthIndex } from "../../units/zone.js";
import { type CoverHour, cloudFactor, coverOf, DAY_TOGETHER, type SkyWord, type UsualSky } from "../sun/index.js";

export const SKY_WORDS: readonly SkyWord[] = ["bright", "mixed", "dark"];
/** Chances, or counts, of a bright, a mixed and a dark day. */
export type ThreeSkies = readonly [number, number, number];

/** Share of a clear day that comes through on such days (anchors A1: De Bilt, 3,653 days). */
const CLEAR_SHARE: ThreeSkies = [0.89, 0.64, 0.37];

/** What was learned of the sky of one place. */
export interface PlaceSky {
  readonly v: 2;
  readonly yardId: string;
  readonly on: boolean;
  /** Days seen in each month of the year, by word. */
  readonly byMonth: readonly ThreeSkies[];
  /** The same for the last weeks: older days fade away with RECENT_DAYS. */
  readonly recent: ThreeSkies;
  readonly last: { readonly date: CivilDate; readonly chances: ThreeSkies } | null;
  /** Yesterday against today, both as clear share less the usual: sums of products and of squares. */
  readonly together: { readonly products: number; readonly squares: number };
  /** Gain of the sun on what each word promises, and last on what was worked out when nobody said a word: summed misses (share) and days. */
  readonly gain: readonly { readonly days: number; readonly sum: number }[];
  /** Misses of the day's sun in standard deviations of what was said: weight in days, sum of squares. */
  readonly scatter: { readonly days: number; readonly sumSquares: number };
}

/** Fading by 15 days has the mean age of the last 30. */
const RECENT_DAYS = 15;
/** Days that the month's usual sky counts for: typed, or held equal where nobody typed it. */
const TYPED_WEIGHT = 10;
const UNTYPED_WEIGHT = 3;
/** Yesterday's share of the mix, and the days it counts for, until the place has its own (anchors A1: best mix 0.33 and 0.67; D. Yang, Solar Energy 193 (2019) 981). */
const YESTERDAY = 0.33;
const YESTERDAY_WEIGHT = 30 * 0.03;
const GAIN_DAYS = 30;
const GAIN_WEIGHT = 9;
const SCATTER_WEIGHT = 15;

export const newPlaceSky = (yardId: string): PlaceSky => ({
  v: 2,
  yardId,
  on: true,
  byMonth: Array.from({ length: 12 }, (): ThreeSkies => [0, 0, 0]),
  recent: [0, 0, 0],
  last: null,
  together: { products: YESTERDAY * YESTERDAY_WEIGHT, squares: YESTERDAY_WEIGHT },
  gain: [...SKY_WORDS, null].map(() => ({ days: 0, sum: 0 })),
  scatter: { days: SCATTER_WEIGHT, sumSquares: SCATTER_WEIGHT },
});

const map3 = (of: (k: 0 | 1 | 2) => number): ThreeSkies => [of(0), of(1), of(2)];
const scaled = (weights: ThreeSkies): ThreeSkies => {
  const total = weights[0] + weights[1] + weights[2];
  return total > 0 ? map3((k) => weights[k] / total) : [1 / 3, 1 / 3, 1 / 3];
};
const clearShareOf = (chances: ThreeSkies): number =>
  chances[0] * CLEAR_SHARE[0] + chances[1] * CLEAR_SHARE[1] + chances[2] * CLEAR_SHARE[2];

export const threeOf = (word: SkyWord): ThreeSkies => map3((k) => (SKY_WORDS[k] === word ? 1 : 0));

/** The usual sky of a month: what was typed for it, what was seen in it (and half as much in its neighbours), and the last weeks. */
export function usualSky(place: PlaceSky, month: number, typed: UsualSky | null): ThreeSkies {
  const held = typed ? scaled([typed.bright, typed.mixed, typed.dark]) : ([1 / 3, 1 / 3, 1 / 3] as const);
  const weight = typed ? TYPED_WEIGHT : UNTYPED_WEIGHT;
  const seen = (m: number, k: 0 | 1 | 2) => place.byMonth[(m + 12) % 12]?.[k] ?? 0;
  const months = map3((k) => seen(month, k) + 0.5 * (seen(month - 1, k) + seen(month + 1, k)));
  const monthDays = months[0] + months[1] + months[2];
  // Of many years together a month counts as two at most, so that a change of the season's habit is followed.
  const keep = monthDays > 60 ? 60 / monthDays : 1;
  return scaled(map3((k) => weight * held[k] + 0.15 * keep * months[k] + place.recent[k]));
}

/** Yesterday's share of the mix, learned from how one day followed the other. */
export const yesterdayShare = (place: PlaceSky): number =>
  clamp(place.together.products / place.together.squares, 0, 0.8);

/** Chances of a bright, mixed and dark day when nobody said anything: the usual sky with yesterday mixed in; after a gap yesterday's share fades. */
export function skyOfDay(place: PlaceSky, date: CivilDate, typed: UsualSky | null): UsualSky {
  const usual = usualSky(place, monthIndex(date), typed);
  const gap = place.last ? daysBetween(place.last.date, date) : 0;
  const share = place.last && gap > 0 ? yesterdayShare(place) ** gap : 0;
  const last = place.last?.chances ?? usual;
  const [bright, mixed, dark] = map3((k) => (1 - share) * usual[k] + share * last[k]);
  return { bright, mixed, dark };
}

/** What a day's sky was, said or worked out; teaches the month, the last weeks, and how much yesterday tells. */
export function learnSky(place: PlaceSky, date: CivilDate, chances: ThreeSkies, typed: UsualSky | null): PlaceSky {
  const gap = place.last ? daysBetween(place.last.date, date) : null;
  if (gap !== null && gap <= 0) return place;
  const month = monthIndex(date);
  const usual = clearShareOf(usualSky(place, month, typed));
  const fade = Math.exp(-(gap ?? 0) / RECENT_DAYS);
  const follows = gap === 1 && place.last !== null;
  const before = place.last ? clearShareOf(place.last.chances) - usual : 0;
  const now = clearShareOf(chances) - usual;
  const slow = 0.99;
  return {
    ...place,
    byMonth: place.byMonth.map((seen, m) => (m === month ? map3((k) => seen[k] + chances[k]) : seen)),
    recent: map3((k) => fade * place.recent[k] + chances[k]),
    last: { date, chances },
    together: follows
      ? {
          products: slow * place.together.products + before * now,
          squares: slow * place.together.squares + before * before,
        }
      : place.together,
  };
}

/** What a roof's meter tells of the day's sky: Wh to be expected under each word, and how far a day of that word scatters (share). */
export interface SunOfWords {
  readonly seenWh: number;
  readonly expectedWh: ThreeSkies;
  readonly scatter: ThreeSkies;
}

/** Chances of the three words after the roofs' meters of one day were read; `before` are the chances held until then. */
export function skyFromMeters(before: ThreeSkies, meters: readonly SunOfWords[]): ThreeSkies {
  const logs = map3((k) => {
    // Roofs of one yard stand under one sky: their misses are not independent, so together they count as one.
    const total = meters.reduce((sum, meter) => {
      const expected = Math.max(1, meter.expectedWh[k]);
      const sd = meter.scatter[k] * expected;
      return sum - 0.5 * ((meter.seenWh - expected) / sd) ** 2 - Math.log(sd);
    }, 0);
    return meters.length > 0 ? total / meters.length : 0;
  });
  const most = Math.max(...logs);
  return scaled(map3((k) => Math.max(1e-6, before[k]) * Math.exp(logs[k] - most)));
}

const gainPlace = (word: SkyWord | null): number => (word === null ? SKY_WORDS.length : SKY_WORDS.indexOf(word));

/** Factor on the sun a word promises, or none, learned over the last 30 or so measured days of its kind; 1 for a new place. */
export function skyGain(place: PlaceSky, word: SkyWord | null): number {
  const gain = place.gain[gainPlace(word)];
  return gain ? 1 + clamp(gain.sum / (gain.days + GAIN_WEIGHT), -0.4, 0.4) : 1;
}

/** `miss` = sun that came over sun expected at gain 1, less 1, on a day that was said to be `word`, or of which nobody said a word. */
export function learnGain(place: PlaceSky, word: SkyWord | null, miss: number): PlaceSky {
  const fade = 1 - 1 / GAIN_DAYS;
  const step = clamp(miss, -0.8, 0.8);
  const with1 = (gain: PlaceSky["gain"][number]) => ({ days: fade * gain.days + 1, sum: fade * gain.sum + step });
  return { ...place, gain: place.gain.map((gain, k) => (k === gainPlace(word) ? with1(gain) : gain)) };
}

/** Variance of a day's sun with about five independent hours, for hours that hang together by `together`. */
const INDEPENDENT = 1 / 5;
const dayVariance = (together: number): number => together + (1 - together) * INDEPENDENT;

/** Variance of the days' sun over the one that plain words say, at the plain togetherness. */
const ratioOf = ({ scatter }: PlaceSky): number =>
  (scatter.sumSquares / scatter.days) * (dayVariance(DAY_TOGETHER) / dayVariance(LEAST_TOGETHER));
/** Hours of one day hang together at least so far; days that scatter even less are of steadier cover. Common practice, no source. */
const LEAST_TOGETHER = DAY_TOGETHER;

/** How far the hours of a day hang together, 0.3..0.95, learned from how far the days' sun scattered against what was said. */
export function dayTogether(place: PlaceSky): number {
  const variance = Math.max(1, ratioOf(place)) * dayVariance(LEAST_TOGETHER);
  return clamp((variance - INDEPENDENT) / (1 - INDEPENDENT), LEAST_TOGETHER, 0.95);
}

/** Share of a word's spread of covers that this place's days show, 0.1..1; below 1 once their hours hang together as little as they can. */
export const coverSpread = (place: PlaceSky): number => clamp(ratioOf(place), 0.1, 1);

/** An hour of the same mean light whose cover varies less: `spread` times the variance. */
export function steadier(hour: CoverHour, spread: number): CoverHour {
  if (spread >= 1) return hour;
  const light = hour.chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta), 0);
  let okta = 0;
  while (okta < 7 && cloudFactor(okta + 1) > light) okta++;
  const [above, below] = [cloudFactor(okta), cloudFactor(okta + 1)];
  const part = (above - light) / (above - below);
  const middle = (k: number) => (k === okta ? 1 - part : k === okta + 1 ? part : 0);
  return coverOf(hour.chances.map((chance, k) => spread * chance + (1 - spread) * middle(k)));
}

/** `z` = miss of the day's sun in standard deviations of the band that was said. */
export function learnScatter(place: PlaceSky, z: number): PlaceSky {
  const fade = 0.98;
  const said = (coverSpread(place) * dayVariance(dayTogether(place))) / dayVariance(DAY_TOGETHER);
  const { days, sumSquares } = place.scatter;
  return { ...place, scatter: { days: fade * days + 1, sumSquares: fade * sumSquares + Math.min(9, z * z) * said } };
}
