import { type Level, levelFromReading, shareByVolts } from "../../calc/battery/index.js";
import type { DaySegment } from "../../calc/day/segments.js";
import type { GaugeSeen } from "../../calc/learn/gauge-sight.js";
import type { FullLevel } from "../../calc/learn/parts.js";
import { HOUR_MS, MINUTE_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../../units/zone.js";
import {
  type Entry,
  minuteOfClock,
  type Reading,
  type Round,
  type Shift,
  type Sky,
  type Vehicle,
  type Yard,
} from "../index.js";
import { batteryOf } from "./battery.js";
import { runShift, shiftPlanOf } from "./shift.js";
import type { SkiesByDate } from "./weather.js";

/** Everything on record that a vehicle can learn from; readings and entries are its own. */
export interface LearnRecords {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly shifts: readonly Shift[];
  readonly skies: readonly Sky[];
  readonly readings: readonly Reading[];
  readonly entries: readonly Entry[];
}

/** What happened to a vehicle, in time order. */
export type LearnEvent =
  | { readonly kind: "gauge"; readonly atUtcMs: number; readonly seen: GaugeSeen }
  /** Driving up to here; `entry` is null where nobody wrote the day in yet. */
  | { readonly kind: "drive"; readonly atUtcMs: number; readonly day: DrivenDay; readonly last: boolean }
  /** The day went by and nobody wrote what it was. */
  | { readonly kind: "lost"; readonly atUtcMs: number }
  | { readonly kind: "charge"; readonly atUtcMs: number; readonly night: Night };

export interface DrivenDay {
  readonly date: CivilDate;
  /** The shift with the load that was written. */
  readonly shift: Shift;
  readonly leaveUtcMs: number;
  readonly homeUtcMs: number;
  readonly segments: readonly DaySegment[];
  readonly plannedKm: number;
  readonly entry: Entry | null;
}

export interface Night {
  readonly pluggedUtcMs: number;
  readonly gridKwh: number | null;
  /** "unknown": this vehicle's plug is never noted, so nobody knows whether it was in. */
  readonly kind: "meter" | "hours" | "none" | "unknown";
}

/** Entries that noted the plug within these days mean that an entry without it was a night without it. */
const NOTED_WITHIN_DAYS = 14;
const HABIT_HOME_MINUTE = 20 * 60;
const HABIT_LEAVE_MINUTE = 6 * 60;

/** The records with what was said of the sky by date. */
export interface Logged extends LearnRecords {
  readonly byDate: SkiesByDate;
}

/** Events after `fromUtcMs` up to `toUtcMs`. */
export function eventsBetween(records: Logged, fromUtcMs: number, toUtcMs: number): LearnEvent[] {
  const { zone } = records.yard;
  const events: LearnEvent[] = [];
  const entries = new Map(records.entries.map((entry) => [entry.date, entry]));
  const isNew = ({ atUtcMs }: { readonly atUtcMs: number }) => atUtcMs > fromUtcMs && atUtcMs <= toUtcMs;
  const first = plusDays(civilDate(fromUtcMs, zone), -1);
  const last = civilDate(toUtcMs, zone);
  for (let date = first; date <= last; date = plusDays(date, 1))
    // The next day's leaving ends all that belongs to a day.
    if (leaveUtcMsOf(records, plusDays(date, 1)) > fromUtcMs)
      events.push(...eventsOfDay(records, entries, date, toUtcMs));
  for (const reading of records.readings.filter(isNew)) {
    const seen = gaugeOf(records.vehicle, reading);
    if (seen) events.push({ kind: "gauge", atUtcMs: reading.atUtcMs, seen });
  }
  return events.filter(isNew).sort((a, b) => a.atUtcMs - b.atUtcMs || ORDER[a.kind] - ORDER[b.kind]);
}
const ORDER = { drive: 0, lost: 1, charge: 2, gauge: 3 } as const;

function eventsOfDay(
  records: Logged,
  entries: ReadonlyMap<CivilDate, Entry>,
  date: CivilDate,
  toUtcMs: number,
): LearnEvent[] {
  const entry = entries.get(date) ?? null;
  const day = drivenDay(records, entry, date);
  const homeUtcMs = day?.homeUtcMs ?? utcMsAt(date, HABIT_HOME_MINUTE, records.yard.zone);
  const events: LearnEvent[] = [];
  if (day) events.push(...driveEvents(records, day, toUtcMs));
  else if (!entry && homeUtcMs <= toUtcMs && entries.size > 0) events.push({ kind: "lost", atUtcMs: homeUtcMs });
  if (entry?.level) {
    const { kind, value, perBlock } = entry.level;
    const seen = gaugeOf(records.vehicle, {
      kind,
      value,
      perBlock,
      restedMin: REST_AT_HOME_MIN,
      atUtcMs: homeUtcMs + MINUTE_MS,
    });
    if (seen) events.push({ kind: "gauge", atUtcMs: seen.atUtcMs, seen });
  }
  const night = nightOf(records, entries, entry, date, homeUtcMs);
  events.push({ kind: "charge", atUtcMs: chargeEnd(records, date, night), night });
  return events;
}
/** The gauge is written after a short rest, when the day is written. */
const REST_AT_HOME_MIN = 30;

/** The day as it was driven, or is being driven; null on a day off, or when an entry without kilometres meets no plan. */
function drivenDay(records: Logged, entry: Entry | null, date: CivilDate): DrivenDay | null {
  if (entry?.km === 0) return null;
  const { yard, vehicle } = records;
  const set = records.shifts.find((shift) => shift.vehicleId === vehicle.id && shift.date === date);
  const planned = shiftPlanOf(vehicle, records.rounds, records.shifts, date);
  if (!planned) return null;
  const shift: Shift = {
    id: set?.id ?? "usual",
    v: 1,
    vehicleId: vehicle.id,
    roundId: planned.round.id,
    date,
    leaveMinute: planned.leaveMinute,
    loadKg: entry?.loadClass && entry.loadClass !== set?.loadClass ? null : (set?.loadKg ?? null),
    loadClass: entry?.loadClass ?? set?.loadClass ?? vehicle.usual.loadClass,
    driver: entry?.driver ?? set?.driver ?? null,
  };
  const plan = shiftPlanOf(vehicle, records.rounds, [shift], date) ?? planned;
  const { segments, leaveUtcMs, homeUtcMs } = runShift(plan, { yard, vehicle, skies: records.byDate });
  const plannedKm = segments.reduce((km, segment) => km + segment.km, 0);
  return { date, shift, leaveUtcMs, homeUtcMs, segments, plannedKm, entry };
}

/** One event at home, and one before each reading on the way. A day that is over and was never written is lost. */
function driveEvents(records: Logged, day: DrivenDay, toUtcMs: number): LearnEvent[] {
  const { leaveUtcMs, homeUtcMs, entry } = day;
  if (entry === null && homeUtcMs <= toUtcMs) return [{ kind: "lost", atUtcMs: homeUtcMs }];
  const onTheWay = records.readings
    .map((reading) => reading.atUtcMs)
    .filter((atUtcMs) => atUtcMs > leaveUtcMs && atUtcMs < homeUtcMs);
  return [...onTheWay, homeUtcMs].map((atUtcMs) => ({ kind: "drive", atUtcMs, day, last: atUtcMs === homeUtcMs }));
}

/** The night after `date`: what is written of the plug. Minutes before noon belong to the morning after. */
function nightOf(
  records: Logged,
  entries: ReadonlyMap<CivilDate, Entry>,
  entry: Entry | null,
  date: CivilDate,
  homeUtcMs: number,
): Night {
  const at = entry?.pluggedAt ?? null;
  const minute = at === null ? null : minuteOfClock(at);
  const pluggedUtcMs =
    minute === null
      ? homeUtcMs + 30 * MINUTE_MS
      : utcMsAt(date, minute < 12 * 60 ? minute + 1440 : minute, records.yard.zone);
  const gridKwh = entry?.gridKwh ?? null;
  if (gridKwh !== null) return { pluggedUtcMs, gridKwh, kind: gridKwh > 0 ? "meter" : "none" };
  if (at !== null) return { pluggedUtcMs, gridKwh, kind: "hours" };
  return { pluggedUtcMs, gridKwh, kind: entry !== null && isNoted(entries, date) ? "none" : "unknown" };
}

/** Whether somebody notes this vehicle's plug. */
function isNoted(entries: ReadonlyMap<CivilDate, Entry>, date: CivilDate): boolean {
  for (let back = 0; back <= NOTED_WITHIN_DAYS; back++) {
    const entry = entries.get(plusDays(date, -back));
    if (entry && (entry.pluggedAt !== null || entry.gridKwh !== null)) return true;
  }
  return false;
}

/** The charge counts as done at the first look three hours or more after plugging in, at the latest when the vehicle leaves. */
function chargeEnd(records: Logged, date: CivilDate, night: Night): number {
  const { readings } = records;
  const leaveUtcMs = leaveUtcMsOf(records, plusDays(date, 1));
  const looked = readings
    .map((reading) => reading.atUtcMs)
    .filter((atUtcMs) => atUtcMs >= night.pluggedUtcMs + 3 * HOUR_MS && atUtcMs < leaveUtcMs);
  return Math.min(leaveUtcMs, ...looked);
}

function leaveUtcMsOf({ vehicle, rounds, shifts, yard }: LearnRecords, date: CivilDate): number {
  const plan = shiftPlanOf(vehicle, rounds, shifts, date);
  return utcMsAt(date, plan?.leaveMinute ?? HABIT_LEAVE_MINUTE, yard.zone);
}

type GaugeRead = Pick<Reading, "kind" | "value" | "perBlock" | "restedMin" | "atUtcMs">;

/** A gauge as the learning takes it; null when the figure cannot be. */
export function gaugeOf(vehicle: Vehicle, read: GaugeRead): GaugeSeen | null {
  const { kind, value, restedMin, perBlock, atUtcMs } = read;
  const [reading, battery] = [
    { kind, value, restedMin, perBlock: perBlock || null, bars: vehicle.gauge.bars },
    batteryOf(vehicle),
  ];
  const own = kind === "volts" ? shareByVolts(reading, battery) : null;
  const level = own ? null : levelFromReading(reading, battery);
  if (level && !level.ok) return null;
  const { share, sdShare } = own ?? (level as { readonly value: Level }).value;
  const [low, high] = level ? [level.value.low, level.value.high] : [share, share];
  return {
    atUtcMs,
    share,
    sdShare,
    low: low <= 0.01 ? -0.1 : share,
    high: high >= 0.99 ? 1.1 : share,
    full: kind === "full",
    slips: kind === "percent" ? [share * 10, share / 10].filter((each) => each <= 1) : [],
    sure: false,
  };
}

/** Where the charger stops on this vehicle. */
export function fullLevelOf(vehicle: Vehicle): FullLevel {
  const read = gaugeOf(vehicle, { kind: "full", value: 0, perBlock: false, restedMin: null, atUtcMs: 0 });
  return read ?? { share: 1, sdShare: 0.02 };
}
