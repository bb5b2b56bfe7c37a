import { restedVoltage } from "../../calc/battery/index.js";
import type { Vehicle } from "../../records/index.js";
import { batteryOf } from "../../records/map/battery.js";
import type { GaugeKind } from "./today-model.js";

/** Values of a gauge to tap, `count` of them, the likely one in the middle. */
export function gaugeValues(kind: GaugeKind, vehicle: Vehicle, level: number, count: number): number[] {
  if (kind === "bars") {
    const bars = vehicle.gauge.bars ?? 5;
    const all = Array.from({ length: bars + 1 }, (_, i) => i);
    const first = Math.max(0, Math.min(bars + 1 - count, Math.round(level * bars) - Math.floor(count / 2)));
    return all.slice(first, first + count);
  }
  if (kind === "percent") return around(level * 100, 5, [0, 100], count);
  const { nominalV } = vehicle.battery;
  const stepV = nominalV < 30 ? 0.2 : nominalV < 66 ? 0.4 : 0.6;
  return around(restedVoltage(batteryOf(vehicle), level), stepV, [0.7 * nominalV, 1.3 * nominalV], count);
}

/** `count` steps around a value, on whole steps, inside a range. */
export function around(
  middle: number,
  step: number,
  [least, most]: readonly [number, number],
  count: number,
): number[] {
  const centred = middle - Math.floor(count / 2) * step;
  const first = Math.max(least, Math.min(most - (count - 1) * step, centred));
  const low = Math.round(first / step);
  const values = Array.from({ length: count }, (_, i) => Math.round((low + i) * step * 10) / 10);
  return values.filter((value) => value >= least - 1e-9 && value <= most + 1e-9);
}
