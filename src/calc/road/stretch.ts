import { type Car, CRAWL_MS, holdMs, steadyN } from "./car.js";
import { drivePoint, mostForceN } from "./motor.js";
import { type DrivingStyle, type Ramps, rampsOf } from "./pace.js";

/** A piece of road of one slope. */
export interface Stretch {
  readonly metres: number;
  /** Rise over road length. */
  readonly sine: number;
}
export interface Plan {
  /** Cruising speed of the timetable. */
  readonly wantMs: number;
  readonly stopsPerKm: number;
  readonly style: DrivingStyle;
}

/** Energies at the wheel and at the terminals of the set. */
export interface Driven {
  readonly wheelWh: number;
  readonly batteryWh: number;
  readonly brakeWh: number;
  readonly seconds: number;
  readonly peakW: number;
  readonly speedMs: number;
  readonly holds: boolean;
  /** Lost in the motor. */
  readonly heatWh: number;
}

/** Work of a piece of driving, W s. */
interface Work {
  readonly wheelWs: number;
  readonly batteryWs: number;
  readonly heatWs: number;
  readonly brakeWs: number;
  readonly peakW: number;
}
const NO_WORK: Work = { wheelWs: 0, batteryWs: 0, heatWs: 0, brakeWs: 0, peakW: 0 };

/** Driven even by a vehicle that has no force to spare, m/s2. */
const LEAST_ACCEL_MS2 = 0.1;
/** Nodes and weights of Gauss and Legendre on 0..1: three speeds stand for a whole ramp. */
const NODES = [0.1127016653792583, 0.5, 0.8872983346207417] as const;
const WEIGHTS = [0.2777777777777778, 0.4444444444444444, 0.2777777777777778] as const;

/** Work of a steady force, negative when it has to brake. */
function steadyWork(car: Car, forceN: number, at: { speedMs: number; seconds: number }): Work {
  const wheelWs = forceN * at.speedMs * at.seconds;
  if (wheelWs <= 0) return { ...NO_WORK, brakeWs: -wheelWs };
  const point = drivePoint(car.drive, forceN, at.speedMs);
  return {
    wheelWs,
    batteryWs: point.batteryW * at.seconds,
    heatWs: point.motorLossW * at.seconds,
    brakeWs: 0,
    peakW: point.batteryW,
  };
}

const times = (of: Work, count: number): Work => ({
  wheelWs: of.wheelWs * count,
  batteryWs: of.batteryWs * count,
  heatWs: of.heatWs * count,
  brakeWs: of.brakeWs * count,
  peakW: count > 0 ? of.peakW : 0,
});
const added = (parts: readonly Work[]): Work =>
  parts.reduce((all, each) => ({
    wheelWs: all.wheelWs + each.wheelWs,
    batteryWs: all.batteryWs + each.batteryWs,
    heatWs: all.heatWs + each.heatWs,
    brakeWs: all.brakeWs + each.brakeWs,
    peakW: Math.max(all.peakW, each.peakW),
  }));

/** One change between rest and `speedMs` at an even rate, negative for slowing down. */
function rampWork(car: Car, sine: number, speedMs: number, rateMs2: number): Work {
  const seconds = speedMs / Math.abs(rateMs2);
  return added(
    NODES.map((node, i) => {
      const at = speedMs * node;
      const forceN = steadyN(car, sine, at) + car.inertiaKg * rateMs2;
      return steadyWork(car, forceN, { speedMs: at, seconds: seconds * (WEIGHTS[i] as number) });
    }),
  );
}

function accelMs2(car: Car, sine: number, speedMs: number, style: DrivingStyle): number {
  const spareN = mostForceN(car.drive, speedMs * 0.75) - steadyN(car, sine, speedMs * 0.75);
  return Math.min(style.accelMs2, Math.max(LEAST_ACCEL_MS2, spareN / car.inertiaKg));
}

/** Speed that a weak drive reaches between stops: the ramps must find room on the stretch. */
function reachedMs(car: Car, stretch: Stretch, at: { heldMs: number; ramps: Ramps; style: DrivingStyle }): number {
  const rampM = (speedMs: number) =>
    ((at.ramps.energy * speedMs * speedMs) / 2) *
    (1 / accelMs2(car, stretch.sine, speedMs, at.style) + 1 / at.style.brakeMs2);
  if (rampM(at.heldMs) <= stretch.metres) return at.heldMs;
  let low = 0;
  let high = at.heldMs;
  for (let i = 0; i < 45; i++) {
    const middle = (low + high) / 2;
    if (rampM(middle) <= stretch.metres) low = middle;
    else high = middle;
  }
  return Math.max(low, Math.min(CRAWL_MS, at.heldMs));
}

/** Ramps and the even part between them. */
function workOf(car: Car, stretch: Stretch, at: { speedMs: number; accel: number; brake: number; ramps: Ramps }): Work {
  const { speedMs, ramps } = at;
  const rampM = ((ramps.energy * speedMs * speedMs) / 2) * (1 / at.accel + 1 / at.brake);
  const evenM = Math.max(0, stretch.metres - rampM);
  return added([
    times(rampWork(car, stretch.sine, speedMs, at.accel), ramps.energy),
    steadyWork(car, steadyN(car, stretch.sine, speedMs), { speedMs, seconds: evenM / speedMs }),
    times(rampWork(car, stretch.sine, speedMs, -at.brake), ramps.energy),
  ]);
}

/** Drives one stretch at the cruising speed where the slope lets it, with its share of stops and slow-downs. */
export function driveStretch(car: Car, stretch: Stretch, plan: Plan): Driven {
  const { metres, sine } = stretch;
  const held = holdMs(car, sine, plan.wantMs);
  const stops = (plan.stopsPerKm * metres) / 1000;
  const ramps = rampsOf(stops, metres / 1000, plan.style);
  const heldMs = held ?? Math.min(CRAWL_MS, plan.wantMs);
  const speedMs = reachedMs(car, stretch, { heldMs, ramps, style: plan.style });
  const accel = accelMs2(car, sine, speedMs, plan.style);
  const work = workOf(car, stretch, { speedMs, accel, brake: plan.style.brakeMs2, ramps });
  const rampS = ramps.time * speedMs * (0.5 / accel + 0.5 / plan.style.brakeMs2);
  const seconds = metres / speedMs + rampS + stops * plan.style.standS;
  return {
    wheelWh: work.wheelWs / 3600,
    batteryWh: work.batteryWs / 3600,
    brakeWh: work.brakeWs / 3600,
    seconds,
    peakW: work.peakW,
    speedMs,
    holds: held !== null,
    heatWh: work.heatWs / 3600,
  };
}
