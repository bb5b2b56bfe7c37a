import type { Band, DayAnswer, TopUp, Verdict } from "../calc/day/answer.js";
import { planDay } from "../calc/day/plan-day.js";
import { isGuess, type PartShown, partsShown, type VehicleLearned } from "../calc/learn/parts.js";
import { newPlaceSky, type PlaceSky } from "../calc/learn/sky.js";
import type { Entry, Reading, Shift, Sky, Vehicle, Yard } from "../records/index.js";
import { type LearnRecords, learnPlace, learnUntil, type SunSeen, startLearning } from "../records/map/learn.js";
import { learnedInputOf } from "../records/map/learned-input.js";
import { withoutEchoes } from "../records/map/log-echo.js";
import { runShift, shiftPlanOf } from "../records/map/shift.js";
import { skiesByDate } from "../records/map/weather.js";
import { HOUR_MS, interpolate, MINUTE_MS } from "../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../units/zone.js";
import type { ReplayFile } from "./replay-file.js";

/** Quantiles of the charge at whole hours of the yard's clock, from the moment of the forecast to the end of the day. */
export interface HourLevels {
  readonly atUtcMs: readonly number[];
  readonly p05: readonly number[];
  readonly p10: readonly number[];
  readonly p50: readonly number[];
  readonly p90: readonly number[];
  readonly p95: readonly number[];
}

/** One forecast as it would have been shown; levels are shares of the set's usable charge. */
export interface Forecast {
  readonly vehicleId: string;
  readonly date: CivilDate;
  readonly when: "evening" | "morning";
  readonly madeUtcMs: number;
  /** Days that the vehicle had learned from, and whether the answer was called a guess. */
  readonly days: number;
  readonly guess: boolean;
  readonly verdict: Verdict;
  readonly missing: readonly string[];
  /** Chance that the lowest point stays above the reserve if nothing more is put in. */
  readonly chance: number;
  readonly reserveShare: number;
  readonly levels: HourLevels;
  /** When the forecast starts: at the last look before it was made. */
  readonly start: Band;
  readonly lowest: Band;
  readonly home: Band;
  readonly topUp: Pick<TopUp, "code" | "gridKwh" | "latestPlugInUtcMs" | "toShare" | "sunDoesIt">;
  readonly sunWh: Band & { readonly mean: number };
  readonly driveWh: Band;
  readonly usableWh: number;
}

export interface ReplayOptions {
  /** "off": nominal figures, nothing learned. */
  readonly learn: "on" | "off";
  readonly draws?: number;
  /** For tests: replaces what is known before a day is forecast and before it is taken in. */
  readonly know?: (learned: VehicleLearned, vehicle: Vehicle, date: CivilDate) => VehicleLearned;
}

export interface Replayed {
  readonly forecasts: readonly Forecast[];
  readonly learned: readonly {
    readonly vehicleId: string;
    readonly days: number;
    readonly parts: readonly PartShown[];
  }[];
}

/** A forecast of the evening is made at this minute at the earliest. */
const EVENING_MINUTE = 20 * 60;
const HABIT_LEAVE_MINUTE = 6 * 60;

/**
 * Goes through the days of a fleet as they came. For each day and vehicle: the evening before forecasts with what was known then, the morning
 * forecasts at leaving, and then the day's entry is taken in. Nothing from later is looked at. Pure.
 */
export function replay(file: ReplayFile, options: ReplayOptions): Replayed {
  const { vehicles, yards } = file.fleet;
  const runs = vehicles.flatMap((vehicle) => {
    const yard = yards.find((each) => each.id === vehicle.yardId);
    return yard ? [newRun(file, vehicle, yard)] : [];
  });
  let places = new Map(yards.map((yard) => [yard.id, newPlaceSky(yard.id)]));
  const forecasts: Forecast[] = [];
  for (const date of datesOf(file)) {
    const at = (run: Run) => timesOf(run, date);
    for (const run of runs) learnTo(run, date, at(run).eveningUtcMs, places, options);
    places = learnPlaces(places, runs, file, date);
    for (const run of runs) forecasts.push(forecast(run, date, "evening", at(run).eveningUtcMs, places, file, options));
    for (const run of runs) learnTo(run, date, at(run).leaveUtcMs, places, options);
    for (const run of runs) forecasts.push(forecast(run, date, "morning", at(run).leaveUtcMs, places, file, options));
  }
  const learned = runs.map(({ learned: { vehicleId, days }, learned }) => ({
    vehicleId,
    days,
    parts: partsShown(learned),
  }));
  return { forecasts, learned };
}

interface Run {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly records: LearnRecords;
  learned: VehicleLearned;
  suns: SunSeen[];
}

function newRun({ fleet }: ReplayFile, vehicle: Vehicle, yard: Yard): Run {
  const own = <R extends { readonly vehicleId: string }>(list: readonly R[]) =>
    list.filter((record) => record.vehicleId === vehicle.id);
  const records: LearnRecords = {
    yard,
    vehicle,
    rounds: fleet.rounds,
    shifts: own<Shift>(fleet.shifts),
    skies: fleet.skies.filter((sky) => sky.yardId === yard.id),
    readings: withoutEchoes(own<Reading>(fleet.readings), own<Entry>(fleet.entries), yard.zone),
    entries: own<Entry>(fleet.entries),
  };
  return { vehicle, yard, records, learned: startLearning(vehicle), suns: [] };
}

function datesOf({ fleet, from, to }: ReplayFile): CivilDate[] {
  const known = [...fleet.entries, ...fleet.shifts].map((record) => record.date).sort();
  const first = from ?? known[0];
  const last = to ?? known[known.length - 1];
  const dates: CivilDate[] = [];
  if (first && last) for (let date = first; date <= last; date = plusDays(date, 1)) dates.push(date);
  return dates;
}

type Places = ReadonlyMap<string, PlaceSky>;
const placeOf = (places: Places, yard: Yard): PlaceSky => places.get(yard.id) ?? newPlaceSky(yard.id);

function learnTo(run: Run, date: CivilDate, utcMs: number, places: Places, options: ReplayOptions): void {
  const known = (learned: VehicleLearned) => options.know?.(learned, run.vehicle, date) ?? learned;
  const records = recordsUpTo(run.records, utcMs, run.yard);
  const lesson = learnUntil(known(run.learned), records, placeOf(places, run.yard), utcMs);
  run.learned = known(lesson.vehicle);
  run.suns.push(...lesson.suns);
}

/** Entries of days that are over, and readings taken: what the phone held at that moment. */
function recordsUpTo(records: LearnRecords, utcMs: number, yard: Yard): LearnRecords {
  const today = civilDate(utcMs, yard.zone);
  const evening = utcMsAt(today, EVENING_MINUTE, yard.zone) <= utcMs;
  return {
    ...records,
    readings: records.readings.filter((reading) => reading.atUtcMs <= utcMs),
    entries: records.entries.filter((entry) => entry.date < today || (evening && entry.date === today)),
  };
}

/** The evening forecast is made once the day before is over and its gauge read; the morning one at leaving. */
function timesOf({ records, vehicle, yard }: Run, date: CivilDate): { eveningUtcMs: number; leaveUtcMs: number } {
  const before = plusDays(date, -1);
  const plan = shiftPlanOf(vehicle, records.rounds, records.shifts, date);
  const leaveUtcMs = utcMsAt(date, plan?.leaveMinute ?? HABIT_LEAVE_MINUTE, yard.zone);
  const yesterday = shiftPlanOf(vehicle, records.rounds, records.shifts, before);
  const home = yesterday ? runShift(yesterday, { yard, vehicle, skies: new Map() }).homeUtcMs : 0;
  const earliest = Math.max(utcMsAt(before, EVENING_MINUTE, yard.zone), home + 5 * MINUTE_MS);
  return { eveningUtcMs: Math.min(earliest, leaveUtcMs - HOUR_MS), leaveUtcMs };
}

function forecast(
  run: Run,
  date: CivilDate,
  when: Forecast["when"],
  nowUtcMs: number,
  places: Places,
  file: ReplayFile,
  { learn, draws }: ReplayOptions,
): Forecast {
  const { vehicle, yard, records, learned } = run;
  const day = {
    yard,
    vehicle,
    rounds: records.rounds,
    shifts: records.shifts,
    skies: knownSkies(records.skies, date, file.skies),
    readings: records.readings,
    date,
    nowUtcMs,
    ...(draws === undefined ? {} : { draws }),
  };
  const what = learn === "on" ? { vehicle: learned, place: placeOf(places, yard) } : { vehicle: null, place: null };
  return shown(planDay(learnedInputOf(day, what)), { date, when, nowUtcMs, learned, yard });
}

const knownSkies = (skies: readonly Sky[], date: CivilDate, kept: "before" | "after"): readonly Sky[] =>
  skies.filter((sky) => (kept === "before" ? sky.date <= date : sky.date < date));

interface Made {
  readonly date: CivilDate;
  readonly when: Forecast["when"];
  readonly nowUtcMs: number;
  readonly learned: VehicleLearned;
  readonly yard: Yard;
}

function shown(answer: DayAnswer, made: Made): Forecast {
  const { code, gridKwh, latestPlugInUtcMs, toShare, sunDoesIt } = answer.topUp;
  return {
    vehicleId: answer.vehicleId,
    date: made.date,
    when: made.when,
    madeUtcMs: made.nowUtcMs,
    days: made.learned.days,
    guess: isGuess(made.learned),
    verdict: answer.verdict,
    missing: answer.missing,
    chance: answer.chance,
    reserveShare: answer.reserveShare,
    levels: hourLevels(answer, made),
    start: answer.start,
    lowest: answer.lowest,
    home: answer.home,
    topUp: { code, gridKwh, latestPlugInUtcMs, toShare, sunDoesIt },
    sunWh: { ...answer.sunTaken, mean: answer.book.sunTakenWh },
    driveWh: answer.drive,
    usableWh: answer.usableWh,
  };
}

function hourLevels({ lines }: DayAnswer, { date, yard }: Made): HourLevels {
  const first = lines.atUtcMs[0] as number;
  const last = lines.atUtcMs[lines.atUtcMs.length - 1] as number;
  const hours = Array.from({ length: 49 }, (_, h) => utcMsAt(plusDays(date, -1), h * 60, yard.zone));
  const atUtcMs = hours.filter((utcMs) => utcMs >= first && utcMs <= last);
  const line = (ys: readonly number[]) => atUtcMs.map((utcMs) => interpolate(lines.atUtcMs, ys, utcMs));
  return {
    atUtcMs,
    p05: line(lines.p05),
    p10: line(lines.p10),
    p50: line(lines.p50),
    p90: line(lines.p90),
    p95: line(lines.p95),
  };
}

/** Each place takes in the sky of the day before, by what its roofs measured or somebody said. */
function learnPlaces(
  places: Places,
  runs: readonly Run[],
  { fleet }: ReplayFile,
  date: CivilDate,
): Map<string, PlaceSky> {
  const next = new Map(places);
  for (const yard of fleet.yards) {
    const place = places.get(yard.id);
    if (!place) continue;
    const before = plusDays(date, -1);
    const suns = runs.filter((run) => run.yard.id === yard.id).flatMap((run) => run.suns);
    const skies = [...skiesByDate(fleet.skies, yard.id).values()].filter((sky) => sky.date === before);
    next.set(yard.id, learnPlace(place, yard, skies, before, suns));
  }
  for (const run of runs) run.suns = [];
  return next;
}
