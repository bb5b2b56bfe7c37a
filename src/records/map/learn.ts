import { refill, storeModel } from "../../calc/battery/index.js";
import { type ChargeSeen, charge, readSunMeter } from "../../calc/learn/charge.js";
import { learnedFactors, withKm } from "../../calc/learn/doubt.js";
import { type Hindsight, hindsightOf, WORD_HOUR_SCATTER } from "../../calc/learn/hindsight.js";
import { type DriveKind, type DriveSeen, driveDay, passDays } from "../../calc/learn/learn-day.js";
import { newLearned, placeOf, type VehicleLearned } from "../../calc/learn/parts.js";
import { readGauge } from "../../calc/learn/read-gauge.js";
import {
  dayTogether,
  learnGain,
  learnScatter,
  learnSky,
  newPlaceSky,
  type PlaceSky,
  type SunOfWords,
  skyFromMeters,
  skyGain,
  skyOfDay,
  threeOf,
} from "../../calc/learn/sky.js";
import { clamp, HOUR_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, monthIndex, plusDays, utcMsAt } from "../../units/zone.js";
import type { Sky, Vehicle, Yard } from "../index.js";
import { batteryOf } from "./battery.js";
import { dayInputOf } from "./day.js";
import {
  type DrivenDay,
  eventsBetween,
  fullLevelOf,
  gaugeOf,
  type LearnEvent,
  type LearnRecords,
  type Night,
} from "./learn-events.js";
import { learnedSky } from "./learned-input.js";
import { meanAirC, skiesByDate, wetOn, wordOf } from "./weather.js";

export type { LearnRecords } from "./learn-events.js";

/** Sun of one day by a roof's own meter, against what was to be expected of its sky. */
export interface SunSeen extends SunOfWords {
  readonly date: CivilDate;
  readonly likelyWh: number;
  readonly sdWh: number;
}

export interface Lesson {
  readonly vehicle: VehicleLearned;
  /** Days whose sun was measured: the place learns from them. */
  readonly suns: readonly SunSeen[];
}

/** Health of sets in service: 0.73 to 0.98, as a log-normal middle and spread. */
const IN_SERVICE = { log: Math.log(0.855), sdLog: 0.085 };
/** Doubt of a health that a person typed, and of one that nobody did. Common practice, no source. */
const TYPED_SD_LOG = 0.06;
const GUESSED_SD_LOG = 0.12;
/**
 * A gauge in volts errs the same way every day, by the set's own curve and the meter. Published tables of lead-acid agree on a full set within 5 % of
 * the charge and differ by 11 % and more at the low end (anchors A5).
 */
const VOLTS = { gaugeSureAt: 1, gaugeSd: 0.05, gaugeScaleSdLog: 0.15 } as const;
/** Nobody knows whether a bar goes out when it is half empty or wholly: an even doubt of one bar on top of a plain gauge's. */
const barsGauge = (bars: number) => ({ gaugeSd: Math.hypot(0.03, 1 / bars / Math.sqrt(12)) });

/** Start of learning for a vehicle, by what its record says of set and gauge, and how surely. */
export function startLearning(vehicle: Vehicle): VehicleLearned {
  const { kind, bars } = vehicle.gauge;
  const gauge = kind === "volts" ? VOLTS : kind === "bars" ? barsGauge(bars ?? 5) : {};
  if (!vehicle.guesses.some((path) => path.startsWith("battery.")))
    return newLearned(vehicle.id, { ...gauge, capacitySdLog: TYPED_SD_LOG });
  const [own, all] = [GUESSED_SD_LOG ** -2, IN_SERVICE.sdLog ** -2];
  const capacityLog = (all * (IN_SERVICE.log - Math.log(vehicle.battery.health))) / (own + all);
  return newLearned(vehicle.id, { ...gauge, capacityLog, capacitySdLog: (own + all) ** -0.5 });
}

/**
 * Takes in everything on record after what was taken in before, up to `untilUtcMs`. Readings, driving and charging follow each other in time,
 * and the level held likely goes with them. Pure: the same records in the same steps give the same state.
 */
export function learnUntil(before: VehicleLearned, records: LearnRecords, place: PlaceSky, untilUtcMs: number): Lesson {
  const from = before.throughUtcMs ?? firstUtcMs(records, untilUtcMs);
  const ground: Ground = { ...records, place, byDate: skiesByDate(records.skies, records.yard.id) };
  let vehicle = before;
  const suns: SunSeen[] = [];
  for (const event of eventsBetween(records, from, untilUtcMs)) {
    vehicle = passDays(vehicle, civilDate(event.atUtcMs, records.yard.zone));
    const lesson = takeIn(vehicle, event, ground);
    vehicle = lesson.vehicle;
    suns.push(...lesson.suns);
  }
  return { vehicle: { ...vehicle, throughUtcMs: Math.max(from, untilUtcMs) }, suns };
}

function firstUtcMs({ readings, entries, yard }: LearnRecords, untilUtcMs: number): number {
  const dates = entries.map((entry) => utcMsAt(entry.date, 0, yard.zone));
  return Math.min(untilUtcMs, ...readings.map((reading) => reading.atUtcMs - 1), ...dates);
}

interface Ground extends LearnRecords {
  readonly place: PlaceSky;
  readonly byDate: ReadonlyMap<CivilDate, Sky>;
}

function takeIn(before: VehicleLearned, event: LearnEvent, ground: Ground): Lesson {
  switch (event.kind) {
    case "lost":
      return { vehicle: charge(before, { kind: "unknown" }), suns: [] };
    case "gauge":
      return { vehicle: readGauge(stood(before, event.atUtcMs, ground), event.seen), suns: [] };
    case "drive":
      return drove(before, event.day, event.atUtcMs, event.last, ground);
    case "charge":
      return { vehicle: chargedOver(before, event.night, event.atUtcMs, ground), suns: [] };
  }
}

const level = (learned: VehicleLearned): number => clamp(learned.belief.mean[placeOf("level")] as number, 0, 1);

interface Stretch {
  readonly date: CivilDate;
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly day: DrivenDay | null;
  readonly kind: DriveKind;
}

const DRAWS = 24;
const PLAIN: DriveKind = { wet: false, load: null, driver: null };

/** Works out a stretch with the factors now held and the sky as it was said. */
function lookBack(learned: VehicleLearned, stretch: Stretch, ground: Ground): Hindsight & { usableWh: number } {
  const { yard, vehicle, place, byDate } = ground;
  const startShare = level(learned);
  const held = {
    id: "held",
    v: 1 as const,
    vehicleId: vehicle.id,
    atUtcMs: stretch.fromUtcMs,
    kind: "percent" as const,
    value: startShare * 100,
    restedMin: null,
    perBlock: false,
  };
  const input = dayInputOf({
    yard,
    vehicle: stretch.day ? vehicle : { ...vehicle, usual: { ...vehicle.usual, roundId: null } },
    rounds: ground.rounds,
    shifts: stretch.day ? [stretch.day.shift] : [],
    skies: ground.skies,
    readings: [held],
    date: stretch.date,
    nowUtcMs: stretch.fromUtcMs,
    draws: DRAWS,
  });
  const factors = learnedFactors(learned, stretch.kind);
  const gain = skyGain(place, wordOf(byDate.get(stretch.date)));
  const { usableWh } = input.store;
  const hindsight = hindsightOf({
    ...input,
    segments: clipped(input.segments, stretch.fromUtcMs, stretch.toUtcMs),
    sky: learnedSky(input.sky, yard, byDate, place),
    store: { ...input.store, usableWh: usableWh * factors.capacity },
    doubt: {
      startShare,
      startSdShare: 0,
      driveMiddle: factors.driveMiddle,
      driveSdLog: 0,
      roofMiddle: factors.roofMiddle * gain,
      roofSdLog: 0,
      otherMiddle: 1,
      otherSdLog: 0,
      coverDayCorrelation: dayTogether(place),
    },
  });
  // The gain of the sky belongs to what was to be expected, not to the roof.
  const { openSunWh, shadeSunWh } = hindsight;
  return { ...hindsight, openSunWh: openSunWh * gain, shadeSunWh: shadeSunWh * gain, usableWh };
}

const clipped = <S extends { readonly fromUtcMs: number; readonly toUtcMs: number; readonly km: number }>(
  segments: readonly S[],
  fromUtcMs: number,
  toUtcMs: number,
): S[] =>
  segments
    .filter((segment) => segment.toUtcMs > fromUtcMs && segment.fromUtcMs < toUtcMs)
    .map((segment) => {
      const from = Math.max(fromUtcMs, segment.fromUtcMs);
      const to = Math.min(toUtcMs, segment.toUtcMs);
      return {
        ...segment,
        fromUtcMs: from,
        toUtcMs: to,
        km: (segment.km * (to - from)) / (segment.toUtcMs - segment.fromUtcMs),
      };
    });

/** The roof and the set's own loss while the vehicle stands, since the last look. */
function stood(learned: VehicleLearned, untilUtcMs: number, ground: Ground): VehicleLearned {
  const since = learned.levelAtUtcMs;
  if (since === null || untilUtcMs - since < HOUR_MS / 2) return learned;
  const date = civilDate(untilUtcMs, ground.yard.zone);
  const stretch: Stretch = { date, fromUtcMs: since, toUtcMs: untilUtcMs, day: null, kind: PLAIN };
  const was = lookBack(learned, stretch, ground);
  return driveDay(learned, seenOf(was, { kind: PLAIN, written: "no", kmSdLog: 0, ratio: 1, endUtcMs: untilUtcMs }));
}

interface Told {
  readonly kind: DriveKind;
  readonly written: DriveSeen["written"];
  readonly kmSdLog: number;
  readonly ratio: number;
  readonly endUtcMs: number;
}

function seenOf(was: Hindsight & { usableWh: number }, told: Told) {
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

/** Spread of the kilometres where a day was written without them. Common practice, no source. */
const UNWRITTEN_KM_SD = 0.1;
/** Kilometres this far from the plan are another round, or a slip. */
const FAR_LOG = Math.log(2.5);

function drove(before: VehicleLearned, day: DrivenDay, untilUtcMs: number, last: boolean, ground: Ground): Lesson {
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
  const planned = level(learned) - driveShare + (sunWh - was.otherWh) / (was.usableWh * factors.capacity);
  const written = planned - driveShare * (ratio - 1);
  return Math.abs(seen.share - clamp(written, 0, 1)) < Math.abs(seen.share - clamp(planned, 0, 1));
}

/** A measured sun is no longer in doubt and teaches the level, not the roof. */
function withMeter(seen: ReturnType<typeof seenOf>, ratio: number, learned: VehicleLearned) {
  const roof = Math.exp(learned.belief.mean[placeOf("roof")] as number);
  const shade = Math.exp(learned.belief.mean[placeOf("shade")] as number);
  const sunWh = (seen.openSunWh + seen.shadeSunWh * shade) * roof * ratio;
  return { ...seen, openSunWh: 0, shadeSunWh: 0, sunSdLog: 0, plugWh: seen.plugWh + sunWh };
}

/** No roof brings so much more than its bright day: the figure is a slip. Common practice, no source. */
const MOST_OVER_BRIGHT = 2.5;

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
  const roof = Math.exp(before.belief.mean[placeOf("roof")] as number);
  const shade = Math.exp(before.belief.mean[placeOf("shade")] as number);
  const likelyWh = (was.openSunWh + was.shadeSunWh * shade) * roof;
  if (likelyWh < 1 || seenWh > MOST_OVER_BRIGHT * Math.max(likelyWh, was.wordsSunWh[0])) return null;
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

function chargedOver(before: VehicleLearned, night: Night, endUtcMs: number, ground: Ground): VehicleLearned {
  if (night.kind === "none") return before;
  if (night.kind === "unknown") return charge(before, { kind: "unknown" });
  const waited = stood(before, Math.min(night.pluggedUtcMs, endUtcMs), ground);
  return charge(waited, chargeSeen(waited, night, endUtcMs, ground));
}

/** Units at the meter for each that the set holds: more is a slip. */
const MOST_GRID_PER_SET = 1.6;

function chargeSeen(learned: VehicleLearned, night: Night, endUtcMs: number, ground: Ground): ChargeSeen {
  const { vehicle, yard, byDate } = ground;
  const store = storeModel(batteryOf(vehicle), meanAirC(yard, byDate, endUtcMs));
  const fullLevel = fullLevelOf(vehicle);
  const { ratedW, efficiency } = vehicle.charger;
  const from = Math.min(level(learned), fullLevel.share - 0.01);
  const toFull = refill(store, { ratedW, efficiency }, { from, to: fullLevel.share });
  const hours = Math.max(0, (endUtcMs - night.pluggedUtcMs) / HOUR_MS);
  const missingWh = (fullLevel.share - from) * store.usableWh;
  const inTime = hours > 1.15 * toFull.hours;
  const shared = { atUtcMs: endUtcMs, usableWh: store.usableWh, fullLevel, inTime };
  const holds = night.gridKwh !== null && night.gridKwh * 1000 < MOST_GRID_PER_SET * store.usableWh;
  if (night.gridKwh !== null && holds && Number.isFinite(toFull.gridWh) && toFull.gridWh > 0)
    return { kind: "meter", ...shared, gridWh: night.gridKwh * 1000, efficiency: missingWh / toFull.gridWh };
  return { kind: "hours", ...shared, intoSetWh: Math.min(1, hours / toFull.hours) * missingWh };
}

/** The sky of a day that is over: said by a person, else worked out from the roofs' meters; a day of which nothing is known teaches nothing. */
export function learnPlace(
  before: PlaceSky,
  yard: Yard,
  skies: readonly Sky[],
  date: CivilDate,
  suns: readonly SunSeen[],
): PlaceSky {
  const usual = yard.usualSkyByMonth?.[monthIndex(date)] ?? null;
  const word = wordOf(skiesByDate(skies, yard.id).get(date));
  const today = suns.filter((sun) => sun.date === date && sun.likelyWh > 20);
  if (word === null && today.length === 0) return before;
  const { bright, mixed, dark } = skyOfDay(before, date, usual);
  const chances = word === null ? skyFromMeters([bright, mixed, dark], today) : threeOf(word);
  const learned = learnSky(before, date, chances, usual);
  if (today.length === 0) return learned;
  const mean = (of: (sun: SunSeen) => number) => today.reduce((sum, sun) => sum + of(sun), 0) / today.length;
  const z = mean((sun) => (sun.seenWh - sun.likelyWh) / Math.max(1, sun.sdWh));
  const scattered = learnScatter(learned, z);
  if (word === null) return scattered;
  return learnGain(
    scattered,
    word,
    mean((sun) => (sun.seenWh / sun.likelyWh) * skyGain(before, word) - 1),
  );
}

export { newPlaceSky };
