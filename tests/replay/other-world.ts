import type { ReplayFile, TruthDay } from "../../src/cli/replay-file.js";
import type { Entry, Fleet, Reading, Round, Shift, Sky, Vehicle, Yard } from "../../src/records/index.js";
import { type CivilDate, plusDays, utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import {
  dayOf,
  drive,
  FROM,
  LAT_DEG,
  LEAVE_H,
  type Maker,
  type OtherSlow,
  packWh,
  type Setting,
  whPerKm,
} from "./other-day.js";
import { entryOf, nightOf, readingOf, shiftOf, slipped } from "./other-log.js";
import { type WorldDice, worldDice } from "./world.js";

// A second simulated fleet, made by other means than simulate.ts and by nothing of src/calc: road, sun, sky, set and gauge are written anew here, in
// the plainest form that a textbook gives, so that what is learned cannot lean on our own models being true.

export interface OtherWorld {
  readonly file: ReplayFile;
  readonly slow: ReadonlyMap<string, OtherSlow>;
}

export function otherWorld(wish: {
  readonly seed: number;
  readonly vehicles: number;
  readonly days: number;
}): OtherWorld {
  const dice = worldDice(1000 + wish.seed);
  const yard: Yard = {
    ...(examples.yard as Yard),
    latDeg: LAT_DEG,
    lonDeg: 85,
    zone: "Asia/Kolkata",
    usualSkyByMonth: null,
    cuts: [],
  };
  const dates = Array.from({ length: wish.days }, (_, d) => plusDays(FROM, d));
  const sky = skyShares(wish.days, dice);
  const wet = sky.map((share) => share < 0.45 && dice.chance(0.6));
  const makers = Array.from({ length: wish.vehicles }, (_, i) => makerOf(i, yard, dice));
  const lived = makers.map((maker) => live(maker, { yard, dates, sky, wet, dice }));
  const fleet = {
    format: "noonplug-fleet",
    version: 1,
    title: "Simulated by other means",
    invented: true,
    sockets: [],
    yards: [yard],
    vehicles: makers.map(({ vehicle }) => vehicle),
    rounds: makers.flatMap(({ rounds }) => rounds),
    shifts: lived.flatMap(({ shifts }) => shifts),
    skies: dates.flatMap((date, d) => saidSky(yard, date, sky[d] as number, wet[d] === true, dice)),
    readings: lived.flatMap(({ readings }) => readings),
    entries: lived.flatMap(({ entries }) => entries),
  } as unknown as Fleet;
  const truth = lived.flatMap((each) => each.truth);
  const to = dates[dates.length - 1] as CivilDate;
  const slow = new Map(makers.map((maker) => [maker.vehicle.id, maker.slow]));
  return { file: { fleet, from: FROM, to, skies: "before", truth }, slow };
}

/** Clear shares of days as an autoregression of first order around 0.72, cut at 0.15 and 1. */
function skyShares(days: number, dice: WorldDice): number[] {
  let off = 0;
  return Array.from({ length: days }, () => {
    off = 0.45 * off + 0.2 * dice.normal();
    return Math.min(1, Math.max(0.15, 0.72 + off));
  });
}

/** Said on four evenings of five, by the share that is to come give or take 0.15. */
function saidSky(yard: Yard, date: CivilDate, share: number, wet: boolean, dice: WorldDice): Sky[] {
  if (dice.chance(0.2)) return [];
  const seen = share + 0.15 * dice.normal();
  const value = seen > 0.78 ? ("bright" as const) : seen > 0.5 ? ("mixed" as const) : ("dark" as const);
  const sky = { ...(examples.sky as Sky), id: `${yard.id}/${date}`, yardId: yard.id, date, wet };
  return [{ ...sky, cover: { kind: "three", value }, airMinC: null, airMaxC: null }];
}

function makerOf(i: number, yard: Yard, dice: WorldDice): Maker {
  const base = examples.vehicle as Vehicle;
  const kind = (["percent", "bars", "volts", "percent"] as const)[i % 4] ?? "percent";
  const health = 0.73 + 0.25 * dice.uniform();
  const typed = dice.chance(0.5);
  const lead = { chemistry: "sealedLead" as const, nominalV: 60, seriesCount: 30, ratedAh: 130, peukertExponent: 1.1 };
  const vehicle: Vehicle = {
    ...base,
    id: `w${i + 1}`,
    plate: `${i + 1}`,
    yardId: yard.id,
    gauge: { kind, bars: kind === "bars" ? 8 : null },
    battery: {
      ...base.battery,
      ...(kind === "volts" ? lead : {}),
      health: typed ? Math.min(1, Math.round(20 * health * dice.logNormal(0.04)) / 20) : 0.9,
    },
    usual: { roundId: null, leaveMinute: LEAVE_H * 60, loadClass: "half" },
    learned: null,
    guesses: typed ? [] : ["battery.health"],
  };
  const slow: OtherSlow = {
    driveLog: 0.15 * dice.normal(),
    driver: 0.07 * dice.normal(),
    roof: dice.logNormal(0.18),
    dirtPerDay: 0.006 * dice.uniform(),
    health,
    gaugeOffset: 0.025 * dice.normal(),
    gaugeScale: 1 + 0.03 * dice.normal(),
    meter: 1 + 0.02 * dice.normal(),
  };
  const km = ((0.5 + 0.2 * dice.uniform()) * packWh(vehicle, health)) / (1.1 * whPerKm(vehicle, 0.5, 18));
  return {
    vehicle,
    rounds: [km * 0.85, km * 1.1].map((each, n) => roundOf(vehicle, n, each)),
    slow,
    kmh: 18,
    gridMeter: dice.chance(0.4),
    sunMeter: dice.chance(0.4),
  };
}

function roundOf(vehicle: Vehicle, n: number, km: number): Round {
  const leg = Math.round((10 * km) / 4) / 10;
  const base = { name: "leg", climbM: 0, dropM: 0, stopsPerKm: 1, headingDeg: null } as const;
  const parts = Array.from({ length: 4 }, (_, k) => [
    {
      kind: "leg" as const,
      ...base,
      km: leg,
      minutes: Math.round((leg / 18) * 60),
      surface: "asphalt" as const,
      surroundings: k % 2 === 0 ? ("town" as const) : ("openRoad" as const),
    },
    { ...STAND, name: "stand", minutes: 30 + 15 * k },
  ]).flat();
  return { ...(examples.round as Round), id: `${vehicle.id}-${n}`, yardId: vehicle.yardId, parts };
}
const STAND = {
  kind: "stop" as const,
  shade: "open" as const,
  sideDeg: null,
  payloadChangeKg: 0,
  lampOn: false,
  fridgeOn: false,
  grinderOn: false,
  fanOn: false,
  socketKw: null,
};

interface Lived {
  readonly shifts: Shift[];
  readonly readings: Reading[];
  readonly entries: Entry[];
  readonly truth: TruthDay[];
}

function live(maker: Maker, setting: Setting): Lived {
  const { dice, dates, yard } = setting;
  const lived: Lived = { shifts: [], readings: [], entries: [], truth: [] };
  let [level, home, homeH, walk, quiet] = [0.99, 0.99, 18, 0, 0];
  dates.forEach((date, d) => {
    walk += 0.003 * dice.normal();
    // Logging stops for days on end, and single looks are forgotten.
    quiet = quiet > 0 ? quiet - 1 : dice.chance(0.03) ? 4 : 0;
    const day = dayOf(maker, d, dice);
    lived.shifts.push(shiftOf(maker, day, date));
    const bare = d === 0 ? null : drive({ maker, setting, day, walk, level: home, fromH: homeH - 24 });
    const was = drive({ maker, setting, day, walk, level, fromH: LEAVE_H });
    if (quiet === 0 && !dice.chance(0.15)) {
      const atUtcMs = utcMsAt(date, LEAVE_H * 60 - 15, yard.zone);
      lived.readings.push(readingOf(maker, atUtcMs, level, dice));
    }
    lived.truth.push({
      vehicleId: maker.vehicle.id,
      date,
      startShare: level,
      lowestShare: was.lowest,
      homeShare: was.home,
      levels: was.levels.map(([hour, share]) => ({ atUtcMs: utcMsAt(date, hour * 60, yard.zone), share })),
      sunWh: was.sunWh,
      driveWh: was.driveWh,
      ...(bare ? { ifNothingMore: { lowestShare: bare.lowest, homeShare: bare.home } } : {}),
    });
    const night = nightOf(was.evening, maker, dice);
    if (quiet === 0) lived.entries.push(slipped(entryOf({ maker, day, date, was, night, setting }), dice));
    [level, home, homeH] = [night.to, was.home, was.homeH];
  });
  return lived;
}
