import { acceptanceW, restedVoltage, type StoreModel, storedShare, storeModel } from "../../src/calc/battery/index.js";
import type { DaySegment } from "../../src/calc/day/segments.js";
import { newLearned, PARTS, type Part, type VehicleLearned } from "../../src/calc/learn/parts.js";
import { type Roof, roofW } from "../../src/calc/roof/index.js";
import { lightUnder, sunInstant } from "../../src/calc/sun/index.js";
import type { ReplayFile, TruthDay } from "../../src/cli/replay-file.js";
import type { Entry, Fleet, Reading, Round, Shift, Sky, Vehicle, Yard } from "../../src/records/index.js";
import { batteryOf } from "../../src/records/map/battery.js";
import { dayInputOf } from "../../src/records/map/day.js";
import { meanAirC } from "../../src/records/map/weather.js";
import { HOUR_MS, MINUTE_MS } from "../../src/units/numbers.js";
import { type CivilDate, civilDate, minuteOfDay, plusDays, utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import { CLIMATES, type Climate, oktaOfShare, type TrueSky, trueSkies, type WorldDice, worldDice } from "./world.js";

/** What is true of a vehicle for weeks; the learning is to find it. */
export interface SlowTruth {
  readonly drive: number;
  readonly driftPerDay: number;
  readonly driverB: number;
  readonly wet: number;
  readonly roof: number;
  readonly shade: number;
  /** Share of the record's health. */
  readonly capacity: number;
  readonly charger: number;
  readonly gaugeOffset: number;
  readonly gaugeScale: number;
  readonly other: number;
}

export interface World {
  readonly file: ReplayFile;
  readonly slow: ReadonlyMap<string, SlowTruth>;
  /** What a forecast that knew the slow truth, and not the day, would start from. */
  readonly oracle: (learned: VehicleLearned, vehicle: Vehicle, date: CivilDate) => VehicleLearned;
  readonly mistyped: number;
}

export interface WorldWish {
  readonly seed: number;
  readonly vehicles: number;
  readonly days: number;
  readonly climate?: Climate;
  /** "said": a person says each evening what tomorrow will be, right three times in four; "never": nobody ever says. */
  readonly skySaid?: "said" | "never";
  readonly mistypedShare?: number;
  readonly metered?: boolean;
}

const FROM = "2027-01-04";
const LEAVE_MINUTE = 6 * 60 + 30;
const PLUG_MINUTE = 21 * 60;

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

interface Maker {
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly slow: SlowTruth;
  readonly gridMeter: boolean;
  readonly sunMeter: boolean;
}

/** Draws a vehicle and its slow truth from the stated priors: drive factor 15 %, health 0.73 to 0.98, roof 20 %, driver 6 %. */
function newMaker(id: string, i: number, yard: Yard, dice: WorldDice, wish: WorldWish): Maker {
  const base = examples.vehicle as Vehicle;
  const lead = i % 3 === 2;
  const trueHealth = 0.73 + 0.25 * dice.uniform();
  const typed = i % 3 !== 0;
  const said = Math.min(1, Math.max(0.6, Math.round(100 * trueHealth * dice.logNormal(typed ? 0.05 : 0.08)) / 100));
  const gauge = lead
    ? ({ kind: "volts", bars: null } as const)
    : i % 3 === 1
      ? ({ kind: "bars", bars: 10 } as const)
      : ({ kind: "percent", bars: null } as const);
  const battery = lead
    ? {
        ...base.battery,
        chemistry: "floodedLead" as const,
        nominalV: 48,
        seriesCount: 24,
        ratedAh: 160,
        resistanceOhm: 0.03,
        peukertExponent: 1.15,
      }
    : base.battery;
  const vehicle: Vehicle = {
    ...base,
    id,
    plate: `${i + 1}`,
    yardId: yard.id,
    gauge,
    battery: { ...battery, health: said },
    usual: { roundId: null, leaveMinute: LEAVE_MINUTE, loadClass: "half" },
    learned: null,
    guesses: typed ? [] : ["battery.health"],
  };
  const slow: SlowTruth = {
    drive: dice.logNormal(0.15),
    driftPerDay: 0.0012 * dice.normal(),
    driverB: dice.logNormal(0.06),
    wet: 1.05 * dice.logNormal(0.03),
    roof: dice.logNormal(0.2),
    shade: dice.logNormal(0.1),
    capacity: trueHealth / said,
    charger: dice.logNormal(0.03),
    gaugeOffset: lead ? 0 : 0.02 * dice.normal(),
    gaugeScale: lead ? 1 : dice.logNormal(0.03),
    other: dice.logNormal(0.2),
  };
  return {
    vehicle,
    rounds: roundsFor(vehicle, dice),
    slow,
    gridMeter: wish.metered ?? i % 2 === 0,
    sunMeter: wish.metered ?? i % 5 < 2,
  };
}

/** Two rounds, so long that a healthy set comes home with a fifth to a third left. */
function roundsFor(vehicle: Vehicle, dice: WorldDice): Round[] {
  const base = examples.round as Round;
  const packWh = vehicle.battery.nominalV * vehicle.battery.ratedAh * vehicle.battery.health;
  return [0, 1].map((n) => {
    const loops = Math.max(1, Math.round(((0.62 + 0.16 * dice.uniform()) * packWh) / 1150));
    const parts = Array.from({ length: loops }, () => base.parts).flat();
    const surroundings = n === 0 ? ("town" as const) : ("openRoad" as const);
    return {
      ...base,
      id: `${vehicle.id}-r${n}`,
      yardId: vehicle.yardId,
      parts: parts.map((part) =>
        part.kind === "leg"
          ? { ...part, surroundings }
          : { ...part, payloadChangeKg: 0, minutes: 45, shade: n === 0 ? ("part" as const) : ("open" as const) },
      ),
    };
  });
}

interface Setting {
  readonly dates: readonly CivilDate[];
  readonly skies: readonly TrueSky[];
  readonly wet: readonly boolean[];
  readonly said: readonly Sky[];
  readonly yard: Yard;
  readonly dice: WorldDice;
  readonly wish: WorldWish;
}

interface Lived {
  readonly shifts: Shift[];
  readonly readings: Reading[];
  readonly entries: Entry[];
  readonly truth: TruthDay[];
  mistyped: number;
}

/** The day's own chance: knows nobody. */
interface DayChance {
  readonly drive: number;
  readonly km: number;
  readonly overload: number;
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

interface TruthWalk {
  readonly maker: Maker;
  readonly setting: Setting;
  readonly shift: Shift;
  readonly d: number;
  readonly chance: DayChance;
  readonly store: StoreModel;
  readonly start: number;
  readonly fromUtcMs: number;
}

interface WalkedDay {
  readonly lowestShare: number;
  readonly homeShare: number;
  readonly homeUtcMs: number;
  /** When the plug goes in, at nine in the evening. */
  readonly plugShare: number;
  readonly km: number;
  readonly sunWh: number;
  readonly driveWh: number;
  readonly levels: { readonly atUtcMs: number; readonly share: number }[];
}

const STEP_MS = 10 * MINUTE_MS;

/** A true day in ten-minute steps, with the vehicle's own factors and the day's own chance. */
function walkTruth(walk: TruthWalk): WalkedDay {
  const { maker, setting, shift, d, chance, store, start, fromUtcMs } = walk;
  const { vehicle, slow } = maker;
  const date = setting.dates[d] as CivilDate;
  const overloaded =
    chance.overload === 1
      ? shift
      : { ...shift, loadKg: LOAD_KG[shift.loadClass] * vehicle.fullLoadKg * chance.overload };
  const input = dayInputOf({
    yard: setting.yard,
    vehicle,
    rounds: maker.rounds,
    shifts: [overloaded],
    skies: setting.wet[d] ? [{ ...(examples.sky as Sky), id: "w", yardId: setting.yard.id, date, wet: true }] : [],
    readings: [
      { ...(examples.reading as Reading), vehicleId: vehicle.id, atUtcMs: fromUtcMs, kind: "percent", value: 50 },
    ],
    date,
    nowUtcMs: fromUtcMs,
    draws: 2,
  });
  const driver = shift.driver === "second" ? slow.driverB : 1;
  const wet = setting.wet[d] ? slow.wet : 1;
  const drive = slow.drive * Math.exp(slow.driftPerDay * d) * driver * wet * chance.drive * chance.km;
  let levelWh = start * store.usableWh;
  let lowestWh = Number.POSITIVE_INFINITY;
  let homeShare = start;
  let homeUtcMs = fromUtcMs;
  let plugShare = start;
  const plugUtcMs = utcMsAt(date, PLUG_MINUTE, setting.yard.zone);
  let [sunWh, driveWh] = [0, 0];
  const levels: { atUtcMs: number; share: number }[] = [];
  const dayFrom = utcMsAt(date, 0, setting.yard.zone);
  for (const segment of input.segments) {
    for (let at = segment.fromUtcMs; at < segment.toUtcMs; at += STEP_MS) {
      const to = Math.min(segment.toUtcMs, at + STEP_MS);
      const hours = (to - at) / HOUR_MS;
      const sunW = trueSunW((at + to) / 2, segment, input.roof, walk);
      const driveW = Math.max(0, segment.drainW - segment.regenW) * drive;
      const otherW = segment.otherW * slow.other;
      const spareW = sunW - driveW - otherW;
      let takenW = sunW;
      if (spareW > 0) {
        const share = Math.min(1, levelWh / store.usableWh);
        const intoW = Math.min(spareW, acceptanceW(store, share));
        takenW = driveW + otherW + intoW;
        levelWh = Math.min(store.usableWh, levelWh + intoW * storedShare(store, share) * hours);
      } else {
        const peukert = Math.max(1, -spareW / store.peukertRatedW) ** (store.peukertExponent - 1);
        levelWh = Math.max(0, levelWh + spareW * (1 - store.lossPerW * spareW) * peukert * hours);
      }
      levelWh = Math.max(0, levelWh - store.selfDischargeW * hours);
      if (at >= dayFrom) {
        sunWh += Math.min(takenW, sunW) * hours;
        driveWh += driveW * hours;
      }
      if (segment.onShift) lowestWh = Math.min(lowestWh, levelWh);
      if (segment.onShift) [homeShare, homeUtcMs] = [levelWh / store.usableWh, to];
      if (to <= plugUtcMs) plugShare = levelWh / store.usableWh;
      if (to % HOUR_MS === 0) levels.push({ atUtcMs: to, share: levelWh / store.usableWh });
    }
  }
  const km = input.segments.reduce((sum, segment) => sum + segment.km, 0) * chance.km;
  return {
    lowestShare: Math.min(start, lowestWh / store.usableWh),
    homeShare,
    homeUtcMs,
    plugShare,
    km,
    sunWh,
    driveWh,
    levels,
  };
}
const LOAD_KG = { empty: 0, half: 0.5, full: 1 } as const;

function trueSunW(utcMs: number, segment: DaySegment, roof: Roof | null, { maker, setting, d }: TruthWalk): number {
  const { yard } = setting;
  const site = { latDeg: yard.latDeg, lonDeg: yard.lonDeg, altitudeM: yard.altitudeM };
  const sun = roof ? sunInstant(utcMs, site, 3.5) : null;
  if (!roof || !sun) return 0;
  const today = civilDate(utcMs, yard.zone) === setting.dates[d] ? d : Math.max(0, d - 1);
  const share = setting.skies[today]?.clearByHour[Math.floor(minuteOfDay(utcMs, yard.zone) / 60)] ?? 0.6;
  const built = segment.kind === "drive" && segment.directBlocked > 0.1 ? maker.slow.shade : 1;
  const at = {
    headingDeg: segment.headingDeg,
    airC: segment.airC,
    windMs: segment.windMs,
    directBlocked: segment.directBlocked,
    diffuseBlocked: segment.diffuseBlocked,
    albedo: 0.2,
  };
  return roofW(sun, lightUnder(sun, oktaOfShare(share)), roof, at) * maker.slow.roof * built;
}

interface NightTruth {
  readonly toShare: number;
  readonly plugged: boolean;
  readonly gridKwh: number;
}

/** Mostly charged full; sometimes cut short, sometimes not plugged in where more than half is left. */
function nightCharge(maker: Maker, store: StoreModel, fromShare: number, dice: WorldDice): NightTruth {
  const luck = dice.uniform();
  if (luck < 0.08 && fromShare > 0.5) return { toShare: fromShare, plugged: false, gridKwh: 0 };
  const full = maker.vehicle.battery.chemistry === "lfp" ? 0.99 + 0.01 * dice.uniform() : 0.94 + 0.06 * dice.uniform();
  const toShare =
    luck > 0.9 ? fromShare + (full - fromShare) * (0.4 + 0.5 * dice.uniform()) : Math.max(full, fromShare);
  let terminalWh = 0;
  for (let k = 0; k < 50; k++)
    terminalWh +=
      ((toShare - fromShare) * store.usableWh) /
      50 /
      storedShare(store, fromShare + ((k + 0.5) * (toShare - fromShare)) / 50);
  return { toShare, plugged: true, gridKwh: terminalWh / maker.vehicle.charger.efficiency / maker.slow.charger / 1000 };
}

/** A look at the gauge with its own offset, scale and steps; a fifth of the looks are missing. */
function look(maker: Maker, lived: Lived, dice: WorldDice, atUtcMs: number, level: number, full: boolean): void {
  const shown = gaugeShows(maker, level, dice);
  if (dice.chance(0.2)) return;
  const saysFull = full && dice.chance(0.5);
  lived.readings.push({
    ...(examples.reading as Reading),
    id: `${maker.vehicle.id}/${atUtcMs}`,
    vehicleId: maker.vehicle.id,
    atUtcMs,
    ...(saysFull ? { kind: "full" as const, value: 0 } : shown),
    restedMin: 120,
    perBlock: false,
  });
}

function gaugeShows(
  maker: Maker,
  level: number,
  dice: WorldDice,
): { kind: "percent" | "bars" | "volts"; value: number } {
  const { vehicle, slow } = maker;
  const shown = slow.gaugeOffset + slow.gaugeScale * level + 0.015 * dice.normal();
  if (vehicle.gauge.kind === "percent")
    return { kind: "percent", value: Math.round(100 * Math.min(1, Math.max(0, shown))) };
  if (vehicle.gauge.kind === "bars") {
    const bars = vehicle.gauge.bars ?? 10;
    return { kind: "bars", value: Math.min(bars, Math.max(0, Math.ceil(shown * bars))) };
  }
  const volts = restedVoltage(batteryOf(vehicle), Math.min(1, Math.max(0, level))) * (1 + 0.002 * dice.normal());
  return { kind: "volts", value: Math.round(volts * 10) / 10 };
}

interface EntryWish {
  readonly maker: Maker;
  readonly date: CivilDate;
  readonly shift: Shift;
  readonly day: WalkedDay;
  readonly night: NightTruth;
  readonly wet: boolean;
  readonly dice: WorldDice;
  readonly yard: Yard;
}

function entryOf({ maker, date, shift, day, night, wet, dice }: EntryWish): Entry {
  const shown = gaugeShows(maker, day.homeShare, dice);
  return {
    ...(examples.entry as Entry),
    id: `${maker.vehicle.id}/${date}/1`,
    vehicleId: maker.vehicle.id,
    date,
    km: Math.round(day.km),
    trips: null,
    odometerKm: null,
    level: dice.chance(0.2) ? null : { ...shown, perBlock: false },
    loadClass: shift.loadClass,
    pluggedAt: night.plugged ? "21:00" : null,
    gridKwh: maker.gridMeter ? Math.round(night.gridKwh * 10) / 10 : null,
    sunKwh: maker.sunMeter ? Math.round((day.sunWh / 1000) * (1 + 0.02 * dice.normal()) * 100) / 100 : null,
    paidMinor: null,
    wet,
    driver: shift.driver,
    formerly: [],
  };
}

/** A slip of the finger: a nought too many, two figures swapped, a point forgotten. */
function mistype(entry: Entry, lived: Lived, { dice, wish }: Setting): Entry {
  if (!dice.chance(wish.mistypedShare ?? 0.02) || entry.km === null) return entry;
  lived.mistyped++;
  const kind = Math.floor(dice.uniform() * 3);
  if (kind === 0) return { ...entry, km: Math.min(1000, entry.km * 10) };
  if (kind === 1) return { ...entry, km: (entry.km % 10) * 10 + Math.floor(entry.km / 10) };
  const level = entry.level;
  return level && level.kind === "percent"
    ? { ...entry, level: { ...level, value: Math.floor(level.value / 10) } }
    : entry;
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
