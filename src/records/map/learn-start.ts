import { newLearned, type VehicleLearned } from "../../calc/learn/parts.js";
import type { Vehicle } from "../index.js";

/** Health of sets in service: 0.73 to 0.98, as a log-normal middle and spread. */
const IN_SERVICE = { log: Math.log(0.855), sdLog: 0.085 };
/** Doubt of a health that a person typed, and of one that nobody did. Common practice, no source. */
const TYPED_SD_LOG = 0.06;
const GUESSED_SD_LOG = 0.12;
/**
 * A gauge in volts errs the same way every day, by the set's own curve and the meter. Published tables of lead-acid agree on a full set within 5 % of
 * the charge and differ by 11 % and more at the low end (anchors A5).
 */
const VOLTS = { gaugeSureAt: 1, gaugeSd: 0.05, gaugeScaleSdLog: 0.15 } as const;
/** Nobody knows whether a bar goes out when it is half empty or wholly: an even doubt of one bar on top of a plain gauge's. */
const barsGauge = (bars: number) => ({ gaugeSd: Math.hypot(0.03, 1 / bars / Math.sqrt(12)) });

/** Start of learning for a vehicle, by what its record says of set and gauge, and how surely. */
export function startLearning(vehicle: Vehicle): VehicleLearned {
  const { kind, bars } = vehicle.gauge;
  const gauge = kind === "volts" ? VOLTS : kind === "bars" ? barsGauge(bars ?? 5) : {};
  if (!vehicle.guesses.some((path) => path.startsWith("battery.")))
    return newLearned(vehicle.id, { ...gauge, capacitySdLog: TYPED_SD_LOG });
  const [own, all] = [GUESSED_SD_LOG ** -2, IN_SERVICE.sdLog ** -2];
  const capacityLog = (all * (IN_SERVICE.log - Math.log(vehicle.battery.health))) / (own + all);
  return newLearned(vehicle.id, { ...gauge, capacityLog, capacitySdLog: (own + all) ** -0.5 });
}
