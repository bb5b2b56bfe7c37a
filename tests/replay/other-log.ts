import type { Entry, Reading, Shift } from "../../src/records/index.js";
import type { CivilDate } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import { type Day, type drive, LEAVE_H, type Maker, packWh, type Setting } from "./other-day.js";
import type { WorldDice } from "./world.js";

// What people write of those days.

export const shiftOf = ({ vehicle }: Maker, day: Day, date: CivilDate): Shift => ({
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
export function nightOf(
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
export const studentNoise = (dice: WorldDice): number =>
  dice.normal() / Math.sqrt((dice.normal() ** 2 + dice.normal() ** 2 + dice.normal() ** 2 + dice.normal() ** 2) / 4);

export function gaugeShows({ vehicle, slow }: Maker, level: number, dice: WorldDice) {
  const shown = Math.min(1, Math.max(0, slow.gaugeOffset + slow.gaugeScale * level + 0.015 * studentNoise(dice)));
  if (vehicle.gauge.kind === "bars") return { kind: "bars" as const, value: Math.round(8 * shown) };
  if (vehicle.gauge.kind === "volts") {
    const blockV = 11.75 + 0.95 * level + 0.02 * dice.normal();
    return { kind: "volts" as const, value: Math.round(50 * blockV) / 10 };
  }
  return { kind: "percent" as const, value: Math.round(20 * shown) * 5 };
}

export const readingOf = (maker: Maker, atUtcMs: number, level: number, dice: WorldDice): Reading => ({
  ...(examples.reading as Reading),
  id: `${maker.vehicle.id}/${atUtcMs}`,
  vehicleId: maker.vehicle.id,
  atUtcMs,
  ...gaugeShows(maker, level, dice),
  restedMin: null,
  perBlock: false,
});

export interface EntryWish {
  readonly maker: Maker;
  readonly day: Day;
  readonly date: CivilDate;
  readonly was: ReturnType<typeof drive>;
  readonly night: ReturnType<typeof nightOf>;
  readonly setting: Setting;
}

export function entryOf({ maker, day, date, was, night, setting: { dice, wet } }: EntryWish): Entry {
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
export function slipped(entry: Entry, dice: WorldDice): Entry {
  if (!dice.chance(0.025) || entry.km === null) return entry;
  const which = Math.floor(3 * dice.uniform());
  if (which === 0) return { ...entry, km: 10 * entry.km };
  if (which === 1) return { ...entry, km: (entry.km % 10) * 10 + Math.floor(entry.km / 10) };
  return entry.level?.kind === "percent"
    ? { ...entry, level: { ...entry.level, value: Math.floor(entry.level.value / 10) } }
    : entry;
}
