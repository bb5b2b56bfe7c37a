import type { DayInput } from "../day/input.js";
import type { DaySegment } from "../day/segments.js";
import { BOOK } from "../day/simulate.js";
import { rowW } from "../day/sky-table.js";
import { type DayWalks, meanDay, trackOf, walkBoth, walkDraws } from "../day/walks.js";
import { cloudFactor, SKY_CHANCES } from "../sun/index.js";
import type { SKY_WORDS, ThreeSkies } from "./sky.js";

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

/**
 * Works out a stretch that is over. `input` carries the factors now held and no doubt but that of the sky; its segments are the stretch.
 */
export function hindsightOf(input: DayInput): Hindsight {
  const from = input.segments[0]?.fromUtcMs ?? input.dayFromUtcMs;
  const walks = walkDraws({ ...input, dayFromUtcMs: from });
  const day = meanDay(walks, input);
  const sums = new Float64Array(BOOK.size);
  walkBoth(walks, day, sums, trackOf(walks));
  const at = (place: number) => sums[place] as number;
  const spent = at(BOOK.drive) + at(BOOK.other);
  const withLoss = spent > 0 ? 1 + at(BOOK.loss) / spent : 1;
  const idleLossWh = spent > 0 ? 0 : at(BOOK.loss);
  const sun = sunSplit(walks, day.sunW);
  const taken = sun.offeredWh > 0 ? at(BOOK.sunTaken) / sun.offeredWh : 0;
  const perRoof = taken / input.doubt.roofMiddle;
  return {
    km: input.segments.reduce((km, segment) => km + segment.km, 0),
    driveWh: (at(BOOK.drive) * withLoss) / input.doubt.driveMiddle,
    otherWh: at(BOOK.other) * withLoss + idleLossWh,
    openSunWh: (sun.offeredWh - sun.builtUpWh) * perRoof,
    shadeSunWh: sun.builtUpWh * perRoof,
    sunSdWh: spreadOf(walks.sunTakenWh),
    plugWh: at(BOOK.grid),
    wordsSunWh: wordSums(walks, taken * input.doubt.roofMiddle),
  };
}

function sunSplit(walks: DayWalks, sunW: Float64Array): { offeredWh: number; builtUpWh: number } {
  let offeredWh = 0;
  let builtUpWh = 0;
  walks.steps.rows.forEach((row, r) => {
    const wh = row.hours * (sunW[r] as number);
    offeredWh += wh;
    if (isBuiltUp(row.segment)) builtUpWh += wh;
  });
  return { offeredWh, builtUpWh };
}

function wordSums(walks: DayWalks, scale: number): ThreeSkies {
  const sum = (chances: readonly number[]) =>
    walks.steps.rows.reduce(
      (total, row, r) =>
        total + row.hours * chances.reduce((w, chance, okta) => w + chance * rowW(walks.table, r, okta), 0),
      0,
    ) * scale;
  return [sum(SKY_CHANCES.bright), sum(SKY_CHANCES.mixed), sum(SKY_CHANCES.dark)];
}

function spreadOf(values: Float64Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1));
}

/** How far the sun of one hour scatters within a word, as a share of its mean. */
export const WORD_HOUR_SCATTER: ThreeSkies = (() => {
  const of = (word: (typeof SKY_WORDS)[number]) => {
    const chances = SKY_CHANCES[word];
    const mean = chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta), 0);
    const square = chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta) ** 2, 0);
    return Math.sqrt(square - mean * mean) / mean;
  };
  return [of("bright"), of("mixed"), of("dark")];
})();
