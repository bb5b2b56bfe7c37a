import { readSunMeter } from "../../calc/learn/charge.js";
import { learnedFactors, withKm } from "../../calc/learn/doubt.js";
import { WORD_HOUR_SCATTER } from "../../calc/learn/hindsight.js";
import { type DriveKind, type DriveSeen, driveDay } from "../../calc/learn/learn-day.js";
import { factor, type VehicleLearned } from "../../calc/learn/parts.js";
import { dayTogether } from "../../calc/learn/sky.js";
import { clamp, HOUR_MS } from "../../units/numbers.js";
import { plusDays, utcMsAt } from "../../units/zone.js";
import { type DrivenDay, gaugeOf } from "./learn-events.js";
import { type Ground, levelOf, lookBack, type Stretch, seenOf, type Told } from "./learn-look-back.js";
import type { SunSeen } from "./learn-place.js";
import { wetOn } from "./weather.js";

export interface Lesson {
  readonly vehicle: VehicleLearned;
  /** Days whose sun was measured: the place learns from them. */
  readonly suns: readonly SunSeen[];
}

/** Spread of the kilometres where a day was written without them. Common practice, no source. */
const UNWRITTEN_KM_SD = 0.1;
/** Kilometres this far from the plan are another round, or a slip. */
const FAR_LOG = Math.log(2.5);

/** Driving up to `untilUtcMs`; `last` when that is home. */
export function drove(
  before: VehicleLearned,
  day: DrivenDay,
  untilUtcMs: number,
  last: boolean,
  ground: Ground,
): Lesson {
  const { entry } = day;
  const kind: DriveKind = {
    wet: entry?.wet ?? wetOn(ground.byDate, day.date),
    load: day.shift.loadClass,
    driver: day.shift.driver,
  };
  const km = kmOf(before, day, ground, kind);
  const told: Told = { kind, ...km, endUtcMs: untilUtcMs };
  const metered = last && entry?.sunKwh != null ? sunMetered(before, day, entry.sunKwh * 1000, kind, ground) : null;
  const learned = metered?.vehicle ?? before;
  const fromUtcMs = Math.max(learned.levelAtUtcMs ?? day.leaveUtcMs, day.leaveUtcMs - 12 * HOUR_MS);
  const stretch: Stretch = {
    date: day.date,
    fromUtcMs: Math.min(fromUtcMs, untilUtcMs - 1),
    toUtcMs: untilUtcMs,
    day,
    kind,
  };
  const was = lookBack(learned, stretch, ground);
  const seen = seenOf(was, told);
  const driven = driveDay(learned, metered ? withMeter(seen, metered.ratio, learned) : seen);
  return {
    vehicle: last && km.ranLog !== null ? withKm(driven, km.ranLog) : driven,
    suns: metered ? [metered.sun] : [],
  };
}

interface Kilometres extends Pick<Told, "written" | "kmSdLog" | "ratio"> {
  /** Kilometres over the plan, as they are learned from; null when they are not. */
  readonly ranLog: number | null;
}

/**
 * Kilometres of the day: as written, where they are near the plan or where the gauge bears them out; else those planned, with wide doubt.
 * A nought too many must not look like a day of ten times the use.
 */
function kmOf(learned: VehicleLearned, day: DrivenDay, ground: Ground, kind: DriveKind): Kilometres {
  const { entry, plannedKm } = day;
  const habit = learned.kmHabit.middleLog;
  const asPlanned = (written: Told["written"]): Kilometres => ({
    written,
    kmSdLog: UNWRITTEN_KM_SD,
    ratio: Math.exp(habit),
    ranLog: null,
  });
  if (!entry) return asPlanned("no");
  if (!entry.km || plannedKm <= 0) return asPlanned("doubtful");
  const ranLog = Math.log(entry.km / plannedKm);
  const asWritten: Kilometres = { written: "yes", kmSdLog: 0, ratio: Math.exp(ranLog), ranLog };
  const off = Math.abs(ranLog - habit);
  if (off < NEAR_LOG) return asWritten;
  if (off > FAR_LOG || learned.levelAtUtcMs === null || !entry.level) return asPlanned("doubtful");
  return gaugeBearsOut(learned, day, ground, kind, asWritten.ratio / Math.exp(habit))
    ? asWritten
    : asPlanned("doubtful");
}
/** Within a quarter of the plan, kilometres are taken as written. Common practice, no source. */
const NEAR_LOG = Math.log(1.25);

/** Whether the gauge at home is nearer to what the written kilometres would leave than to what the planned ones would. */
function gaugeBearsOut(
  learned: VehicleLearned,
  day: DrivenDay,
  ground: Ground,
  kind: DriveKind,
  ratio: number,
): boolean {
  const level0 = day.entry?.level;
  const seen = level0 ? gaugeOf(ground.vehicle, { ...level0, restedMin: null, atUtcMs: day.homeUtcMs }) : null;
  if (!seen) return false;
  const stretch: Stretch = {
    date: day.date,
    fromUtcMs: learned.levelAtUtcMs ?? day.leaveUtcMs,
    toUtcMs: day.homeUtcMs,
    day,
    kind,
  };
  const was = lookBack(learned, stretch, ground);
  const factors = learnedFactors(learned, kind);
  const driveShare = (was.driveWh * factors.driveMiddle) / (was.usableWh * factors.capacity);
  const sunWh = (was.openSunWh + was.shadeSunWh * factors.shadeMiddle) * factors.roofMiddle;
  const planned = levelOf(learned) - driveShare + (sunWh - was.otherWh) / (was.usableWh * factors.capacity);
  const written = planned - driveShare * (ratio - 1);
  return Math.abs(seen.share - clamp(written, 0, 1)) < Math.abs(seen.share - clamp(planned, 0, 1));
}

/** A measured sun is no longer in doubt and teaches the level, not the roof. */
function withMeter(seen: DriveSeen, ratio: number, learned: VehicleLearned) {
  const roof = factor(learned.belief, "roof");
  const shade = factor(learned.belief, "shade");
  const sunWh = (seen.openSunWh + seen.shadeSunWh * shade) * roof * ratio;
  return { ...seen, openSunWh: 0, shadeSunWh: 0, sunSdLog: 0, plugWh: seen.plugWh + sunWh };
}

/** No roof brings so much more than its bright day: the figure is a slip. Common practice, no source. */
const MOST_OVER_BRIGHT = 2.5;

/** So little where ten times as much would do: the point has slipped. Common practice, no source. */
const LEAST_OF_LIKELY = 0.2;
const MOST_OF_LIKELY = 2;

/** The roof's meter of a whole day, from midnight to midnight. */
function sunMetered(before: VehicleLearned, day: DrivenDay, seenWh: number, kind: DriveKind, ground: Ground) {
  const { zone } = ground.yard;
  const stretch: Stretch = {
    date: day.date,
    fromUtcMs: utcMsAt(day.date, 0, zone),
    toUtcMs: utcMsAt(plusDays(day.date, 1), 0, zone),
    day,
    kind,
  };
  const was = lookBack(before, stretch, ground);
  const roof = factor(before.belief, "roof");
  const shade = factor(before.belief, "shade");
  const likelyWh = (was.openSunWh + was.shadeSunWh * shade) * roof;
  if (likelyWh < 1 || seenWh > MOST_OVER_BRIGHT * Math.max(likelyWh, was.wordsSunWh[0])) return null;
  if (seenWh < LEAST_OF_LIKELY * likelyWh && 10 * seenWh < MOST_OF_LIKELY * likelyWh) return null;
  const together = dayTogether(ground.place);
  const spread = Math.sqrt(together + (1 - together) / 5);
  const sun: SunSeen = {
    date: day.date,
    seenWh,
    expectedWh: was.wordsSunWh,
    scatter: [WORD_HOUR_SCATTER[0] * spread, WORD_HOUR_SCATTER[1] * spread, WORD_HOUR_SCATTER[2] * spread],
    likelyWh,
    sdWh: was.sunSdWh,
  };
  const vehicle = readSunMeter(before, {
    seenWh,
    openSunWh: was.openSunWh,
    shadeSunWh: was.shadeSunWh,
    sdWh: was.sunSdWh,
  });
  return { vehicle, sun, ratio: clamp(seenWh / likelyWh, 0, 4) };
}
