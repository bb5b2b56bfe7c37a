import { levelFromReading } from "../../calc/battery/index.js";
import type { Missing, ReadingDoubt } from "../../calc/day/answer.js";
import type { Reading, Vehicle } from "../index.js";
import { batteryOf } from "./battery.js";

/** Charge known, or not, at the start of the answer. */
export interface StartLevel {
  readonly atUtcMs: number;
  readonly share: number;
  readonly sdShare: number;
  readonly missing: readonly Missing[];
  readonly readingDoubt: ReadingDoubt | null;
}

/** With no reading at all: anything from nearly flat to full, a vehicle being more often charged than not. Common practice, no source. */
const NOTHING_KNOWN = { share: 0.7, sdShare: 0.25 };

/** The last reading a person took before `nowUtcMs`, as charge with its spread; a reading that says nothing counts as none. */
export function startLevelOf(vehicle: Vehicle, readings: readonly Reading[], nowUtcMs: number): StartLevel {
  const battery = batteryOf(vehicle);
  const latest = readings
    .filter((reading) => reading.vehicleId === vehicle.id && reading.atUtcMs <= nowUtcMs)
    .reduce<Reading | null>((last, reading) => (last && last.atUtcMs >= reading.atUtcMs ? last : reading), null);
  const none: StartLevel = { atUtcMs: nowUtcMs, ...NOTHING_KNOWN, missing: ["reading"], readingDoubt: null };
  if (!latest) return none;
  const { kind, value, restedMin, perBlock } = latest;
  const level = levelFromReading(
    { kind, value, restedMin, perBlock: perBlock || null, bars: vehicle.gauge.bars },
    battery,
  );
  if (!level.ok) return { ...none, readingDoubt: "outOfRange" };
  const { share, sdShare, why } = level.value;
  return { atUtcMs: latest.atUtcMs, share, sdShare, missing: [], readingDoubt: why ?? null };
}
