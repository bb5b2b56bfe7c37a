import { crrOn, GRAVITY_MS2, ROTATING_FACTOR } from "./load.js";
import { bearableMinutes, type DriveLine, driveLineOf, drivePoint, mostForceN } from "./motor.js";
import { cruiseMs, DRIVING, type DrivingStyle, rampsOf } from "./pace.js";
import type { Leg, LegDrain, LegProblem, RoadVehicle } from "./types.js";

/**
 * Roads climb in pitches: a typed climb or drop is taken to lie on slopes of at least this sine, the rest of the leg is level
 * (common practice, no source). A milder reading would hide what braking downhill wastes.
 */
const LEAST_PITCH = 0.025;
/** Steepest slope a leg may ask for; a typed climb beyond it is cut there (about 27 degrees, no road is steeper). */
const STEEPEST_PITCH = 0.45;
/** Driven even by a vehicle that has no force to spare, m/s2. */
const LEAST_ACCEL_MS2 = 0.1;
/** Walking pace: what the answer assumes where no gear holds the slope, m/s. */
const CRAWL_MS = 1;
/** Nodes and weights of Gauss and Legendre on 0..1: speeds of a ramp. */
const NODES = [0.1127016653792583, 0.5, 0.8872983346207417] as const;
const WEIGHTS = [0.2777777777777778, 0.4444444444444444, 0.2777777777777778] as const;

interface Stretch {
  readonly metres: number;
  /** Rise over road length. */
  readonly sine: number;
}
interface Car {
  readonly drive: DriveLine;
  readonly massKg: number;
  readonly crr: number;
  /** Half of air density times drag area, kg/m. */
  readonly dragKgM: number;
  readonly regenShare: number;
}
interface Driven {
  readonly wheelWh: number;
  readonly batteryWh: number;
  readonly brakeWh: number;
  readonly seconds: number;
  readonly peakW: number;
  readonly speedMs: number;
  readonly holds: boolean;
  /** Seconds at full work beyond what the motor bears, by which the vehicle has to wait or slow down. */
  readonly hotS: number;
}

const steadyN = (car: Car, sine: number, speedMs: number): number =>
  car.massKg * GRAVITY_MS2 * (car.crr * Math.sqrt(1 - sine * sine) + sine) + car.dragKgM * speedMs * speedMs;

/** Fastest speed up to `wantMs` at which the drive line holds the slope; null when it does not even crawl. */
function holdMs(car: Car, sine: number, wantMs: number, overRated?: number): number | null {
  const holds = (speedMs: number) => mostForceN(car.drive, speedMs, overRated) >= steadyN(car, sine, speedMs);
  if (holds(wantMs)) return wantMs;
  if (!holds(CRAWL_MS)) return null;
  let low = CRAWL_MS;
  let high = wantMs;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Energy of speeding up from rest to `speedMs`: three speeds of the ramp stand for all. */
function rampUp(car: Car, sine: number, speedMs: number, accelMs2: number) {
  const seconds = speedMs / accelMs2;
  let wheelWs = 0;
  let batteryWs = 0;
  let peakW = 0;
  for (let i = 0; i < NODES.length; i++) {
    const at = speedMs * (NODES[i] as number);
    const forceN = steadyN(car, sine, at) + car.massKg * ROTATING_FACTOR * accelMs2;
    if (forceN <= 0) continue;
    const weightS = seconds * (WEIGHTS[i] as number);
    const batteryW = drivePoint(car.drive, forceN, at).batteryW;
    wheelWs += forceN * at * weightS;
    batteryWs += batteryW * weightS;
    peakW = Math.max(peakW, batteryW);
  }
  return { wheelWs, batteryWs, peakW };
}

function accelFor(car: Car, sine: number, speedMs: number, style: DrivingStyle): number {
  const spareN = mostForceN(car.drive, speedMs * 0.75) - steadyN(car, sine, speedMs * 0.75);
  return Math.min(style.accelMs2, Math.max(LEAST_ACCEL_MS2, spareN / (car.massKg * ROTATING_FACTOR)));
}

/** One stretch of even slope at `wantMs` where the slope lets it, with its share of stops and slow-downs. */
function driveStretch(
  car: Car,
  stretch: Stretch,
  plan: { wantMs: number; stopsPerKm: number; style: DrivingStyle },
): Driven {
  const { metres, sine } = stretch;
  const { style } = plan;
  const held = holdMs(car, sine, plan.wantMs);
  const speedMs = held ?? CRAWL_MS;
  const accelMs2 = accelFor(car, sine, speedMs, style);
  const stops = (plan.stopsPerKm * metres) / 1000;
  const ramps = rampsOf(stops, metres / 1000, style);
  const upM = (ramps.energy * speedMs * speedMs) / (2 * accelMs2);
  const downM = (ramps.energy * speedMs * speedMs) / (2 * style.brakeMs2);
  const fit = Math.min(1, metres / Math.max(upM + downM, 1e-9)); // weak drive on a crowded leg: not every ramp reaches the full speed
  const evenM = Math.max(0, metres - upM - downM);

  const up = rampUp(car, sine, speedMs, accelMs2);
  const evenN = steadyN(car, sine, speedMs);
  const even = evenN > 0 ? drivePoint(car.drive, evenN, speedMs) : null;
  const evenS = evenM / speedMs;
  // Slowing down: rolling, air and slope take their part of the speed's energy first. Mean of v2 over an even ramp is half its square.
  const downN = steadyN(car, sine, speedMs * Math.SQRT1_2) - car.massKg * ROTATING_FACTOR * style.brakeMs2;
  const count = ramps.energy * fit;
  const wheelWs = count * up.wheelWs + Math.max(0, evenN) * evenM + Math.max(0, downN) * downM * fit;
  const brakeWs = Math.max(0, -evenN) * evenM + Math.max(0, -downN) * downM * fit;
  const coastUp = downN > 0 ? drivePoint(car.drive, downN, speedMs / 2).batteryW * ((2 * downM * fit) / speedMs) : 0;
  const batteryWs = count * up.batteryWs + (even ? even.batteryW * evenS : 0) + coastUp;
  const timeRampS = ramps.time * speedMs * (0.5 / accelMs2 + 0.5 / style.brakeMs2);
  return {
    wheelWh: wheelWs / 3600,
    batteryWh: batteryWs / 3600,
    brakeWh: brakeWs / 3600,
    seconds: metres / speedMs + timeRampS + stops * style.standS,
    peakW: Math.max(up.peakW * (count > 0 ? 1 : 0), even?.batteryW ?? 0),
    speedMs,
    holds: held !== null,
    hotS: even ? Math.max(0, evenS - 60 * bearableMinutes(car.drive, even.motorLossW)) : 0,
  };
}

/** Typed climb and drop laid on slopes: up, level, down. */
export function stretchesOf(leg: Pick<Leg, "km" | "climbM" | "dropM">): readonly Stretch[] {
  const metres = leg.km * 1000;
  const heightM = leg.climbM + leg.dropM;
  const sine = Math.min(STEEPEST_PITCH, Math.max(LEAST_PITCH, heightM / metres));
  const slopedM = Math.min(metres, heightM / sine);
  const upM = heightM > 0 ? (slopedM * leg.climbM) / heightM : 0;
  const all = [
    { metres: upM, sine },
    { metres: metres - slopedM, sine: 0 },
    { metres: slopedM - upM, sine: -sine },
  ];
  return all.filter((stretch) => stretch.metres > 1e-9);
}

function problemOf(driven: readonly Driven[], lateMinutes: number): LegProblem | null {
  if (driven.some((each) => !each.holds)) return "tooSteep";
  if (driven.some((each) => each.hotS > 0)) return "hot30min";
  return lateMinutes > 0.5 ? "slower" : null;
}

const NOTHING: LegDrain = {
  batteryWh: 0,
  regenWh: 0,
  minutes: 0,
  meanW: 0,
  peakW: 0,
  gear: null,
  speedKmh: 0,
  problem: null,
};

/**
 * What a leg takes from the set at its terminals, Wh, and when the vehicle arrives; lamps and other loads apart.
 * Range: 0..200 km, payload as the records allow; the driver keeps the timetable where the drive line lets him, slopes and stops spread
 * evenly over the leg, still air. Braking energy comes back only by `regenShare` of the vehicle.
 * Source: road load and gears of Gillespie (1992) ch. 4; part load by motor.ts; stops and slow-downs by pace.ts.
 */
export function legDrain(leg: Leg, vehicle: RoadVehicle, style: DrivingStyle = DRIVING): LegDrain {
  if (!(leg.km > 0)) return { ...NOTHING, minutes: leg.minutes };
  const car: Car = {
    drive: driveLineOf(vehicle),
    massKg: vehicle.kerbKg + vehicle.driverKg + leg.payloadKg,
    crr: crrOn(vehicle, leg.surface, leg.wet),
    dragKgM: 0.5 * leg.airDensityKgM3 * vehicle.cdaM2,
    regenShare: vehicle.regenShare,
  };
  const plan = { wantMs: cruiseMs(leg, vehicle.maxKmh / 3.6, style), stopsPerKm: leg.stopsPerKm, style };
  const stretches = stretchesOf(leg);
  const driven = stretches.map((stretch) => driveStretch(car, stretch, plan));
  const total = (of: (each: Driven) => number): number => driven.reduce((all, each) => all + of(each), 0);
  const batteryWh = total((each) => each.batteryWh);
  const minutes = Math.max(leg.minutes, total((each) => each.seconds + each.hotS) / 60);
  const hardest = driven[0] as Driven;
  const sine = stretches[0]?.sine ?? 0;
  return {
    batteryWh,
    regenWh: Math.min(batteryWh, vehicle.regenShare * total((each) => each.brakeWh)),
    minutes,
    meanW: (batteryWh * 60) / minutes,
    peakW: Math.max(...driven.map((each) => each.peakW)),
    gear: drivePoint(car.drive, Math.max(0, steadyN(car, sine, hardest.speedMs)), hardest.speedMs).gear,
    speedKmh: hardest.speedMs * 3.6,
    problem: problemOf(driven, minutes - leg.minutes),
  };
}
