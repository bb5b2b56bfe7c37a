import { refill, storeModel } from "../../calc/battery/index.js";
import { type ChargeSeen, charge } from "../../calc/learn/charge.js";
import type { VehicleLearned } from "../../calc/learn/parts.js";
import { HOUR_MS } from "../../units/numbers.js";
import { batteryOf } from "./battery.js";
import { fullLevelOf, type Night } from "./learn-events.js";
import { type Ground, levelOf, stood } from "./learn-look-back.js";
import { meanAirC } from "./weather.js";

/** What a night on the plug, or off it, did. */
export function chargedOver(before: VehicleLearned, night: Night, endUtcMs: number, ground: Ground): VehicleLearned {
  if (night.kind === "none") return before;
  if (night.kind === "unknown") return charge(before, { kind: "unknown" });
  const waited = stood(before, Math.min(night.pluggedUtcMs, endUtcMs), ground);
  return charge(waited, chargeSeen(waited, night, endUtcMs, ground));
}

/** Units at the meter for each that the set holds: more is a slip. */
const MOST_GRID_PER_SET = 1.6;

function chargeSeen(learned: VehicleLearned, night: Night, endUtcMs: number, ground: Ground): ChargeSeen {
  const { vehicle, yard, byDate } = ground;
  const store = storeModel(batteryOf(vehicle), meanAirC(yard, byDate, endUtcMs));
  const fullLevel = fullLevelOf(vehicle);
  const { ratedW, efficiency } = vehicle.charger;
  const from = Math.min(levelOf(learned), fullLevel.share - 0.01);
  const toFull = refill(store, { ratedW, efficiency }, { from, to: fullLevel.share });
  const hours = Math.max(0, (endUtcMs - night.pluggedUtcMs) / HOUR_MS);
  const missingWh = (fullLevel.share - from) * store.usableWh;
  const inTime = hours > 1.15 * toFull.hours;
  const shared = { atUtcMs: endUtcMs, usableWh: store.usableWh, fullLevel, inTime };
  const holds = night.gridKwh !== null && night.gridKwh * 1000 < MOST_GRID_PER_SET * store.usableWh;
  if (night.gridKwh !== null && holds && Number.isFinite(toFull.gridWh) && toFull.gridWh > 0)
    return { kind: "meter", ...shared, gridWh: night.gridKwh * 1000, efficiency: missingWh / toFull.gridWh };
  return { kind: "hours", ...shared, intoSetWh: Math.min(1, hours / toFull.hours) * missingWh };
}
