import { carOf, steadyN } from "./car.js";
import { cooled, drivePoint, heatedDrive } from "./motor.js";
import { cruiseMs, DRIVING, type DrivingStyle } from "./pace.js";
import { type Driven, driveStretch, type Stretch } from "./stretch.js";
import type { Leg, LegDrain, LegProblem, RoadVehicle } from "./types.js";

/**
 * Roads climb in pitches: a typed climb or drop is taken to lie on slopes of at least this sine, the rest of the leg is level
 * (common practice, no source). A milder reading would hide what braking downhill wastes.
 */
const LEAST_PITCH = 0.025;
/** Steepest slope a leg may ask for (about 27 degrees, no road is steeper): a typed climb beyond it is cut there, and the leg says so. */
const STEEPEST_PITCH = 0.45;

/** Typed climb and drop laid on slopes: up, level, down. */
function stretchesOf(leg: Leg): readonly Stretch[] {
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

/** Later than this is worth a word. */
const LATE_MINUTES = 0.5;
function problemOf(
  leg: Leg,
  driven: readonly Driven[],
  late: { readonly hot: boolean; readonly minutes: number },
): LegProblem | null {
  if (leg.climbM + leg.dropM > STEEPEST_PITCH * leg.km * 1000) return "noSuchRoad";
  if (driven.some((each) => !each.holds)) return "tooSteep";
  if (late.hot) return "hot30min";
  return late.minutes > LATE_MINUTES ? "slower" : null;
}

const STANDING: Omit<LegDrain, "minutes" | "heat"> = {
  batteryWh: 0,
  wheelWh: 0,
  regenWh: 0,
  meanW: 0,
  peakW: 0,
  gear: null,
  speedKmh: 0,
  problem: null,
};

/**
 * What a leg takes from the set at its terminals, Wh, and when the vehicle arrives; lamps and other loads apart.
 * Range: 0..200 km, payload as the records allow. Assumes that the driver keeps the timetable where the drive line lets him, slopes and stops spread
 * evenly over the leg, still air. Braking energy comes back only by `regenShare` of the vehicle. A slope no gear holds is still
 * charged, at a walking pace, and named. `heat` is that of the motor before the leg, 0 cold to 1 at what it bears.
 * Source: road load and gears of Gillespie (1992) ch. 4; part load by motor.ts; stops and slow-downs by pace.ts.
 */
export function legDrain(leg: Leg, vehicle: RoadVehicle, heat = 0, style: DrivingStyle = DRIVING): LegDrain {
  if (!(leg.km > 1e-6)) return { ...STANDING, minutes: leg.minutes, heat: cooled(heat, leg.minutes) };
  const car = carOf(vehicle, leg);
  const plan = { wantMs: cruiseMs(leg, vehicle.maxKmh / 3.6, style), stopsPerKm: leg.stopsPerKm, style };
  const stretches = stretchesOf(leg);
  const driven = stretches.map((stretch) => driveStretch(car, stretch, plan));
  const total = (of: (each: Driven) => number): number => driven.reduce((all, each) => all + of(each), 0);
  const batteryWh = total((each) => each.batteryWh);
  const planned = Math.max(leg.minutes, total((each) => each.seconds) / 60);
  // Climbs are taken to be spread over the leg, as their place is not known: the motor's heat counts over the whole of it.
  const done = heatedDrive(car.drive, { heatWh: total((each) => each.heatWh), minutes: planned, heat });
  const { minutes } = done;
  const hardest = driven[0] as Driven;
  const hardestN = Math.max(0, steadyN(car, stretches[0]?.sine ?? 0, hardest.speedMs));
  return {
    batteryWh,
    wheelWh: total((each) => each.wheelWh),
    regenWh: vehicle.regenShare * total((each) => each.brakeWh),
    minutes,
    meanW: (batteryWh * 60) / minutes,
    peakW: Math.max(...driven.map((each) => each.peakW)),
    gear: drivePoint(car.drive, hardestN, hardest.speedMs).gear,
    speedKmh: hardest.speedMs * 3.6,
    heat: done.heat,
    problem: problemOf(leg, driven, { hot: minutes > planned, minutes: minutes - leg.minutes }),
  };
}
