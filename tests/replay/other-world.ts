import type { ReplayFile, TruthDay } from "../../src/cli/replay-file.js";
import type { Entry, Fleet, Reading, Round, Shift, Sky, Vehicle, Yard } from "../../src/records/index.js";
import { type CivilDate, plusDays, utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import { type WorldDice, worldDice } from "./world.js";

// A second simulated fleet, made by other means than simulate.ts and by nothing of src/calc: road, sun, sky, set and gauge are written anew here, in
// the plainest form that a textbook gives, so that what is learned cannot lean on our own models being true.

/** What is true of a vehicle for weeks. */
export interface OtherSlow {
  readonly driveLog: number;
  readonly driver: number;
  readonly roof: number;
  /** Share of the roof's sun lost to dirt each day since the last wash; washed every 20 days or so. */
  readonly dirtPerDay: number;
  readonly health: number;
  readonly gaugeOffset: number;
  readonly gaugeScale: number;
  readonly meter: number;
}

export interface OtherWorld {
  readonly file: ReplayFile;
  readonly slow: ReadonlyMap<string, OtherSlow>;
}

const FROM = "2027-03-01";
const LEAVE_H = 7;
const STEP_H = 0.25;
const LAT_DEG = 25;

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

interface Maker {
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly slow: OtherSlow;
  readonly kmh: number;
  readonly gridMeter: boolean;
  readonly sunMeter: boolean;
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

const packWh = (vehicle: Vehicle, health: number): number =>
  vehicle.battery.nominalV * vehicle.battery.ratedAh * health;

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

/** Rolling and air drag at one speed, and the speed lost at each stop: any textbook of vehicle dynamics. */
function whPerKm(vehicle: Vehicle, load: number, kmh: number): number {
  const { kerbKg, driverKg, fullLoadKg, crr, cdaM2 } = vehicle;
  const kg = kerbKg + driverKg + load * fullLoadKg;
  const ms = kmh / 3.6;
  const newton = kg * 9.81 * crr + 0.6 * cdaM2 * ms * ms;
  const stops = 0.5 * kg * (1.3 * ms) ** 2;
  return (newton * 1000 + stops) / 3600 / 0.7;
}

/** Sun on level ground under a clear sky, W/m2: height of the sun by declination and hour, 0.7 to the power of the air mass to the 0.678. */
function clearWm2(dayOfYear: number, solarHour: number): number {
  const declination = 0.409 * Math.sin((2 * Math.PI * (dayOfYear - 81)) / 365);
  const lat = (LAT_DEG * Math.PI) / 180;
  const angle = (Math.PI / 12) * (solarHour - 12);
  const sine = Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(angle);
  return sine <= 0.02 ? 0 : 1.1 * 1353 * sine * 0.7 ** ((1 / sine) ** 0.678);
}

interface Setting {
  readonly yard: Yard;
  readonly dates: readonly CivilDate[];
  readonly sky: readonly number[];
  readonly wet: readonly boolean[];
  readonly dice: WorldDice;
}

interface Lived {
  readonly shifts: Shift[];
  readonly readings: Reading[];
  readonly entries: Entry[];
  readonly truth: TruthDay[];
}

interface Day {
  readonly d: number;
  readonly load: "empty" | "half" | "full";
  readonly overload: number;
  readonly round: Round;
  readonly second: boolean;
  /** Factor of each km of the day, and km driven over those planned. */
  readonly byKm: readonly number[];
  readonly kmRatio: number;
  readonly course: readonly number[];
}
const LOADS = { empty: 0, half: 0.5, full: 1 } as const;

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

function dayOf(maker: Maker, d: number, dice: WorldDice): Day {
  let off = 0.04 * dice.normal();
  const byKm = Array.from({ length: 120 }, () => {
    off = 0.97 * off + 0.02 * dice.normal();
    return Math.exp(off);
  });
  let course = 0;
  return {
    d,
    load: (["empty", "half", "half", "full"] as const)[Math.floor(4 * dice.uniform())] ?? "half",
    overload: dice.chance(0.08) ? 0.4 : 0,
    round: maker.rounds[dice.chance(0.7) ? 0 : 1] as Round,
    second: dice.chance(0.35),
    byKm,
    kmRatio: dice.logNormal(0.05),
    course: Array.from({ length: 96 }, () => {
      course = 0.9 * course + 0.12 * dice.normal();
      return course;
    }),
  };
}

interface Drive {
  readonly maker: Maker;
  readonly setting: Setting;
  readonly day: Day;
  readonly walk: number;
  readonly level: number;
  /** Hour of the day, below 0 for the evening before. */
  readonly fromH: number;
}

/** One day in quarters of an hour: what is driven is taken, what the sun brings is put in, the set holds no more than full and no less than nothing. */
function drive({ maker, setting, day, walk, level: from, fromH }: Drive) {
  const { vehicle, slow } = maker;
  const wh = packWh(vehicle, slow.health);
  const perKm =
    whPerKm(vehicle, LOADS[day.load] + day.overload, maker.kmh) *
    Math.exp(slow.driveLog + walk + (day.second ? slow.driver : 0) + (setting.wet[day.d] ? 0.06 : 0));
  let [level, lowest, home, homeH, evening] = [from, 1, from, LEAVE_H, from];
  let [sunWh, driveWh, at, km] = [0, 0, LEAVE_H, 0];
  const plan = day.round.parts.map((part) => {
    const piece = { from: at, to: at + part.minutes / 60, km: part.kind === "leg" ? part.km * day.kmRatio : 0 };
    at = piece.to;
    return piece;
  });
  const endH = at;
  const levels: [number, number][] = [];
  for (let hour = fromH; hour < 24; hour += STEP_H) {
    const [a, b] = [hour, hour + STEP_H];
    const out = plan.reduce(
      (sum, p) => sum + (p.km * Math.max(0, Math.min(b, p.to) - Math.max(a, p.from))) / (p.to - p.from),
      0,
    );
    const took = out * perKm * (day.byKm[Math.min(119, Math.floor(km))] as number);
    km += out;
    const isOut = b > LEAVE_H && a < endH;
    const brought = sunOf(maker, setting, day, a + STEP_H / 2, isOut && out > 0) * STEP_H;
    const other = (isOut ? 40 : 2) * STEP_H;
    const net = brought - took - other;
    const next = Math.min(wh, Math.max(0, level * wh + (net > 0 ? 0.97 * net : 1.03 * net)));
    if (a >= 0) {
      sunWh += next >= wh ? Math.max(0, Math.min(brought, took + other + wh - level * wh)) : brought;
      driveWh += took;
    }
    level = next / wh;
    if (isOut) [lowest, home, homeH] = [Math.min(lowest, level), level, b];
    if (b <= 21) evening = level;
    if (a >= LEAVE_H && Number.isInteger(b)) levels.push([b, level]);
  }
  return { lowest: Math.min(from, lowest), home, homeH, evening, sunWh, driveWh, km, levels };
}

function sunOf({ vehicle, slow }: Maker, { sky }: Setting, day: Day, hour: number, driving: boolean): number {
  const d = hour < 0 ? Math.max(0, day.d - 1) : day.d;
  const clear = clearWm2(60 + day.d, (hour + 24) % 24);
  const share = Math.min(
    1,
    Math.max(0.1, (sky[d] as number) * (1 + (day.course[Math.floor(((hour + 24) % 24) * 4)] as number))),
  );
  const rated = vehicle.roof?.faces.reduce((sum, face) => sum + face.ratedW, 0) ?? 0;
  const dirt = 1 - slow.dirtPerDay * (day.d % 20);
  return rated * 0.8 * (clear / 1000) * share * slow.roof * dirt * (driving ? 0.72 : 0.95);
}

const shiftOf = ({ vehicle }: Maker, day: Day, date: CivilDate): Shift => ({
  ...(examples.shift as Shift),
  id: `${vehicle.id}/${date}/1`,
  vehicleId: vehicle.id,
  roundId: day.round.id,
  date,
  leaveMinute: LEAVE_H * 60,
  loadKg: null,
  loadClass: day.load,
  driver: day.second ? "b" : "a",
});

/** To the brim on four nights of five, by halves on some, not at all on others. */
function nightOf(
  from: number,
  { vehicle, slow }: Maker,
  dice: WorldDice,
): { to: number; kwh: number; plugged: boolean } {
  const luck = dice.uniform();
  if (luck < 0.07 && from > 0.55) return { to: from, kwh: 0, plugged: false };
  const full = vehicle.battery.chemistry === "lfp" ? 1 : 0.97;
  const to = luck > 0.88 ? from + (full - from) * (0.5 + 0.4 * dice.uniform()) : Math.max(from, full);
  const kept = vehicle.charger.efficiency * (vehicle.battery.chemistry === "lfp" ? 0.97 : 0.82) * slow.meter;
  return { to, kwh: ((to - from) * packWh(vehicle, slow.health)) / kept / 1000, plugged: true };
}

/** Normal noise over the root of a chi-square with four degrees of freedom: now and then far off. */
const studentNoise = (dice: WorldDice): number =>
  dice.normal() / Math.sqrt((dice.normal() ** 2 + dice.normal() ** 2 + dice.normal() ** 2 + dice.normal() ** 2) / 4);

function gaugeShows({ vehicle, slow }: Maker, level: number, dice: WorldDice) {
  const shown = Math.min(1, Math.max(0, slow.gaugeOffset + slow.gaugeScale * level + 0.015 * studentNoise(dice)));
  if (vehicle.gauge.kind === "bars") return { kind: "bars" as const, value: Math.round(8 * shown) };
  if (vehicle.gauge.kind === "volts") {
    const blockV = 11.75 + 0.95 * level + 0.02 * dice.normal();
    return { kind: "volts" as const, value: Math.round(50 * blockV) / 10 };
  }
  return { kind: "percent" as const, value: Math.round(20 * shown) * 5 };
}

const readingOf = (maker: Maker, atUtcMs: number, level: number, dice: WorldDice): Reading => ({
  ...(examples.reading as Reading),
  id: `${maker.vehicle.id}/${atUtcMs}`,
  vehicleId: maker.vehicle.id,
  atUtcMs,
  ...gaugeShows(maker, level, dice),
  restedMin: null,
  perBlock: false,
});

interface EntryWish {
  readonly maker: Maker;
  readonly day: Day;
  readonly date: CivilDate;
  readonly was: ReturnType<typeof drive>;
  readonly night: ReturnType<typeof nightOf>;
  readonly setting: Setting;
}

function entryOf({ maker, day, date, was, night, setting: { dice, wet } }: EntryWish): Entry {
  return {
    ...(examples.entry as Entry),
    id: `${maker.vehicle.id}/${date}/1`,
    vehicleId: maker.vehicle.id,
    date,
    km: Math.round(was.km),
    trips: null,
    odometerKm: null,
    level: dice.chance(0.15) ? null : { ...gaugeShows(maker, was.home, dice), perBlock: false },
    loadClass: day.load,
    pluggedAt: night.plugged ? "21:00" : null,
    gridKwh: maker.gridMeter ? Math.round(10 * night.kwh) / 10 : null,
    sunKwh: maker.sunMeter ? Math.round(100 * (was.sunWh / 1000) * (1 + 0.03 * dice.normal())) / 100 : null,
    paidMinor: null,
    wet: wet[day.d] === true,
    driver: day.second ? "b" : "a",
    formerly: [],
  };
}

/** One entry in forty is mistyped: a nought more, the figures turned round, a tenth of the level. */
function slipped(entry: Entry, dice: WorldDice): Entry {
  if (!dice.chance(0.025) || entry.km === null) return entry;
  const which = Math.floor(3 * dice.uniform());
  if (which === 0) return { ...entry, km: 10 * entry.km };
  if (which === 1) return { ...entry, km: (entry.km % 10) * 10 + Math.floor(entry.km / 10) };
  return entry.level?.kind === "percent"
    ? { ...entry, level: { ...entry.level, value: Math.floor(entry.level.value / 10) } }
    : entry;
}
