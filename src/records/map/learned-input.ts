import type { DayInput } from "../../calc/day/input.js";
import type { DaySegment } from "../../calc/day/segments.js";
import type { DaySky } from "../../calc/day/sky-table.js";
import { learnedFactors, learnedLevel } from "../../calc/learn/doubt.js";
import { isBuiltUp } from "../../calc/learn/hindsight.js";
import type { DriveKind } from "../../calc/learn/learn-day.js";
import type { VehicleLearned } from "../../calc/learn/parts.js";
import { coverSpread, dayTogether, type PlaceSky, skyGain, skyOfDay, steadier } from "../../calc/learn/sky.js";
import { type CoverDay, type CoverHour, coverDay } from "../../calc/sun/index.js";
import { clamp } from "../../units/numbers.js";
import { type CivilDate, civilDate, minuteOfDay, monthIndex } from "../../units/zone.js";
import type { Reading, Yard } from "../index.js";
import { type DayCase, dayInputOf } from "./day.js";
import { type SkiesByDate, skiesByDate, wetOn, wordOf } from "./weather.js";

/** What was learned, as an answer may use it: of the vehicle, of its place, or of neither. */
export interface WhatIsLearned {
  readonly vehicle: VehicleLearned | null;
  readonly place: PlaceSky | null;
}

/** The day's calculation with what was learned: its factors and doubt, the level held likely at the last look, and the place's usual sky. */
export function learnedInputOf(given: DayCase, learned: WhatIsLearned): DayInput {
  const vehicle = learned.vehicle?.on ? learned.vehicle : null;
  const place = learned.place?.on ? learned.place : null;
  const skies = skiesByDate(given.skies, given.yard.id);
  const plain = dayInputOf(vehicle ? startingFromBelief(given, vehicle) : given);
  const seen = place ? { ...plain, sky: learnedSky(plain.sky, given.yard, skies, place) } : plain;
  const gain = place ? skyGain(place, wordOf(skies.get(given.date))) : 1;
  const together = place ? { coverDayCorrelation: dayTogether(place) } : {};
  if (!vehicle) return { ...seen, doubt: { ...seen.doubt, roofMiddle: gain, ...together } };
  const factors = learnedFactors(vehicle, driveKindOf(given, skies));
  // out since, too old, or perhaps plugged in: then the level held likely is no more known than a reading of that moment
  const level = seen.missing.includes("reading") ? null : levelFor(given, vehicle);
  const { store } = seen;
  return {
    ...seen,
    segments: seen.segments.map((segment) => shadedBy(segment, factors.shadeMiddle)),
    store: { ...store, usableWh: store.usableWh * factors.capacity, lossPerW: store.lossPerW },
    readingDoubt: level ? null : seen.readingDoubt,
    doubt: {
      ...seen.doubt,
      driveMiddle: factors.driveMiddle,
      driveSdLog: factors.driveSdLog,
      driveEnergySdLog: factors.driveEnergySdLog,
      roofMiddle: factors.roofMiddle * gain,
      roofSdLog: factors.roofSdLog,
      ...together,
      ...(level ? { startShare: level.share, startSdShare: level.sdShare } : {}),
    },
  };
}

/** Nobody knows a level so wide; then the answer asks for a reading. */
const WIDEST_LEVEL_SD = 0.2;

function levelFor(given: DayCase, vehicle: VehicleLearned) {
  const level = learnedLevel(vehicle);
  if (!level || level.atUtcMs > given.nowUtcMs || level.sdShare >= WIDEST_LEVEL_SD) return null;
  const since = given.readings.some(
    (reading) =>
      reading.vehicleId === given.vehicle.id && reading.atUtcMs > level.atUtcMs && reading.atUtcMs <= given.nowUtcMs,
  );
  return since ? null : level;
}

/** The level held likely stands in for the readings it was worked out from; readings since then count as they are. */
function startingFromBelief(given: DayCase, vehicle: VehicleLearned): DayCase {
  const level = levelFor(given, vehicle);
  if (!level) return given;
  const held: Reading = {
    id: "held",
    v: 1,
    vehicleId: given.vehicle.id,
    atUtcMs: level.atUtcMs,
    kind: "percent",
    value: Math.round(level.share * 1e6) / 1e4,
    restedMin: null,
    perBlock: false,
  };
  return { ...given, readings: [held], believed: true };
}

export function driveKindOf(given: Pick<DayCase, "vehicle" | "shifts" | "date">, skies: SkiesByDate): DriveKind {
  const shift = given.shifts.find((each) => each.vehicleId === given.vehicle.id && each.date === given.date);
  return {
    wet: wetOn(skies, given.date),
    load: shift ? shift.loadClass : given.vehicle.usual.loadClass,
    driver: shift?.driver ?? null,
  };
}

/** Sun while driving between buildings, by the factor learned for it. */
function shadedBy(segment: DaySegment, factor: number): DaySegment {
  if (factor === 1 || !isBuiltUp(segment)) return segment;
  const blocked = (share: number) => clamp(1 - (1 - share) * factor, 0, 1);
  return {
    ...segment,
    directBlocked: blocked(segment.directBlocked),
    diffuseBlocked: blocked(segment.diffuseBlocked),
  };
}

/** The place's own usual sky on days of which nobody said anything, and skies as steady as its days have shown. */
export function learnedSky(plain: DaySky, yard: Yard, skies: SkiesByDate, place: PlaceSky): DaySky {
  const days = new Map<CivilDate, CoverDay>();
  const ofDay = (date: CivilDate): CoverDay => {
    const held = days.get(date);
    if (held) return held;
    const usual = skyOfDay(place, date, yard.usualSkyByMonth?.[monthIndex(date)] ?? null);
    const day = coverDay({ entry: null, usual, yesterday: null });
    days.set(date, day);
    return day;
  };
  const spread = coverSpread(place);
  const steady = new Map<CoverHour, CoverHour>();
  const steadied = (hour: CoverHour): CoverHour => {
    const held = steady.get(hour) ?? steadier(hour, spread);
    steady.set(hour, held);
    return held;
  };
  return {
    ...plain,
    coverAt: (utcMs) => {
      const date = civilDate(utcMs, yard.zone);
      if (skies.get(date)?.cover) return steadied(plain.coverAt(utcMs));
      const hour = Math.floor(minuteOfDay(utcMs, yard.zone) / 60);
      return steadied(ofDay(date).hours[hour] as CoverHour);
    },
  };
}
