import type { SkyWord } from "../../src/calc/sun/index.js";

/** Dice of the simulation: plain uniform numbers and Box and Muller's normals, apart from how the forecasts draw. */
export interface WorldDice {
  readonly uniform: () => number;
  readonly normal: () => number;
  readonly logNormal: (sdLog: number) => number;
  readonly chance: (share: number) => boolean;
}

/** Source: the "lcg128-free" xorshift32 generator of G. Marsaglia (2003), Journal of Statistical Software 8(14). */
export function worldDice(seed: number): WorldDice {
  let state = (seed * 2_654_435_761) >>> 0 || 1;
  const uniform = () => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return (state + 0.5) / 4_294_967_296;
  };
  for (let i = 0; i < 10; i++) uniform();
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal, logNormal: (sd) => Math.exp(sd * normal()), chance: (share) => uniform() < share };
}

/** Clear share of a day and its course: how one day follows another at a place. */
export interface Climate {
  readonly name: string;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly zone: string;
  /** Shares of bright, mixed and dark days in each of four seasons of the year from the first day on. */
  readonly seasons: readonly (readonly [number, number, number])[];
  /** Chance that a day is of the kind of the day before, over and above the shares. */
  readonly stays: number;
  /** Afternoons cloudier than mornings by this share. */
  readonly afternoon: number;
}

/** Places of our own making; the shares are invented, the day-to-day habit spans what anchors A1 measured (De Bilt to Bengaluru). */
export const CLIMATES: readonly Climate[] = [
  {
    name: "maritime",
    latDeg: 52,
    lonDeg: 5,
    zone: "Europe/Amsterdam",
    seasons: [
      [0.3, 0.42, 0.28],
      [0.35, 0.4, 0.25],
    ],
    stays: 0.3,
    afternoon: 0,
  },
  {
    name: "monsoon",
    latDeg: 23.8,
    lonDeg: 90.4,
    zone: "Asia/Dhaka",
    seasons: [
      [0.85, 0.13, 0.02],
      [0.15, 0.45, 0.4],
    ],
    stays: 0.4,
    afternoon: 0,
  },
  {
    name: "equator",
    latDeg: -4,
    lonDeg: 39.6,
    zone: "Africa/Nairobi",
    seasons: [[0.45, 0.45, 0.1]],
    stays: 0.05,
    afternoon: 0.2,
  },
  {
    name: "desert",
    latDeg: 27,
    lonDeg: 70.9,
    zone: "Asia/Kolkata",
    seasons: [[0.94, 0.05, 0.01]],
    stays: 0.5,
    afternoon: 0,
  },
  {
    name: "plateau",
    latDeg: 13,
    lonDeg: 77.6,
    zone: "Asia/Kolkata",
    seasons: [
      [0.6, 0.35, 0.05],
      [0.25, 0.55, 0.2],
    ],
    stays: 0.2,
    afternoon: 0.1,
  },
];

/** Share of a clear day that comes through, by word (anchors A1), and how far such days scatter. */
const CLEAR: Readonly<Record<SkyWord, readonly [number, number]>> = {
  bright: [0.89, 0.07],
  mixed: [0.64, 0.12],
  dark: [0.37, 0.12],
};
const WORDS: readonly SkyWord[] = ["bright", "mixed", "dark"];

export interface TrueSky {
  readonly word: SkyWord;
  /** Share of clear light by hour of the day. */
  readonly clearByHour: readonly number[];
}

/** Days of sky, one after the other. */
export function trueSkies(climate: Climate, days: number, dice: WorldDice): TrueSky[] {
  const skies: TrueSky[] = [];
  let word: SkyWord = "mixed";
  for (let d = 0; d < days; d++) {
    const season = climate.seasons[Math.floor((d / days) * climate.seasons.length)] as readonly [
      number,
      number,
      number,
    ];
    if (d === 0 || !dice.chance(climate.stays)) word = pick(season, dice);
    const [middle, scatter] = CLEAR[word];
    const day = middle + scatter * dice.normal();
    let course = 0;
    const clearByHour = Array.from({ length: 24 }, (_, h) => {
      course = 0.7 * course + 0.15 * dice.normal();
      const late = climate.afternoon * Math.max(-0.5, Math.min(0.5, (h - 12) / 6));
      return Math.min(1, Math.max(0.12, day * (1 + course - late)));
    });
    skies.push({ word, clearByHour });
  }
  return skies;
}

function pick(shares: readonly [number, number, number], dice: WorldDice): SkyWord {
  const u = dice.uniform() * (shares[0] + shares[1] + shares[2]);
  return u < shares[0] ? "bright" : u < shares[0] + shares[1] ? "mixed" : "dark";
}

export const wordsOf = WORDS;

/** Cover whose Kasten and Czeplak factor is a share of clear light: light of the true sky is split like any other. */
export const oktaOfShare = (share: number): number => 8 * Math.min(1, Math.max(0, (1 - share) / 0.75)) ** (1 / 3.4);
