import { type CivilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Entry, Reading, Sky } from "../day.js";
import { readingId, skyId } from "../ids.js";
import type { Round } from "../round.js";
import type { Vehicle } from "../vehicle.js";
import type { Yard } from "../yard.js";

/** Days of made-up past. */
export const DEMO_DAYS = 28;

/** Kilometres of a round. */
export const kmOf = (round: Round): number =>
  round.parts.reduce((km, part) => km + (part.kind === "leg" ? part.km : 0), 0);

export const round1 = (value: number): number => Math.round(value * 10) / 10;

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

/** The same vehicle with a set put in some months ago: lead-acid sets are young, as they do not grow old. */
export function withSetAge(vehicle: Vehicle, today: CivilDate, n: number): Vehicle {
  const days = vehicle.battery.chemistry === "lfp" ? 320 + 45 * n : 90 + 17 * n;
  return {
    ...vehicle,
    battery: { ...vehicle.battery, installedOn: plusDays(today, -days) },
    guesses: vehicle.guesses.filter((path) => path !== "battery.installedOn"),
  };
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
