import { storeModel } from "../../calc/battery/index.js";
import type { DaySegment } from "../../calc/day/segments.js";
import { learnedFactors } from "../../calc/learn/doubt.js";
import { type Hindsight, hindsightOf } from "../../calc/learn/hindsight.js";
import { type DriveKind, type DriveSeen, driveDay } from "../../calc/learn/learn-day.js";
import { at, type VehicleLearned } from "../../calc/learn/parts.js";
import { dayTogether, type PlaceSky, skyGain } from "../../calc/learn/sky.js";
import { clamp, HOUR_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, utcMsAt } from "../../units/zone.js";
import type { Sky } from "../index.js";
import { batteryOf } from "./battery.js";
import { parked } from "./day.js";
import type { DrivenDay, LearnRecords } from "./learn-events.js";
import { learnedSky } from "./learned-input.js";
import { roofOf } from "./roof.js";
import { daySkyOf, meanAirC, skiesByDate, wordOf } from "./weather.js";

/** The records, and what the lessons of one vehicle have in common. */
export interface Ground extends LearnRecords {
  readonly place: PlaceSky;
  readonly byDate: ReadonlyMap<CivilDate, Sky>;
}

export const groundOf = (records: LearnRecords, place: PlaceSky): Ground => ({
  ...records,
  place,
  byDate: skiesByDate(records.skies, records.yard.id),
});

export const levelOf = (learned: VehicleLearned): number => clamp(at(learned.belief, "level"), 0, 1);

export interface Stretch {
  readonly date: CivilDate;
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  /** Null while it stands. */
  readonly day: DrivenDay | null;
  readonly kind: DriveKind;
}

export interface LookedBack extends Hindsight {
  /** Of the record: rated x health x temperature. */
  readonly usableWh: number;
}

const PLAIN: DriveKind = { wet: false, load: null, driver: null };

/** Works out a stretch with the factors now held and the sky as it was said. */
export function lookBack(learned: VehicleLearned, stretch: Stretch, ground: Ground): LookedBack {
  const { yard, vehicle, place, byDate } = ground;
  const factors = learnedFactors(learned, stretch.kind);
  const gain = skyGain(place, wordOf(byDate.get(stretch.date)));
  const leaveUtcMs = stretch.day?.leaveUtcMs ?? utcMsAt(stretch.date, 0, yard.zone);
  const store = storeModel(batteryOf(vehicle), meanAirC(yard, byDate, leaveUtcMs));
  const hindsight = hindsightOf({
    segments: segmentsOf(stretch, ground),
    sky: learnedSky(daySkyOf(yard, byDate, stretch.date), yard, byDate, place),
    roof: roofOf(vehicle),
    store: { ...store, usableWh: store.usableWh * factors.capacity },
    startShare: levelOf(learned),
    driveMiddle: factors.driveMiddle,
    roofMiddle: factors.roofMiddle * gain,
    together: dayTogether(place),
  });
  // The gain of the sky belongs to what was to be expected, not to the roof.
  const { openSunWh, shadeSunWh } = hindsight;
  return { ...hindsight, openSunWh: openSunWh * gain, shadeSunWh: shadeSunWh * gain, usableWh: store.usableWh };
}

/** Parked, out as the day was driven, parked again: as far as the stretch reaches. */
function segmentsOf({ fromUtcMs, toUtcMs, day }: Stretch, { yard, vehicle, byDate }: Ground): DaySegment[] {
  const stand = { yard, vehicle, skies: byDate };
  if (!day) return parked(fromUtcMs, toUtcMs, stand);
  const out = day.segments
    .filter((segment) => segment.toUtcMs > fromUtcMs && segment.fromUtcMs < toUtcMs)
    .map((segment) => clipped(segment, fromUtcMs, toUtcMs));
  const before = fromUtcMs < day.leaveUtcMs ? parked(fromUtcMs, Math.min(toUtcMs, day.leaveUtcMs), stand) : [];
  const after = toUtcMs > day.homeUtcMs ? parked(Math.max(fromUtcMs, day.homeUtcMs), toUtcMs, stand) : [];
  return [...before, ...out, ...after];
}

function clipped(segment: DaySegment, fromUtcMs: number, toUtcMs: number): DaySegment {
  if (segment.fromUtcMs >= fromUtcMs && segment.toUtcMs <= toUtcMs) return segment;
  const from = Math.max(fromUtcMs, segment.fromUtcMs);
  const to = Math.min(toUtcMs, segment.toUtcMs);
  const km = (segment.km * (to - from)) / (segment.toUtcMs - segment.fromUtcMs);
  return { ...segment, fromUtcMs: from, toUtcMs: to, km };
}

export interface Told {
  readonly kind: DriveKind;
  readonly written: DriveSeen["written"];
  readonly kmSdLog: number;
  /** Kilometres over the plan. */
  readonly ratio: number;
  readonly endUtcMs: number;
}

export function seenOf(was: LookedBack, told: Told): DriveSeen {
  const sunWh = was.openSunWh + was.shadeSunWh;
  return {
    kind: told.kind,
    km: was.km * told.ratio,
    written: told.written,
    kmSdLog: told.kmSdLog,
    driveWh: was.driveWh * told.ratio,
    otherWh: was.otherWh,
    openSunWh: was.openSunWh,
    shadeSunWh: was.shadeSunWh,
    sunSdLog: sunWh > 1 ? Math.min(1, was.sunSdWh / sunWh) : 0,
    plugWh: was.plugWh,
    usableWh: was.usableWh,
    endUtcMs: told.endUtcMs,
  };
}

/** The roof and the set's own loss while the vehicle stands, since the last look. */
export function stood(learned: VehicleLearned, untilUtcMs: number, ground: Ground): VehicleLearned {
  const since = learned.levelAtUtcMs;
  if (since === null || untilUtcMs - since < HOUR_MS / 2) return learned;
  const date = civilDate(untilUtcMs, ground.yard.zone);
  const stretch: Stretch = { date, fromUtcMs: since, toUtcMs: untilUtcMs, day: null, kind: PLAIN };
  const was = lookBack(learned, stretch, ground);
  return driveDay(learned, seenOf(was, { kind: PLAIN, written: "no", kmSdLog: 0, ratio: 1, endUtcMs: untilUtcMs }));
}
