import { learnedFactors } from "../calc/learn/doubt.js";
import type { VehicleLearned } from "../calc/learn/parts.js";
import { newPlaceSky, type PlaceSky } from "../calc/learn/sky.js";
import type { Entry, Forecast, Learned, PlaceLearned, Reading, Shift, Sky, Vehicle, Yard } from "../records/index.js";
import { minuteOfClock, type Round } from "../records/index.js";
import { type LearnRecords, learnPlace, learnUntil, type SunSeen, startLearning } from "../records/map/learn.js";
import { packPlace, packVehicle, unpackPlace, unpackVehicle } from "../records/map/learn-pack.js";
import { livedDays, scoreOf } from "../records/map/lived.js";
import { withoutEchoes } from "../records/map/log-echo.js";
import { clamp } from "../units/numbers.js";
import { type CivilDate, civilDate, plusDays, utcMsAt } from "../units/zone.js";

/** One vehicle's log as far as it is needed: since some weeks before what is settled of it, or all of it. */
export interface LearnerAsk {
  readonly vehicle: Vehicle;
  readonly held: Learned | null;
  readonly shifts: readonly Shift[];
  readonly readings: readonly Reading[];
  readonly entries: readonly Entry[];
  readonly forecasts: readonly Forecast[];
}

export interface LearnAsk {
  readonly yard: Yard;
  readonly place: PlaceLearned | null;
  readonly rounds: readonly Round[];
  readonly skies: readonly Sky[];
  readonly vehicles: readonly LearnerAsk[];
  readonly nowUtcMs: number;
}

export interface LearnedNow {
  readonly record: Learned;
  /** The three figures that a vehicle's own record keeps of it. */
  readonly inShort: NonNullable<Vehicle["learned"]>;
}

export interface LearnAnswer {
  readonly place: PlaceLearned;
  readonly vehicles: readonly LearnedNow[];
}

interface Learner {
  readonly ask: LearnerAsk;
  readonly records: LearnRecords;
  state: VehicleLearned;
  settled: VehicleLearned;
}

/**
 * Goes on learning from the log of some vehicles of one yard: day by day up to yesterday's midnight, which is then settled, and on to now, which
 * is worked out anew each time, as those days are still being written in. The place learns each day after its vehicles, as in a replay. Pure.
 */
export function learnYard(ask: LearnAsk): LearnAnswer {
  const { yard, nowUtcMs } = ask;
  const today = civilDate(nowUtcMs, yard.zone);
  const settleDate = plusDays(today, -1);
  const learners = ask.vehicles.map((each) => learnerOf(each, ask));
  const settledPlace = unpackPlace(ask.place?.settled ?? null) ?? newPlaceSky(yard.id);
  const from = firstDate(learners, settledPlace, settleDate);
  const place = learnDays({ learners, ask, place: settledPlace, from, to: settleDate });
  for (const learner of learners) learner.settled = learner.state;
  const now = learnDays({ learners, ask, place, from: settleDate, to: plusDays(today, 1) });
  return {
    place: {
      id: yard.id,
      v: 1,
      yardId: yard.id,
      settled: packPlace(place),
      state: packPlace(now),
      atUtcMs: Math.round(nowUtcMs),
    },
    vehicles: learners.map((learner) => learnedNow(learner, ask)),
  };
}

function learnerOf(ask: LearnerAsk, { yard, rounds, skies }: LearnAsk): Learner {
  const { vehicle, held, shifts } = ask;
  const since = held?.sinceDate ?? null;
  const sinceUtcMs = since === null ? Number.NEGATIVE_INFINITY : utcMsAt(since, 0, yard.zone);
  const entries = ask.entries.filter((entry) => since === null || entry.date >= since);
  const after = ask.readings.filter((reading) => reading.atUtcMs >= sinceUtcMs);
  const readings = withoutEchoes(after, entries, yard.zone);
  const state = unpackVehicle(held?.settled ?? null) ?? startLearning(vehicle);
  const records: LearnRecords = { yard, vehicle, rounds, skies, shifts, readings, entries };
  return { ask: { ...ask, entries }, records, state, settled: state };
}

function firstDate(learners: readonly Learner[], place: PlaceSky, settleDate: CivilDate): CivilDate {
  const dates = learners.map(({ state, records }) => {
    if (state.throughUtcMs !== null) return civilDate(state.throughUtcMs, records.yard.zone);
    const first = [
      ...records.entries.map((entry) => entry.date),
      ...records.readings.map((reading) => civilDate(reading.atUtcMs, records.yard.zone)),
    ];
    return first.reduce((least, date) => (date < least ? date : least), settleDate);
  });
  const after = place.last === null ? [] : [plusDays(place.last.date, 1)];
  return [...dates, ...after].reduce((least, date) => (date < least ? date : least), settleDate);
}

interface Days {
  readonly learners: readonly Learner[];
  readonly ask: LearnAsk;
  readonly place: PlaceSky;
  readonly from: CivilDate;
  /** This day's midnight ends it. */
  readonly to: CivilDate;
}

/** Every vehicle through each day, then the place by what its roofs measured and what was said; a day the place has had it does not take twice. */
function learnDays({ learners, ask, place, from, to }: Days): PlaceSky {
  const { yard, nowUtcMs } = ask;
  let held = place;
  for (let date = from; date < to; date = plusDays(date, 1)) {
    const untilUtcMs = Math.min(nowUtcMs, utcMsAt(plusDays(date, 1), 0, yard.zone));
    const suns: SunSeen[] = [];
    for (const learner of learners) {
      if ((learner.state.throughUtcMs ?? 0) >= untilUtcMs) continue;
      const lesson = learnUntil(learner.state, near(learner.records, date), held, untilUtcMs);
      learner.state = lesson.vehicle;
      suns.push(...lesson.suns);
    }
    const isNew = held.last === null || held.last.date < date;
    const isOver = untilUtcMs >= utcMsAt(date, EVENING_MINUTE, yard.zone);
    if (isNew && isOver) held = learnPlace(held, yard, ask.skies, date, suns);
  }
  return held;
}
/** The sky of a day is known by this minute. */
const EVENING_MINUTE = 20 * 60;

/** Days back that an entry or a reading can bear on a day: whether plugs are noted at all. */
const NEAR_DAYS = 16;

/** The records that a day can depend on: looking through all of a long log for every day of it would be slow. */
function near(records: LearnRecords, date: CivilDate): LearnRecords {
  const [from, to] = [plusDays(date, -NEAR_DAYS), plusDays(date, 2)];
  const { zone } = records.yard;
  const [fromUtcMs, toUtcMs] = [utcMsAt(plusDays(date, -3), 0, zone), utcMsAt(to, 0, zone)];
  const close = (of: { readonly date: CivilDate }) => of.date >= from && of.date <= to;
  return {
    ...records,
    entries: records.entries.filter(close),
    shifts: records.shifts.filter(close),
    skies: records.skies.filter(close),
    readings: records.readings.filter(({ atUtcMs }) => atUtcMs >= fromUtcMs && atUtcMs < toUtcMs),
  };
}

function learnedNow({ ask, state, settled, records }: Learner, { yard, nowUtcMs }: LearnAsk): LearnedNow {
  const { vehicle, held } = ask;
  const lived = livedDays({ vehicle, yard, entries: ask.entries, forecasts: ask.forecasts, learned: state });
  return {
    record: {
      id: vehicle.id,
      v: 1,
      vehicleId: vehicle.id,
      on: held?.on ?? true,
      sinceDate: held?.sinceDate ?? null,
      settled: packVehicle(settled),
      state: packVehicle(state),
      pluggedUtcMs: pluggedSince(records, state, nowUtcMs),
      score: scoreOf(lived) ?? held?.score ?? null,
    },
    inShort: shortOf(state, vehicle),
  };
}

/** When it was plugged in, if the last day says so and nothing was taken in after. */
function pluggedSince({ yard, entries }: LearnRecords, state: VehicleLearned, nowUtcMs: number): number | null {
  const last = entries.reduce<Entry | null>((late, entry) => (late && late.date >= entry.date ? late : entry), null);
  if (!last?.pluggedAt) return null;
  const minute = minuteOfClock(last.pluggedAt);
  const atUtcMs = utcMsAt(last.date, minute < NOON_MINUTE ? minute + DAY_MINUTES : minute, yard.zone);
  const levelUtcMs = state.levelAtUtcMs ?? Number.POSITIVE_INFINITY;
  return atUtcMs > levelUtcMs && atUtcMs <= nowUtcMs ? Math.round(atUtcMs) : null;
}
const NOON_MINUTE = 720;
const DAY_MINUTES = 1440;

/** A set that holds less than its plate says counts as more energy for each km: the gauge cannot tell them apart. */
function shortOf(state: VehicleLearned, vehicle: Vehicle): NonNullable<Vehicle["learned"]> {
  const usual = { wet: false, load: vehicle.usual.loadClass, driver: null };
  const { driveMiddle, driveSdLog, capacity } = learnedFactors(state, usual);
  const rounded = (value: number) => Math.round(value * 1e4) / 1e4;
  return {
    driveFactor: rounded(clamp(driveMiddle / capacity, 0.2, 5)),
    spread: rounded(clamp(driveSdLog, 0, 1)),
    days: Math.min(10_000, state.days),
  };
}
