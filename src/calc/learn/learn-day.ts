import { clamp } from "../../units/numbers.js";
import { type CivilDate, daysBetween } from "../../units/zone.js";
import {
  addDoubt,
  type Belief,
  carry,
  forget,
  type Heard,
  hear,
  type Limit,
  type Sight,
  setAnew,
  varianceAlong,
} from "./belief.js";
import { DRIFT_VAR, daySdLog, type FullLevel, type Part, PRIOR_VAR, placeOf, type VehicleLearned } from "./parts.js";

/** What is special about a day's driving. */
export interface DriveKind {
  readonly wet: boolean;
  readonly load: "empty" | "half" | "full" | null;
  readonly driver: string | null;
}

/** A gauge seen at rest, as a share of full; `full` is "it has stopped charging": the level itself, whatever the gauge shows. */
export interface GaugeSeen {
  readonly atUtcMs: number;
  readonly share: number;
  readonly sdShare: number;
  /** Widest shares that would have shown the same: a full set shows no more than full, an empty one no less than empty. */
  readonly low: number;
  readonly high: number;
  readonly full: boolean;
  /** What it would be with the point elsewhere; empty where that cannot be. */
  readonly slips: readonly number[];
  /** The person was asked whether it is so and said yes. */
  readonly sure: boolean;
}

/** A day's driving in hindsight, in Wh of the set's charge: what the physics says at every factor 1 for the kilometres driven. */
export interface DriveSeen {
  readonly kind: DriveKind;
  readonly km: number;
  /** "no": nobody wrote the day in; "doubtful": its kilometres do not fit. Then the level moves and nothing is learned. */
  readonly written: "yes" | "doubtful" | "no";
  /** Doubt of the kilometres themselves (log), 0 when read off. */
  readonly kmSdLog: number;
  readonly driveWh: number;
  readonly otherWh: number;
  /** Sun that went in, in the open and in built-up places. */
  readonly openSunWh: number;
  readonly shadeSunWh: number;
  readonly sunSdLog: number;
  /** From a plug on the way. */
  readonly plugWh: number;
  /** Of the record: rated x health x temperature. */
  readonly usableWh: number;
  readonly endUtcMs: number;
}

export interface SunMeterSeen {
  readonly seenWh: number;
  /** What was to be expected at factors 1, and the spread of the day's sky in Wh. */
  readonly openSunWh: number;
  readonly shadeSunWh: number;
  readonly sdWh: number;
}

/** What the plug did between two looks at the gauge. Wh at the meter; efficiency from there into the set's charge. */
export type ChargeSeen =
  | { readonly kind: "none" }
  | { readonly kind: "unknown" }
  | ({ readonly kind: "meter"; readonly gridWh: number; readonly efficiency: number } & Charged)
  | ({ readonly kind: "hours"; readonly intoSetWh: number } & Charged);

interface Charged {
  readonly atUtcMs: number;
  readonly usableWh: number;
  /** The hours were enough for a full charge. */
  readonly inTime: boolean;
  readonly fullLevel: FullLevel;
}

/** Shorter trips say more about the gauge than about the vehicle (anchors A4: 50 % off on trips of 1.6 km). */
export const LEAST_KM = 5;
/** Misses that are kept for the width of the band. */
export const KEPT_MISSES = 60;
const OTHER_SD = 0.25;
/** Doubt of a day that nobody wrote in. Common practice, no source. */
const UNWRITTEN_SD = 0.2;

const DRIVE_PARTS: readonly Part[] = ["drive", "wet", "empty", "half", "full", "driverA", "driverB"];
/**
 * The furthest one value moves what the next answer rests on: then a slip of the finger moves it by less than 3 %. A value well within what
 * was to be expected may teach up to three times as much: it is no slip, and a new vehicle is learned within days.
 */
const MOST_DRIVE = 0.02;
const MOST_SET = 0.008;
const MOST_GAUGE = 0.012;
const MOST_ROOF = 0.06;
const FITS_SD = 1.2;

function limitsFor(belief: Belief, sight: Sight): Limit[] {
  const z = (sight.seen - sight.expected) / Math.sqrt(varianceAlong(belief, sight.slopes) + sight.variance);
  const freer = 1 + 2 * Math.max(0, 1 - (z / FITS_SD) ** 2);
  return [
    { places: DRIVE_PARTS.map(placeOf), most: MOST_DRIVE * freer },
    { places: [placeOf("capacity"), placeOf("charger")], most: MOST_SET * freer },
    { places: [placeOf("gaugeOffset"), placeOf("gaugeScale")], most: MOST_GAUGE * freer },
    { places: [placeOf("roof"), placeOf("shade")], most: MOST_ROOF },
  ];
}

const listen = (belief: Belief, sight: Sight, sure = false): Heard =>
  hear(belief, sight, limitsFor(belief, sight), sure);

const at = (belief: Belief, part: Part): number => belief.mean[placeOf(part)] as number;
const factor = (belief: Belief, part: Part): number => Math.exp(at(belief, part));

/** Parts that add up to the drive factor of such a day. */
export function driveParts(drivers: VehicleLearned["drivers"], kind: DriveKind): Part[] {
  const parts: Part[] = ["drive"];
  if (kind.wet) parts.push("wet");
  if (kind.load) parts.push(kind.load);
  if (kind.driver !== null && kind.driver === drivers[0]) parts.push("driverA");
  if (kind.driver !== null && kind.driver === drivers[1]) parts.push("driverB");
  return parts;
}

/** Days without news make every part a little less sure; no middle moves. */
export function passDays(learned: VehicleLearned, date: CivilDate): VehicleLearned {
  const days = learned.lastDate === null ? 0 : daysBetween(learned.lastDate, date);
  if (days <= 0) return learned.lastDate === null ? { ...learned, lastDate: date } : learned;
  return { ...learned, lastDate: date, belief: forget(learned.belief, days, DRIFT_VAR, PRIOR_VAR) };
}

/** Gives a driver a place of his own if one is free. */
function seatDriver(learned: VehicleLearned, driver: string | null): VehicleLearned["drivers"] {
  const [a, b] = learned.drivers;
  if (driver === null || driver === a || driver === b) return learned.drivers;
  if (a === null) return [driver, b];
  return b === null ? [a, driver] : learned.drivers;
}

/** The level after a day's driving, as it follows from the level before and all factors. */
export function driveDay(before: VehicleLearned, seen: DriveSeen): VehicleLearned {
  const learned = { ...before, drivers: seatDriver(before, seen.kind.driver) };
  const { belief } = learned;
  const parts = driveParts(learned.drivers, seen.kind);
  const usableWh = seen.usableWh * factor(belief, "capacity");
  const drive = (seen.driveWh * Math.exp(parts.reduce((sum, part) => sum + at(belief, part), 0))) / usableWh;
  const shadeSun = (seen.shadeSunWh * factor(belief, "roof") * factor(belief, "shade")) / usableWh;
  const sun = (seen.openSunWh * factor(belief, "roof")) / usableWh + shadeSun;
  const other = seen.otherWh / usableWh;
  const fall = drive + other - sun - seen.plugWh / usableWh;
  const teaches = seen.written === "yes" && seen.km >= LEAST_KM;
  const slow: Sight["slopes"] = [
    ...parts.map((part) => [placeOf(part), -drive] as const),
    [placeOf("roof"), sun],
    [placeOf("shade"), shadeSun],
    [placeOf("capacity"), fall],
  ];
  const daySd = daySdLog(learned);
  const ownVar = (drive * daySd) ** 2;
  const otherVar = (other * OTHER_SD) ** 2 + (sun * seen.sunSdLog) ** 2 + (drive * seen.kmSdLog) ** 2;
  const unwrittenVar = seen.written === "no" ? (drive * UNWRITTEN_SD) ** 2 : 0;
  const next = carry(belief, placeOf("level"), {
    value: clamp(at(belief, "level") - fall, 0, 1),
    slopes: [[placeOf("level"), 1], ...(teaches ? slow : [])],
    variance: ownVar + otherVar + unwrittenVar,
  });
  const open = teaches && learned.levelAtUtcMs !== null ? { drive } : null;
  return {
    ...learned,
    belief: next,
    open,
    assumedFull: null,
    levelAtUtcMs: learned.levelAtUtcMs === null ? null : seen.endUtcMs,
  };
}

/** Takes in a look at the gauge: sets the level right and, after a day's driving, teaches every part the day depended on. */
export function readGauge(before: VehicleLearned, seen: GaugeSeen): VehicleLearned {
  if (seen.full) return fullSeen(before, seen.atUtcMs, seen);
  const learned = before.assumedFull ? afterNight(before, before.assumedFull, seen) : before;
  const known = learned.levelAtUtcMs !== null;
  const belief = known ? learned.belief : anyLevel(learned.belief);
  const sight = gaugeSight(belief, seen);
  const heard = listen(belief, sight, seen.sure || !known);
  const odd = known && !seen.sure && (heard.weight < 0.1 || isSlip(heard, sight, seen.slips));
  const told = { ...learned, open: null, levelAtUtcMs: seen.atUtcMs };
  if (odd) return oddReading(told, seen);
  const taught = learned.open && known;
  return {
    ...told,
    belief: heard.belief,
    oddReadings: 0,
    days: learned.days + (taught ? 1 : 0),
    dayScatter: taught ? scatterWith(learned, learned.open.drive, heard, sight) : learned.dayScatter,
    misses: taught ? [...learned.misses, Math.round(heard.z * 1000) / 1000].slice(-KEPT_MISSES) : learned.misses,
  };
}

/** A figure that does not fit well where ten times as much, or a tenth, fits. */
function isSlip({ z, spread }: Heard, { expected }: Sight, slips: readonly number[]): boolean {
  const fits = (share: number) => Math.abs(share - expected) < 1.5 * Math.sqrt(spread);
  return Math.abs(z) > 2.2 && slips.some(fits);
}

const anyLevel = (belief: Belief): Belief => setAnew(belief, placeOf("level"), 0.5, 4);

/** Nights that should have been full and were not: a cut, a plug pulled early. Common practice, no source. */
const CUT_SHARE = 0.1;
/** A cut leaves any level of the upper half. */
const CUT_DENSITY = 1 / 0.5;

/**
 * Full, or cut short? The gauge after a night tells by which of the two is likelier (Bayes' rule): if full, the level is sure and the gauge's
 * own offset is learned; if cut short, only the gauge is left to go by.
 */
function afterNight(learned: VehicleLearned, stopsAt: FullLevel, seen: GaugeSeen): VehicleLearned {
  const sight = gaugeSight(learned.belief, seen);
  const n = Math.sqrt(learned.belief.cov.length);
  const offsetVar = learned.belief.cov[placeOf("gaugeOffset") * (n + 1)] as number;
  const spread = Math.sqrt(seen.sdShare ** 2 + offsetVar + stopsAt.sdShare ** 2);
  const z = (sight.seen - sight.expected) / spread;
  const ifFull = ((1 - CUT_SHARE) * Math.exp(-0.5 * z * z)) / (spread * Math.sqrt(2 * Math.PI));
  const full = z > 0 ? 1 : ifFull / (ifFull + CUT_SHARE * CUT_DENSITY);
  const told = { ...learned, assumedFull: null };
  if (full < 0.5) return { ...told, levelAtUtcMs: null };
  const apart = sight.seen - sight.expected;
  const surer = {
    share: stopsAt.share + (1 - full) * Math.min(0, apart),
    sdShare: Math.hypot(stopsAt.sdShare, Math.sqrt(full * (1 - full)) * apart),
  };
  return { ...told, belief: listen(learned.belief, levelSight(learned.belief, surer), true).belief };
}

function gaugeSight(belief: Belief, seen: GaugeSeen): Sight {
  const scale = factor(belief, "gaugeScale");
  const level = at(belief, "level");
  const expected = at(belief, "gaugeOffset") + scale * level;
  return {
    slopes: [
      [placeOf("level"), scale],
      [placeOf("gaugeOffset"), 1],
      [placeOf("gaugeScale"), scale * level],
    ],
    expected,
    seen: clamp(expected, seen.low, seen.high),
    variance: seen.sdShare ** 2,
  };
}

/**
 * A reading that does not fit is set aside once. When the next one does not fit either, the level is taken from it, and the vehicle may have
 * changed: its drive factor becomes less sure, so that the days to come are listened to.
 */
function oddReading(learned: VehicleLearned, seen: GaugeSeen): VehicleLearned {
  if (learned.oddReadings === 0) return { ...learned, oddReadings: 1 };
  const drive = placeOf("drive");
  const doubtful = addDoubt(anyLevel(learned.belief), drive, CHANGED_SD ** 2);
  return { ...learned, belief: listen(doubtful, gaugeSight(doubtful, seen), true).belief, oddReadings: 0 };
}
const CHANGED_SD = 0.1;

/**
 * Own scatter from day to day, by what each day's miss says of it (the step of expectation maximisation). Older days fade by 1.5 % a day.
 * Source: Dempster, Laird and Rubin (1977), J. R. Stat. Soc. B 39, 1.
 */
function scatterWith(learned: VehicleLearned, drive: number, heard: Heard, sight: Sight) {
  const held = daySdLog(learned) ** 2;
  const part = (held * drive * drive) / heard.spread;
  const likely = (held * drive * ((sight.seen - sight.expected) / heard.spread)) ** 2 + held * (1 - part);
  const fade = 0.985;
  const { days, sumSquares } = learned.dayScatter;
  return { days: fade * days + heard.weight, sumSquares: fade * sumSquares + heard.weight * likely };
}

/** A finished charge says the level itself; with a meter before it, that tells how much the set holds. */
function fullSeen(learned: VehicleLearned, atUtcMs: number, full: FullLevel): VehicleLearned {
  const told = { ...learned, open: null, oddReadings: 0, assumedFull: null, levelAtUtcMs: atUtcMs };
  if (learned.levelAtUtcMs === null)
    return { ...told, belief: setAnew(learned.belief, placeOf("level"), full.share, full.sdShare ** 2) };
  return { ...told, belief: listen(learned.belief, levelSight(learned.belief, full), true).belief };
}

const levelSight = (belief: Belief, { share, sdShare }: FullLevel): Sight => ({
  slopes: [[placeOf("level"), 1]],
  expected: at(belief, "level"),
  seen: share,
  variance: sdShare ** 2,
});

/** Takes in a day's reading of the roof's own meter. Worked in Wh, so that sums over many days come out right, and not their medians. */
export function readSunMeter(learned: VehicleLearned, seen: SunMeterSeen): VehicleLearned {
  const { belief } = learned;
  const roof = factor(belief, "roof");
  const shadeWh = seen.shadeSunWh * factor(belief, "shade") * roof;
  const expectedWh = seen.openSunWh * roof + shadeWh;
  if (expectedWh < LEAST_SUN_WH) return learned;
  const sight: Sight = {
    slopes: [
      [placeOf("roof"), expectedWh],
      [placeOf("shade"), shadeWh],
    ],
    expected: expectedWh,
    seen: seen.seenWh,
    variance: seen.sdWh ** 2 + (METER_SHARE * expectedWh) ** 2,
  };
  return { ...learned, belief: listen(belief, sight).belief };
}
const LEAST_SUN_WH = 20;
const METER_SHARE = 0.03; // class of a cheap meter and its rounding; common practice, no source

/** What the plug put in. A meter moves the level by its units; hours alone by what the charger would have given. */
export function charge(learned: VehicleLearned, seen: ChargeSeen): VehicleLearned {
  if (seen.kind === "none") return learned;
  if (seen.kind === "unknown") return { ...learned, open: null, assumedFull: null, levelAtUtcMs: null };
  const told = { ...learned, open: null, levelAtUtcMs: seen.atUtcMs, assumedFull: seen.inTime ? seen.fullLevel : null };
  const full = likelyFull(seen.fullLevel);
  if (learned.levelAtUtcMs === null) {
    if (!seen.inTime) return { ...learned, open: null };
    return { ...told, belief: setAnew(learned.belief, placeOf("level"), full.share, full.sdShare ** 2) };
  }
  const charged = seen.kind === "meter" ? byMeter(learned.belief, seen) : byHours(learned.belief, seen);
  if (!seen.inTime) return { ...told, belief: charged };
  const sight = levelSight(charged, full);
  const heard = listen(charged, sight);
  // The meter says that it stopped well short: then it did.
  if (heard.z > METER_SHORT_SD) return { ...told, belief: charged, assumedFull: null };
  return { ...told, belief: heard.belief };
}
const METER_SHORT_SD = 2;

/** Hours enough for a full charge: so it was, but for a cut, or a plug pulled early. */
const likelyFull = ({ share, sdShare }: FullLevel): FullLevel => ({
  share: share - CUT_MEAN,
  sdShare: Math.hypot(sdShare, CUT_SD),
});
const CUT_SD = 0.06;
/** What cuts take off on the mean of all nights. */
const CUT_MEAN = 0.015;

function byMeter(belief: Belief, seen: Extract<ChargeSeen, { kind: "meter" }>): Belief {
  const gain =
    (seen.gridWh * seen.efficiency * factor(belief, "charger")) / (seen.usableWh * factor(belief, "capacity"));
  return carry(belief, placeOf("level"), {
    value: Math.min(at(belief, "level") + gain, 1 + OVER_FULL),
    slopes: [
      [placeOf("level"), 1],
      [placeOf("capacity"), -gain],
      [placeOf("charger"), gain],
    ],
    variance: (METER_SHARE * gain) ** 2 + 0.01 ** 2,
  });
}
/** Before anything contradicts it, the level worked out may pass full by this much: then the set holds more than was held. */
const OVER_FULL = 0.3;

function byHours(belief: Belief, seen: Extract<ChargeSeen, { kind: "hours" }>): Belief {
  const gain = seen.intoSetWh / (seen.usableWh * factor(belief, "capacity"));
  const reached = at(belief, "level") + gain;
  const full = reached >= seen.fullLevel.share;
  return carry(belief, placeOf("level"), {
    value: Math.min(reached, seen.fullLevel.share),
    slopes: full ? [] : [[placeOf("level"), 1]],
    variance: (full ? CUT_SD : SHORT_CHARGE_SD * gain) ** 2,
  });
}
/** Doubt of a charge known by its hours alone. Common practice, no source. */
const SHORT_CHARGE_SD = 0.15;
