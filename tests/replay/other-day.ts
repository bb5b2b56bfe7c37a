import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import type { CivilDate } from "../../src/units/zone.js";
import type { WorldDice } from "./world.js";

// A true day of the fleet of other-world.ts: nothing of src/calc.

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

export const FROM = "2027-03-01";
export const LEAVE_H = 7;
export const STEP_H = 0.25;
export const LAT_DEG = 25;

export interface Maker {
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly slow: OtherSlow;
  readonly kmh: number;
  readonly gridMeter: boolean;
  readonly sunMeter: boolean;
}

export const packWh = (vehicle: Vehicle, health: number): number =>
  vehicle.battery.nominalV * vehicle.battery.ratedAh * health;

/** Rolling and air drag at one speed, and the speed lost at each stop: any textbook of vehicle dynamics. */
export function whPerKm(vehicle: Vehicle, load: number, kmh: number): number {
  const { kerbKg, driverKg, fullLoadKg, crr, cdaM2 } = vehicle;
  const kg = kerbKg + driverKg + load * fullLoadKg;
  const ms = kmh / 3.6;
  const newton = kg * 9.81 * crr + 0.6 * cdaM2 * ms * ms;
  const stops = 0.5 * kg * (1.3 * ms) ** 2;
  return (newton * 1000 + stops) / 3600 / 0.7;
}

/** Sun on level ground under a clear sky, W/m2: height of the sun by declination and hour, 0.7 to the power of the air mass to the 0.678. */
export function clearWm2(dayOfYear: number, solarHour: number): number {
  const declination = 0.409 * Math.sin((2 * Math.PI * (dayOfYear - 81)) / 365);
  const lat = (LAT_DEG * Math.PI) / 180;
  const angle = (Math.PI / 12) * (solarHour - 12);
  const sine = Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(angle);
  return sine <= 0.02 ? 0 : 1.1 * 1353 * sine * 0.7 ** ((1 / sine) ** 0.678);
}

export interface Setting {
  readonly yard: Yard;
  readonly dates: readonly CivilDate[];
  readonly sky: readonly number[];
  readonly wet: readonly boolean[];
  readonly dice: WorldDice;
}

export interface Day {
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
export const LOADS = { empty: 0, half: 0.5, full: 1 } as const;

export function dayOf(maker: Maker, d: number, dice: WorldDice): Day {
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

export interface Drive {
  readonly maker: Maker;
  readonly setting: Setting;
  readonly day: Day;
  readonly walk: number;
  readonly level: number;
  /** Hour of the day, below 0 for the evening before. */
  readonly fromH: number;
}

/** One day in quarters of an hour: what is driven is taken, what the sun brings is put in, the set holds no more than full and no less than nothing. */
export function drive({ maker, setting, day, walk, level: from, fromH }: Drive) {
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

export function sunOf({ vehicle, slow }: Maker, { sky }: Setting, day: Day, hour: number, driving: boolean): number {
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
