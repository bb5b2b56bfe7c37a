import { clamp } from "../../units/numbers.js";
import type { CivilDate } from "../../units/zone.js";
import type { Belief } from "./belief.js";

/**
 * What is learned of a vehicle, in the order of the lists below. Factors are held as logarithms, 0 where nothing was learned:
 * drive: Wh per km over the physical figure; wet, empty, half, full, driverA, driverB: what such a day adds to it;
 * roof: sun over the physical figure (dirt, shade, age); shade: what driving in built-up places adds to it;
 * capacity: the set over the record's health; charger: meter units that arrive over the record's efficiency;
 * gaugeOffset (share of a full set) and gaugeScale: what the gauge shows of the true level;
 * level: share of a full set at the last moment looked at. Not a factor.
 */
export const PARTS = [
  "drive",
  "wet",
  "empty",
  "half",
  "full",
  "driverA",
  "driverB",
  "roof",
  "shade",
  "capacity",
  "charger",
  "gaugeOffset",
  "gaugeScale",
  "level",
] as const;
export type Part = (typeof PARTS)[number];
export type Columns = Readonly<Record<Part, number>>;

export const placeOf = (part: Part): number => PARTS.indexOf(part);
const columns = (of: Columns): number[] => PARTS.map((part) => of[part]);

/**
 * Doubt before anything is seen (standard deviations). Drive with an ordinary load and driver: hypot(.18, .06, .06) = 0.20, the prior of
 * methods 4. Roof: 80 % band 0.45 to 0.90 around 0.70 less what the shade classes say. The rest is common practice, no source.
 */
const PRIOR_SD: Columns = {
  drive: 0.18,
  wet: 0.06,
  empty: 0.06,
  half: 0.06,
  full: 0.06,
  driverA: 0.06,
  driverB: 0.06,
  roof: 0.22,
  shade: 0.12,
  capacity: 0.08,
  charger: 0.035,
  gaugeOffset: 0.03,
  gaugeScale: 0.04,
  level: 0.25,
};

/** Slow forgetting (standard deviation gained in a day without news): a month makes the drive factor 4 % less sure. Common practice, no source. */
const DRIFT_SD_PER_DAY: Columns = {
  drive: 0.007,
  wet: 0.003,
  empty: 0.003,
  half: 0.003,
  full: 0.003,
  driverA: 0.003,
  driverB: 0.003,
  roof: 0.015,
  shade: 0.004,
  capacity: 0.003,
  charger: 0.001,
  gaugeOffset: 0.001,
  gaugeScale: 0.001,
  level: 0,
};

export const PRIOR_VAR = columns(PRIOR_SD).map((sd) => sd * sd);
export const DRIFT_VAR = columns(DRIFT_SD_PER_DAY).map((sd) => sd * sd);

/** Day-to-day scatter of the drive factor before the vehicle's own is known: whole days of one car, physics and one learned factor, 6 % (anchors A4). */
export const DAY_SD_LOG = 0.07;
/** Days of its own after which a vehicle's own scatter counts as much as the figure above; before, its band is a guess. */
export const GUESS_DAYS = 10;

/** What was learned of one vehicle: a plain record that can be looked at, switched off, kept and thrown away. */
export interface VehicleLearned {
  readonly v: 1;
  readonly vehicleId: string;
  /** Switched off: it goes on learning, but no answer uses it. */
  readonly on: boolean;
  /** Whole days that taught something. */
  readonly days: number;
  readonly lastDate: CivilDate | null;
  /** Everything on record up to here has been taken in. */
  readonly throughUtcMs: number | null;
  /** The two drivers with most days; others count as unknown. */
  readonly drivers: readonly [string | null, string | null];
  readonly belief: Belief;
  /** When the level of the belief was true. */
  readonly levelAtUtcMs: number | null;
  /** The level is taken to be full because the plug was in long enough; nobody has looked yet. */
  readonly assumedFull: FullLevel | null;
  /** A day's driving that no reading has closed yet: the share of the set it took; 0 where it may teach nothing but the level. */
  readonly open: { readonly drive: number } | null;
  /** Scatter from day to day of the drive factor: its weight in days, and the sum of squares. */
  readonly dayScatter: Scatter;
  /** Kilometres driven over kilometres planned (log): middle and scatter. */
  readonly kmHabit: Scatter & { readonly middleLog: number };
  /** To which side the last days' gauges missed, as a leaking sum of standard deviations. */
  readonly lean: number;
  /** Gauge readings in a row that did not fit. */
  readonly oddReadings: number;
  /** Last misses of the level at home, in standard deviations of what was said. */
  readonly misses: readonly number[];
}

/** Where a charger stops: for lead-acid a little below the last Ah. */
export interface FullLevel {
  readonly share: number;
  readonly sdShare: number;
}

export interface Scatter {
  readonly days: number;
  readonly sumSquares: number;
}

export const at = (belief: Belief, part: Part): number => belief.mean[placeOf(part)] as number;
export const factor = (belief: Belief, part: Part): number => Math.exp(at(belief, part));

/** What is held of one vehicle before its first day, where that is not as of any vehicle. */
export interface Before {
  /** The set over the record: middle (log) and doubt. */
  readonly capacityLog?: number;
  readonly capacitySdLog?: number;
  /** The gauge: doubt of what it shows at `gaugeSureAt` (share of a full set, 0 or 1), and of its slope. */
  readonly gaugeSd?: number;
  readonly gaugeScaleSdLog?: number;
  readonly gaugeSureAt?: 0 | 1;
}

/** Start of learning. */
export function newLearned(vehicleId: string, before: Before = {}): VehicleLearned {
  const n = PARTS.length;
  const { capacityLog = 0, capacitySdLog = PRIOR_SD.capacity, gaugeSureAt = 0 } = before;
  const { gaugeSd = PRIOR_SD.gaugeOffset, gaugeScaleSdLog = PRIOR_SD.gaugeScale } = before;
  const sd = { ...PRIOR_SD, capacity: capacitySdLog, gaugeOffset: gaugeSd, gaugeScale: gaugeScaleSdLog };
  const variances = columns(sd).map((each) => each * each);
  const cov = Array.from({ length: n * n }, (_, k) => (Math.floor(k / n) === k % n ? (variances[k % n] as number) : 0));
  const [offset, scale] = [placeOf("gaugeOffset"), placeOf("gaugeScale")];
  const together = gaugeSureAt * gaugeScaleSdLog ** 2;
  (cov[offset * n + offset] as number) += together;
  cov[offset * n + scale] = -together;
  cov[scale * n + offset] = -together;
  return {
    v: 1,
    vehicleId,
    on: true,
    days: 0,
    lastDate: null,
    throughUtcMs: null,
    drivers: [null, null],
    belief: { mean: columns({ ...PRIOR_SD, ...zeros, capacity: capacityLog, level: 0.7 }), cov },
    levelAtUtcMs: null,
    assumedFull: null,
    open: null,
    dayScatter: { days: GUESS_DAYS, sumSquares: GUESS_DAYS * DAY_SD_LOG ** 2 },
    kmHabit: { days: 5, sumSquares: 5 * 0.02 ** 2, middleLog: 0 },
    lean: 0,
    oddReadings: 0,
    misses: [],
  };
}
const zeros = Object.fromEntries(PARTS.map((part) => [part, 0])) as Columns;

export const daySdLog = (learned: VehicleLearned): number =>
  clamp(Math.sqrt(learned.dayScatter.sumSquares / learned.dayScatter.days), 0.02, 0.3);

export const isGuess = (learned: VehicleLearned): boolean => learned.days < GUESS_DAYS;

/** One part as a screen shows it: a factor (or, for gaugeOffset and level, a share) with its 80 % band. */
export interface PartShown {
  readonly part: Part;
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}

const SHARES: readonly Part[] = ["gaugeOffset", "level"];

/** Every part with its spread, for whoever wants to look inside. */
export function partsShown({ belief }: VehicleLearned): PartShown[] {
  const n = PARTS.length;
  return PARTS.map((part, i) => {
    const mean = belief.mean[i] as number;
    const reach = 1.2816 * Math.sqrt(belief.cov[i * n + i] as number);
    const shown = SHARES.includes(part) ? (x: number) => x : Math.exp;
    return { part, middle: shown(mean), low: shown(mean - reach), high: shown(mean + reach) };
  });
}
