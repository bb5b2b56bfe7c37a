import { restedVoltage } from "../../src/calc/battery/index.js";
import type { TruthDay } from "../../src/cli/replay-file.js";
import type { Entry, Reading, Shift, Yard } from "../../src/records/index.js";
import { batteryOf } from "../../src/records/map/battery.js";
import type { CivilDate } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import type { Maker, Setting } from "./maker.js";
import type { NightTruth, WalkedDay } from "./true-day.js";
import type { WorldDice } from "./world.js";

export interface Lived {
  readonly shifts: Shift[];
  readonly readings: Reading[];
  readonly entries: Entry[];
  readonly truth: TruthDay[];
  mistyped: number;
}

/** A look at the gauge with its own offset, scale and steps; a fifth of the looks are missing. */
export function look(maker: Maker, lived: Lived, dice: WorldDice, atUtcMs: number, level: number, full: boolean): void {
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

export function gaugeShows(
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

export interface EntryWish {
  readonly maker: Maker;
  readonly date: CivilDate;
  readonly shift: Shift;
  readonly day: WalkedDay;
  readonly night: NightTruth;
  readonly wet: boolean;
  readonly dice: WorldDice;
  readonly yard: Yard;
}

export function entryOf({ maker, date, shift, day, night, wet, dice }: EntryWish): Entry {
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
export function mistype(entry: Entry, lived: Lived, { dice, wish }: Setting): Entry {
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
