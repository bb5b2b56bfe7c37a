import { storeModel } from "../../src/calc/battery/index.js";
import { newLearned, PARTS, type Part, type VehicleLearned } from "../../src/calc/learn/parts.js";
import type { ReplayFile } from "../../src/cli/replay-file.js";
import type { Fleet, Shift, Sky, Vehicle, Yard } from "../../src/records/index.js";
import { batteryOf } from "../../src/records/map/battery.js";
import { meanAirC } from "../../src/records/map/weather.js";
import { MINUTE_MS } from "../../src/units/numbers.js";
import { type CivilDate, plusDays, utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import { entryOf, type Lived, look, mistype } from "./log-of.js";
import {
  type DayChance,
  FROM,
  LEAVE_MINUTE,
  type Maker,
  newMaker,
  type Setting,
  type SlowTruth,
  type WorldWish,
} from "./maker.js";
import { nightCharge, walkTruth } from "./true-day.js";
import { CLIMATES, type Climate, type TrueSky, trueSkies, type WorldDice, worldDice } from "./world.js";

export interface World {
  readonly file: ReplayFile;
  readonly slow: ReadonlyMap<string, SlowTruth>;
  /** What a forecast that knew the slow truth, and not the day, would start from. */
  readonly oracle: (learned: VehicleLearned, vehicle: Vehicle, date: CivilDate) => VehicleLearned;
  readonly mistyped: number;
}

export function simulateWorld(wish: WorldWish): World {
  const dice = worldDice(wish.seed);
  const climate = wish.climate ?? (CLIMATES[wish.seed % CLIMATES.length] as Climate);
  const yard: Yard = {
    ...(examples.yard as Yard),
    latDeg: climate.latDeg,
    lonDeg: climate.lonDeg,
    zone: climate.zone,
    parkShade: "part",
    usualSkyByMonth: null,
    cuts: [],
  };
  const dates = Array.from({ length: wish.days }, (_, d) => plusDays(FROM, d));
  const skies = trueSkies(climate, wish.days, dice);
  const wet = skies.map((sky) => sky.word === "dark" && dice.chance(0.5));
  const said =
    wish.skySaid === "never"
      ? []
      : skies.map((sky, d) => saidSky(yard, dates[d] as CivilDate, sky, wet[d] === true, dice));
  const makers = Array.from({ length: wish.vehicles }, (_, i) => newMaker(`v${i + 1}`, i, yard, dice, wish));
  const slow = new Map(makers.map((maker) => [maker.vehicle.id, maker.slow]));
  const days = makers.map((maker) => liveDays(maker, { dates, skies, wet, said, yard, dice, wish }));
  const fleet: Fleet = {
    ...emptyFleet,
    yards: [yard],
    vehicles: makers.map((maker) => maker.vehicle),
    rounds: makers.flatMap((maker) => maker.rounds),
    shifts: days.flatMap((lived) => lived.shifts),
    skies: said,
    readings: days.flatMap((lived) => lived.readings),
    entries: days.flatMap((lived) => lived.entries),
  };
  const truth = days.flatMap((lived) => lived.truth);
  return {
    file: { fleet, from: FROM, to: dates[dates.length - 1] as CivilDate, skies: "before", truth },
    slow,
    oracle: (learned, vehicle, date) => knowing(learned, slow.get(vehicle.id) as SlowTruth, dates.indexOf(date)),
    mistyped: days.reduce((sum, lived) => sum + lived.mistyped, 0),
  };
}

const emptyFleet = {
  format: "noonplug-fleet",
  version: 1,
  title: "Simulated",
  invented: true,
  sockets: [],
} as unknown as Fleet;

const GUESS_RIGHT = 0.75;

function saidSky(yard: Yard, date: CivilDate, sky: TrueSky, wet: boolean, dice: WorldDice): Sky {
  const right = dice.chance(GUESS_RIGHT);
  const other = dice.chance(0.5)
    ? "mixed"
    : sky.word === "dark"
      ? "mixed"
      : sky.word === "bright"
        ? "mixed"
        : dice.chance(0.5)
          ? "bright"
          : "dark";
  return {
    ...(examples.sky as Sky),
    id: `${yard.id}/${date}`,
    yardId: yard.id,
    date,
    cover: { kind: "three", value: right ? sky.word : other },
    wet,
    airMinC: null,
    airMaxC: null,
  };
}

function liveDays(maker: Maker, setting: Setting): Lived {
  const { dates, yard, dice } = setting;
  const lived: Lived = { shifts: [], readings: [], entries: [], truth: [], mistyped: 0 };
  const battery = { ...batteryOf(maker.vehicle), health: maker.vehicle.battery.health * maker.slow.capacity };
  let level = 1;
  let levelAtHome = 1;
  let homeBefore = utcMsAt(plusDays(FROM, -1), 18 * 60, yard.zone);
  dates.forEach((date, d) => {
    const leaveUtcMs = utcMsAt(date, LEAVE_MINUTE, yard.zone);
    const shift = shiftOf(maker, date, dice);
    lived.shifts.push(shift);
    const store = storeModel(battery, meanAirC(yard, new Map(), leaveUtcMs));
    const chance: DayChance = {
      drive: dice.logNormal(0.06),
      km: dice.logNormal(0.04),
      overload: dice.chance(0.1) ? 1.35 : 1,
    };
    const walk = (start: number, fromUtcMs: number) =>
      walkTruth({ maker, setting, shift, d, chance, store, start, fromUtcMs });
    look(maker, lived, dice, leaveUtcMs - 10 * MINUTE_MS, level, level > 0.985);
    const bare = d === 0 ? null : walk(levelAtHome, homeBefore);
    const day = walk(level, leaveUtcMs);
    lived.truth.push({
      vehicleId: maker.vehicle.id,
      date,
      startShare: level,
      lowestShare: day.lowestShare,
      homeShare: day.homeShare,
      levels: day.levels,
      sunWh: day.sunWh,
      driveWh: day.driveWh,
      ...(bare ? { ifNothingMore: { lowestShare: bare.lowestShare, homeShare: bare.homeShare } } : {}),
    });
    const night = nightCharge(maker, store, day.plugShare, dice);
    const entry = entryOf({ maker, date, shift, day, night, wet: setting.wet[d] === true, dice, yard });
    lived.entries.push(mistype(entry, lived, setting));
    levelAtHome = day.homeShare;
    homeBefore = day.homeUtcMs;
    level = night.toShare;
  });
  return lived;
}

function shiftOf(maker: Maker, date: CivilDate, dice: WorldDice): Shift {
  const loads = ["empty", "half", "full"] as const;
  return {
    ...(examples.shift as Shift),
    id: `${maker.vehicle.id}/${date}/1`,
    vehicleId: maker.vehicle.id,
    roundId: `${maker.vehicle.id}-r${dice.chance(0.6) ? 0 : 1}`,
    date,
    leaveMinute: LEAVE_MINUTE,
    loadKg: null,
    loadClass: loads[Math.floor(dice.uniform() * 3)] as (typeof loads)[number],
    driver: dice.chance(0.6) ? "first" : "second",
  };
}

/** The learned state of someone who knows the slow truth: the middles are true and nothing slow is in doubt. */
function knowing(learned: VehicleLearned, slow: SlowTruth, d: number): VehicleLearned {
  const logs: Partial<Record<Part, number>> = {
    drive: Math.log(slow.drive) + slow.driftPerDay * Math.max(0, d),
    wet: Math.log(slow.wet),
    driverB: Math.log(slow.driverB),
    roof: Math.log(slow.roof),
    shade: Math.log(slow.shade),
    capacity: Math.log(slow.capacity),
    charger: Math.log(slow.charger),
    gaugeOffset: slow.gaugeOffset,
    gaugeScale: Math.log(slow.gaugeScale),
  };
  const n = PARTS.length;
  const level = n - 1;
  const mean = PARTS.map((part, i) => (i === level ? (learned.belief.mean[i] as number) : (logs[part] ?? 0)));
  const cov = learned.belief.cov.map((c, k) => (k === level * n + level ? c : 0));
  const fresh = newLearned(learned.vehicleId);
  return {
    ...learned,
    belief: { mean, cov },
    drivers: ["first", "second"],
    dayScatter: { days: 1000, sumSquares: 1000 * 0.075 ** 2 },
    kmHabit: { days: 1000, sumSquares: 1000 * 0.04 ** 2, middleLog: 0 },
    misses: fresh.misses,
  };
}
