import { acceptanceOf, slotKwh } from "../../calc/yard/energy.js";
import type { Span } from "../../calc/yard/night.js";
import { HOUR_MS } from "../../units/numbers.js";
import type { NightRecord, Reading, Socket, Vehicle } from "../index.js";
import type { MeterScale } from "./night-units.js";
import { SLOT_MS } from "./night-yard.js";
import { startLevelOf } from "./start.js";

/** A level at an instant, as a share of a full set. */
export interface SeenLevel {
  readonly share: number;
  readonly sdShare: number;
  readonly atUtcMs: number;
}

interface Charging {
  readonly vehicle: Vehicle;
  readonly readings: readonly Reading[];
  readonly sockets: readonly Socket[];
  readonly session: NightRecord["sessions"][number];
  readonly scale: MeterScale;
  readonly cuts: readonly Span[];
  readonly nowUtcMs: number;
}

/**
 * What a gauge read after the plug went in says of the level at plugging in: the level from which the charge so far ends where the gauge
 * stood. Volts under charge say nothing of the level and are passed over; null when nothing else was read. No sun is counted meanwhile.
 */
export function levelBeforeCharge(given: Charging): SeenLevel | null {
  const { vehicle, readings, session, nowUtcMs } = given;
  const since = readings.filter(
    ({ vehicleId, atUtcMs, kind }) =>
      vehicleId === vehicle.id && atUtcMs > session.plugUtcMs && atUtcMs <= session.unplugUtcMs && kind !== "volts",
  );
  const seen = startLevelOf(vehicle, since, nowUtcMs);
  if (seen.missing.length > 0) return null;
  return { share: levelBefore(given, seen.share, seen.atUtcMs), sdShare: seen.sdShare, atUtcMs: session.plugUtcMs };
}

/** Bisection: the more there was, the more there is. A full set may have been full for long, and then the highest start is as good as any. */
function levelBefore(given: Charging, share: number, atUtcMs: number): number {
  const { scale } = given;
  const seenKwh = scale.kwhAt(share);
  let low = 0;
  let high = seenKwh;
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2;
    if (chargedKwh(given, middle, atUtcMs) < seenKwh) low = middle;
    else high = middle;
  }
  return scale.shareAt((low + high) / 2);
}

/** Level in units on the meter that a charge from a level at plugging in has reached at an instant. */
function chargedKwh({ session, scale, sockets, cuts }: Charging, fromKwh: number, atUtcMs: number): number {
  const limitKw = sockets.find(({ id }) => id === session.socketId)?.limitKw ?? 0;
  const curve = acceptanceOf(scale.acceptance ?? []);
  const untilUtcMs = Math.min(atUtcMs, session.stopUtcMs);
  let level = fromKwh;
  for (let utcMs = session.startUtcMs; scale.acceptance && utcMs < untilUtcMs; utcMs += SLOT_MS) {
    if (cuts.some((cut) => cut.fromUtcMs < utcMs + SLOT_MS && cut.toUtcMs > utcMs)) continue;
    const hours = Math.min(SLOT_MS, untilUtcMs - utcMs) / HOUR_MS;
    level += slotKwh(level, scale.fullKwh, Math.min(scale.chargerKw, limitKw), curve, hours);
  }
  return level;
}
