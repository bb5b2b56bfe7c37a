import { capacityFactor } from "../../calc/battery/index.js";
import { type Dice, diceOf, normalQuantile, seedOf } from "../../units/dice.js";
import { clamp, DAY_MS, HOUR_MS } from "../../units/numbers.js";
import { type CivilDate, monthIndex, plusDays, utcMsAt } from "../../units/zone.js";
import type { Entry, Reading, Sky } from "../day.js";
import { entryId, forecastId } from "../ids.js";
import type { Forecast } from "../learned.js";
import { runShift } from "../map/shift.js";
import type { Round } from "../round.js";
import type { Vehicle } from "../vehicle.js";
import type { Yard } from "../yard.js";
import { DEMO_DAYS, gaugeOf, kmOf, madeUpReading, madeUpSky, round1 } from "./log.js";

export interface Past {
  readonly skies: readonly Sky[];
  readonly readings: readonly Reading[];
  readonly entries: readonly Entry[];
  readonly forecasts: readonly Forecast[];
}

/**
 * Made-up weeks behind a made-up yard. Each vehicle drives about its round with a habit of its own (some take 10 % more than the physics
 * says), gets some sun, and is charged at night; one night the supply failed. Some days nobody wrote in. Nothing of it comes from anybody's log.
 */
export function madeUpPast(yard: Yard, vehicles: readonly Vehicle[], rounds: readonly Round[], today: CivilDate): Past {
  const skies = pastSkies(yard, today);
  const pasts = vehicles.map((vehicle) => {
    const round = rounds.find(({ id }) => id === vehicle.usual.roundId);
    const paysOut = vehicle === vehicles[0] && yard.tariff.kind === "bands";
    return round ? pastOf({ vehicle, yard, round, skies, paysOut }) : { readings: [], entries: [], forecasts: [] };
  });
  return {
    skies,
    readings: pasts.flatMap(({ readings }) => readings),
    entries: pasts.flatMap(({ entries }) => entries),
    forecasts: pasts.flatMap(({ forecasts }) => forecasts),
  };
}

type Word = "bright" | "mixed" | "dark";

/** Days as bright as the month usually is, and often like the day before. */
function pastSkies(yard: Yard, today: CivilDate): Sky[] {
  const dice = diceOf(seedOf(yard.id));
  let word: Word = "bright";
  return Array.from({ length: DEMO_DAYS }, (_, n) => {
    const date = plusDays(today, n - DEMO_DAYS);
    const usual = yard.usualSkyByMonth?.[monthIndex(date)] ?? { bright: 0.4, mixed: 0.4, dark: 0.2 };
    if (n === 0 || dice() > 0.4) {
      const at = dice();
      word = at < usual.bright ? "bright" : at < usual.bright + usual.mixed ? "mixed" : "dark";
    }
    return madeUpSky(yard, date, word);
  });
}

/** Hours of full sun a flat roof gets in the open, and the share of it that a working roof delivers (common practice, no source). */
const SUN_HOURS: Readonly<Record<Word, number>> = { bright: 5.2, mixed: 3.6, dark: 1.5 };
const ROOF_YIELD = 0.58;
/** A vehicle off the road has been so for this many days. */
const OFF_ROAD_DAYS = 6;
/** Night on which the supply failed, counted back from today. */
const CUT_NIGHT = 9;

interface Habit {
  readonly drive: number;
  readonly roof: number;
}

interface PastCase {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly round: Round;
  readonly skies: readonly Sky[];
  /** Is charged at a stand once a week, and pays there. */
  readonly paysOut: boolean;
}

/** Of the yard's own day price; common practice, no source. */
const STAND_PRICE = 1.35;

function pastOf({ vehicle, yard, round, skies, paysOut }: PastCase): Omit<Past, "skies"> {
  const dice = diceOf(seedOf(vehicle.id));
  const habit: Habit = { drive: Math.exp(0.08 * gauss(dice)), roof: Math.exp(0.06 * gauss(dice)) };
  const readings: Reading[] = [];
  const entries: Entry[] = [];
  const forecasts: Forecast[] = [];
  const work = workOf(vehicle, yard, round, skies.at(-1)?.date ?? "");
  let level = 0.9;
  for (const [n, sky] of skies.entries()) {
    const back = DEMO_DAYS - n;
    if (vehicle.status === "offRoad" && back <= OFF_ROAD_DAYS) break;
    const word = sky.cover?.kind === "three" ? sky.cover.value : "mixed";
    const day = madeUpDay({ vehicle, round, work, word, habit, dice, level });
    if (dice() < 0.6) readings.push(morningReading(vehicle, yard, sky.date, level));
    if (dice() > 1 / 9) {
      const perKwhMinor = paysOut && n % 7 === 3 ? STAND_PRICE * yard.tariff.otherwisePerKwhMinor : null;
      entries.push(entryOf(vehicle, sky.date, day, perKwhMinor));
    }
    if (back < DEMO_DAYS) forecasts.push(forecastOf(vehicle, yard, { date: sky.date, days: n, word, work, level }));
    level = back === CUT_NIGHT ? Math.min(1, day.evening + 0.25) : 1;
  }
  return { readings, entries, forecasts };
}

/** Spread of a guess on the first days, and after ten; common practice, no source. */
const FIRST_SPREAD = 0.1;
const LATER_SPREAD = 0.045;
const NORMAL = [-1.645, -1.282, 0, 1.282, 1.645];

/** What was said of the day in the morning: the sheet's own figures, as nobody knew the vehicle's habit. */
function forecastOf(
  vehicle: Vehicle,
  yard: Yard,
  of: { date: CivilDate; days: number; word: Word; work: Work; level: number },
): Forecast {
  const usable = usableWh(vehicle);
  const roofW = vehicle.roof.faces.reduce((total, face) => total + face.ratedW, 0);
  const sunWh = roofW * SUN_HOURS[of.word] * ROOF_YIELD * of.work.sunShare;
  const likely = of.level - (of.work.driveWh + of.work.otherWh - sunWh) / usable;
  const spread = of.days < 10 ? FIRST_SPREAD : LATER_SPREAD;
  const home = NORMAL.map((z) => Math.round(1e4 * clamp(likely + z * spread, 0, 1)) / 1e4);
  const { reserveShare } = vehicle.battery;
  const [, low = 0, middle = 0] = home;
  const km = kmOfWork(of.work, usable);
  return {
    id: forecastId(vehicle.id, of.date),
    v: 1,
    vehicleId: vehicle.id,
    date: of.date,
    evening: null,
    first: {
      madeUtcMs: utcMsAt(of.date, vehicle.usual.leaveMinute - 5, yard.zone),
      days: of.days,
      verdict: low >= reserveShare ? "enough" : middle >= reserveShare ? "tight" : "short",
      chance: clamp(0.5 + (middle - reserveShare) / (4 * spread), 0, 1),
      reserveShare,
      home,
      lowest: home,
      kmPerSet: km,
    },
  };
}

const kmOfWork = ({ driveWh, otherWh, km }: Work, usable: number): number =>
  Math.round((10 * km * usable) / (driveWh + otherWh)) / 10;

const gauss = (dice: Dice): number => normalQuantile(0.02 + 0.96 * dice());

interface MadeDay {
  readonly km: number;
  /** On coming home, and after the afternoon's sun. */
  readonly home: number;
  readonly evening: number;
  readonly gridKwh: number;
}

function madeUpDay(of: {
  readonly vehicle: Vehicle;
  readonly round: Round;
  readonly work: Work;
  readonly word: Word;
  readonly habit: Habit;
  readonly dice: Dice;
  readonly level: number;
}): MadeDay {
  const { vehicle, work: run, habit, dice, level } = of;
  const usable = usableWh(vehicle);
  const roofW = vehicle.roof.faces.reduce((total, face) => total + face.ratedW, 0);
  const sunWh = roofW * SUN_HOURS[of.word] * ROOF_YIELD * habit.roof * Math.exp(0.12 * gauss(dice));
  const wanted = 1 + 0.05 * gauss(dice);
  const driveWh = run.driveWh * habit.drive * Math.exp(0.05 * gauss(dice));
  const onTheWayWh = sunWh * run.sunShare;
  // nobody drives a set flat: a day that would is cut short
  const most = (level * usable + onTheWayWh - run.otherWh - 0.08 * usable) / driveWh;
  const share = clamp(wanted, 0.2, Math.max(0.2, most));
  const home = clamp(level - (driveWh * share + run.otherWh - onTheWayWh) / usable, 0.06, 1);
  const evening = Math.min(1, home + (sunWh * run.afterShare) / usable);
  const lead = vehicle.battery.chemistry !== "lfp";
  const gridKwh = ((1 - evening) * usable) / (1000 * vehicle.charger.efficiency * (lead ? 0.82 : 0.97));
  return { km: Math.max(1, Math.round(kmOf(of.round) * share)), home, evening, gridKwh: round1(gridKwh) };
}

const usableWh = ({ battery }: Vehicle): number =>
  battery.nominalV * battery.ratedAh * battery.health * capacityFactor(battery.chemistry, 25);

/** What the physics says of the round, and which part of the day's sun falls on the way and after it; the same for all days of the past. */
interface Work {
  readonly km: number;
  readonly driveWh: number;
  readonly otherWh: number;
  readonly sunShare: number;
  readonly afterShare: number;
}

function workOf(vehicle: Vehicle, yard: Yard, round: Round, date: CivilDate): Work {
  const { leaveMinute, loadClass } = vehicle.usual;
  const loadKg = { empty: 0, half: 0.5, full: 1 }[loadClass] * vehicle.fullLoadKg;
  const run = runShift({ date, round, leaveMinute, loadKg }, { yard, vehicle, skies: new Map() });
  const wh = (w: (segment: (typeof run.segments)[number]) => number) =>
    run.segments.reduce((total, at) => total + (w(at) * (at.toUtcMs - at.fromUtcMs)) / HOUR_MS, 0);
  const midnight = utcMsAt(date, 0, yard.zone);
  const sunBefore = (utcMs: number) =>
    (1 - Math.cos(Math.PI * clamp((utcMs - midnight) / (DAY_MS / 2) - 0.5, 0, 1))) / 2;
  return {
    km: kmOf(round),
    driveWh: 1.03 * wh((at) => at.drainW - at.regenW),
    otherWh: wh((at) => at.otherW),
    sunShare: sunBefore(run.homeUtcMs) - sunBefore(run.leaveUtcMs),
    afterShare: 0.8 * (1 - sunBefore(run.homeUtcMs)), // the yard stands partly in shade
  };
}

function morningReading(vehicle: Vehicle, yard: Yard, date: CivilDate, level: number): Reading {
  const at = { date, minute: vehicle.usual.leaveMinute - 10, share: level, noLaterThanUtcMs: Number.POSITIVE_INFINITY };
  return madeUpReading(vehicle, yard, at);
}

const entryOf = (vehicle: Vehicle, date: CivilDate, day: MadeDay, paidPerKwhMinor: number | null): Entry => ({
  id: entryId(vehicle.id, date),
  v: 1,
  vehicleId: vehicle.id,
  date,
  km: day.km,
  trips: null,
  odometerKm: null,
  level: gaugeOf(vehicle, day.home),
  loadClass: vehicle.usual.loadClass,
  pluggedAt: "20:30",
  gridKwh: day.gridKwh,
  sunKwh: null,
  paidMinor: paidPerKwhMinor === null ? null : Math.round(day.gridKwh * paidPerKwhMinor),
  wet: false,
  driver: null,
  formerly: [],
});
