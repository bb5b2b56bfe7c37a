import { diceOf, normalQuantile, seedOf } from "../../units/dice.js";
import { type CivilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Entry, Reading, Sky } from "../day.js";
import { entryId, readingId, skyId } from "../ids.js";
import type { Round } from "../round.js";
import type { Vehicle } from "../vehicle.js";
import type { Yard } from "../yard.js";

export const DEMO_DAYS = 24;

/** Kilometres of a round. */
export const kmOf = (round: Round): number =>
  round.parts.reduce((km, part) => km + (part.kind === "leg" ? part.km : 0), 0);

/**
 * Made-up days behind a made-up vehicle: each drives about its round, takes about what its class takes, and charges at night.
 * A day in nine is not written in; nothing of it comes from anybody's log.
 */
export function madeUpEntries(vehicle: Vehicle, round: Round, today: CivilDate): Entry[] {
  const dice = diceOf(seedOf(vehicle.id));
  const gauss = () => normalQuantile(0.02 + 0.96 * dice());
  const habit = 1 + 0.1 * gauss();
  const packKwh = (vehicle.battery.nominalV * vehicle.battery.ratedAh * vehicle.battery.health) / 1000;
  const entries: Entry[] = [];
  for (let back = DEMO_DAYS; back >= 1; back--) {
    const date = plusDays(today, -back);
    if (dice() < 1 / 9) continue;
    const km = Math.round(kmOf(round) * (1 + 0.06 * gauss()));
    const unitsPerKm = (vehicle.class === "goodsLarge" ? 0.088 : vehicle.class === "vendingCart" ? 0.1 : 0.066) * habit;
    const usedKwh = Math.min(km * unitsPerKm * (1 + 0.07 * gauss()), 0.85 * packKwh);
    const left = Math.max(0.08, 0.97 - usedKwh / packKwh);
    entries.push(entryOf(vehicle, date, { km, left, gridKwh: round1(Math.max(0.2, usedKwh * 1.12 - 0.5)) }));
  }
  return entries;
}

const round1 = (value: number): number => Math.round(value * 10) / 10;

function entryOf(vehicle: Vehicle, date: CivilDate, day: { km: number; left: number; gridKwh: number }): Entry {
  return {
    id: entryId(vehicle.id, date),
    v: 1,
    vehicleId: vehicle.id,
    date,
    km: day.km,
    trips: null,
    odometerKm: null,
    level: gaugeOf(vehicle, day.left),
    loadClass: vehicle.usual.loadClass,
    pluggedAt: "20:30",
    gridKwh: day.gridKwh,
    sunKwh: null,
    paidMinor: null,
    wet: null,
    driver: null,
    formerly: [],
  };
}

/** What this vehicle's gauge shows at a level: whole percent or bars, or rested volts along a straight line of its chemistry. */
export function gaugeOf(vehicle: Vehicle, share: number): NonNullable<Entry["level"]> {
  if (vehicle.gauge.kind === "percent") return { kind: "percent", value: Math.round(share * 100), perBlock: false };
  if (vehicle.gauge.kind === "bars") {
    const bars = vehicle.gauge.bars ?? 5;
    return { kind: "bars", value: Math.min(bars, Math.ceil(share * bars)), perBlock: false };
  }
  const cells = vehicle.battery.nominalV / 2;
  return { kind: "volts", value: round1(cells * (1.94 + 0.18 * share)), perBlock: false };
}

export function madeUpReading(
  vehicle: Vehicle,
  yard: Yard,
  at: { date: CivilDate; minute: number; share: number; noLaterThanUtcMs: number },
): Reading {
  const atUtcMs = Math.min(utcMsAt(at.date, at.minute, yard.zone), at.noLaterThanUtcMs);
  const { kind, value, perBlock } = gaugeOf(vehicle, at.share);
  return {
    id: readingId(vehicle.id, atUtcMs),
    v: 1,
    vehicleId: vehicle.id,
    atUtcMs,
    kind,
    value,
    restedMin: 180,
    perBlock,
  };
}

export function madeUpSky(yard: Yard, date: CivilDate, value: "bright" | "mixed" | "dark"): Sky {
  const { id: yardId } = yard;
  const unsaid = { airMinC: null, airMaxC: null, windMs: null, wet: false, haze: null };
  return { id: skyId(yardId, date), v: 1, yardId, date, cover: { kind: "three", value }, ...unsaid };
}
