import { HOUR_MS, MINUTE_MS } from "../../units/numbers.js";
import { acceptanceW, emptyingW, type StoreModel, storedShare } from "../battery/index.js";
import type { DaySegment } from "../day/segments.js";
import type { DaySky } from "../day/sky-table.js";
import { type Roof, roofByOktaW } from "../roof/index.js";
import { cloudFactor, SKY_CHANCES, sunInstant } from "../sun/index.js";
import { SKY_WORDS, type ThreeSkies } from "./sky.js";

/** A stretch of time that is over, with the factors now held. */
export interface Stretch {
  readonly segments: readonly DaySegment[];
  readonly sky: DaySky;
  readonly roof: Roof | null;
  readonly store: StoreModel;
  readonly startShare: number;
  readonly driveMiddle: number;
  readonly roofMiddle: number;
  /** How far the hours of a day hang together, 0..1. */
  readonly together: number;
}

/** What a stretch of time should have taken and brought, at every factor 1, in Wh of the set's charge. */
export interface Hindsight {
  readonly km: number;
  readonly driveWh: number;
  readonly otherWh: number;
  /** Sun that went in: in the open, and while driving between buildings or trees. */
  readonly openSunWh: number;
  readonly shadeSunWh: number;
  /** Spread of that sun from the sky alone, at the roof factor used. */
  readonly sunSdWh: number;
  readonly plugWh: number;
  /** Sun that would have gone in on a bright, a mixed and a dark day, at the roof factor used. */
  readonly wordsSunWh: ThreeSkies;
}

/** Driving with more than a little shade along the road. */
export const isBuiltUp = (segment: DaySegment): boolean => segment.kind === "drive" && segment.directBlocked > 0.1;

/** Works out a stretch in pieces of half an hour by the mean of its sky: a look back needs no finer ones, and a thousand vehicles are looked back on. */
export function hindsightOf(stretch: Stretch): Hindsight {
  const book = { drive: 0, other: 0, loss: 0, offered: 0, builtUp: 0, taken: 0, plug: 0, km: 0 };
  const words = [0, 0, 0];
  const spread = new Map<number, number>();
  const { store, roofMiddle, driveMiddle } = stretch;
  let levelWh = stretch.startShare * store.usableWh;
  for (const piece of piecesOf(stretch)) {
    const { segment, hours, sun } = piece;
    const sunW = sun ? sun.meanW * roofMiddle : 0;
    const driveW = (segment.drainW - segment.regenW) * driveMiddle;
    const spareW = sunW + segment.chargerW - driveW - segment.otherW;
    const before = levelWh;
    if (spareW >= 0) {
      const share = levelWh / store.usableWh;
      const acceptedW = Math.min(spareW, acceptanceW(store, share));
      const kept = storedShare(store, share);
      const intoSet = Math.min(acceptedW * hours, (store.usableWh - levelWh) / Math.max(kept, 0.1));
      levelWh += intoSet * kept;
      const used = Math.max(0, driveW + segment.otherW) * hours + intoSet;
      const fromSun = Math.min(sunW * hours, used);
      book.taken += fromSun;
      book.plug += used - fromSun;
      book.loss += intoSet - (levelWh - before);
    } else {
      const pullW = emptyingW(store, -spareW);
      book.taken += sunW * hours;
      book.plug += segment.chargerW * hours;
      book.loss += (pullW + spareW) * hours;
      levelWh = Math.max(0, levelWh - pullW * hours);
    }
    const own = store.selfDischargeW * hours;
    levelWh = Math.max(0, levelWh - own);
    book.loss += own;
    book.drive += Math.max(0, driveW) * hours;
    book.other += segment.otherW * hours;
    book.km += piece.km;
    if (!sun) continue;
    book.offered += sunW * hours;
    if (isBuiltUp(segment)) book.builtUp += sunW * hours;
    for (let k = 0; k < 3; k++) (words[k] as number) += (sun.wordsW[k] as number) * roofMiddle * hours;
    spread.set(sun.hour, (spread.get(sun.hour) ?? 0) + sun.sdW * roofMiddle * hours);
  }
  return told(book, words, daySd(spread, stretch.together), stretch);
}

interface Book {
  readonly drive: number;
  readonly other: number;
  readonly loss: number;
  readonly offered: number;
  readonly builtUp: number;
  readonly taken: number;
  readonly plug: number;
  readonly km: number;
}

function told(book: Book, words: readonly number[], sdWh: number, { driveMiddle, roofMiddle }: Stretch): Hindsight {
  const spent = book.drive + book.other;
  const withLoss = spent > 0 ? 1 + book.loss / spent : 1;
  const taken = book.offered > 0 ? book.taken / book.offered : 0;
  const [bright = 0, mixed = 0, dark = 0] = words;
  return {
    km: book.km,
    driveWh: (book.drive * withLoss) / driveMiddle,
    otherWh: spent > 0 ? book.other * withLoss : book.loss,
    openSunWh: ((book.offered - book.builtUp) * taken) / roofMiddle,
    shadeSunWh: (book.builtUp * taken) / roofMiddle,
    sunSdWh: sdWh * taken,
    plugWh: book.plug,
    wordsSunWh: [bright * taken, mixed * taken, dark * taken],
  };
}

const PIECE_MS = 30 * MINUTE_MS;
const COVERS = 9;

interface SunPiece {
  readonly hour: number;
  readonly meanW: number;
  readonly sdW: number;
  readonly wordsW: ThreeSkies;
}
interface Piece {
  readonly segment: DaySegment;
  readonly hours: number;
  readonly km: number;
  readonly sun: SunPiece | null;
}

function* piecesOf({ segments, sky, roof }: Stretch): Generator<Piece> {
  const rowW = new Float64Array(COVERS);
  for (const segment of segments) {
    const whole = segment.toUtcMs - segment.fromUtcMs;
    const pieces = isDarkOver(segment, sky) ? 1 : Math.ceil(whole / PIECE_MS);
    for (let p = 0; p < pieces; p++) {
      const middle = segment.fromUtcMs + ((p + 0.5) * whole) / pieces;
      const sun = roof === null || pieces === 0 ? null : sunPiece(middle, segment, { sky, roof, rowW });
      yield { segment, hours: whole / pieces / HOUR_MS, km: segment.km / pieces, sun };
    }
  }
}

/** Parked, by night from end to end: one piece. */
function isDarkOver({ kind, fromUtcMs, toUtcMs }: DaySegment, { site, linkeTurbidity }: DaySky): boolean {
  if (kind !== "park") return false;
  return [fromUtcMs, (fromUtcMs + toUtcMs) / 2, toUtcMs].every((at) => sunInstant(at, site, linkeTurbidity) === null);
}

interface SunWish {
  readonly sky: DaySky;
  readonly roof: Roof;
  readonly rowW: Float64Array;
}

function sunPiece(middleUtcMs: number, segment: DaySegment, { sky, roof, rowW }: SunWish): SunPiece | null {
  const sun = sunInstant(middleUtcMs, sky.site, sky.linkeTurbidity);
  if (!sun) return null;
  const { headingDeg, airC, windMs, directBlocked, diffuseBlocked } = segment;
  roofByOktaW(sun, roof, { headingDeg, airC, windMs, directBlocked, diffuseBlocked, albedo: sky.albedo }, rowW);
  const { chances } = sky.coverAt(middleUtcMs);
  const meanW = meanOf(chances, rowW);
  let square = 0;
  for (let k = 0; k < COVERS; k++) square += (chances[k] as number) * (rowW[k] as number) ** 2;
  return {
    hour: Math.floor(middleUtcMs / HOUR_MS),
    meanW,
    sdW: Math.sqrt(Math.max(0, square - meanW * meanW)),
    wordsW: [meanOf(SKY_CHANCES.bright, rowW), meanOf(SKY_CHANCES.mixed, rowW), meanOf(SKY_CHANCES.dark, rowW)],
  };
}

function meanOf(chances: readonly number[], rowW: Float64Array): number {
  let mean = 0;
  for (let k = 0; k < COVERS; k++) mean += (chances[k] as number) * (rowW[k] as number);
  return mean;
}

/** Hours after which two covers of one course of cloud have nothing more in common: free values every three hours, straight between them. */
const COURSE_HOURS = 4;

/** Spread of a day's sum from the spread of its hours, which hang together as in the day's drawn skies. */
function daySd(byHour: ReadonlyMap<number, number>, together: number): number {
  let variance = 0;
  for (const [hour, sd] of byHour)
    for (const [other, sdOther] of byHour) {
      const course = Math.max(0, 1 - Math.abs(hour - other) / COURSE_HOURS);
      variance += (together + (1 - together) * course) * sd * sdOther;
    }
  return Math.sqrt(variance);
}

/** How far the sun of one hour scatters within a word, as a share of its mean. */
export const WORD_HOUR_SCATTER: ThreeSkies = (() => {
  const [bright = 0, mixed = 0, dark = 0] = SKY_WORDS.map((word) => {
    const chances = SKY_CHANCES[word];
    const mean = chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta), 0);
    const square = chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta) ** 2, 0);
    return Math.sqrt(square - mean * mean) / mean;
  });
  return [bright, mixed, dark];
})();
