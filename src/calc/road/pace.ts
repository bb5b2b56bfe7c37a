/** How a three-wheeler is driven between its stops; figures with their sources below. */
export interface DrivingStyle {
  /** Mean speeding up and slowing down, m/s2. */
  readonly accelMs2: number;
  readonly brakeMs2: number;
  /** Standing at each stop on the way (crossing, passenger), s. */
  readonly standS: number;
  /** Slow-downs per km in between, from the cruising speed to `slowTo` of it and up again. */
  readonly slowsPerKm: number;
  readonly slowTo: number;
}

/**
 * Speeding up as in the Indian driving cycle for three-wheelers (0.3 to 0.65 m/s2, mean about 0.5), standing as in four prescribed cycles (13 to 20 s a stop). With
 * two slow-downs to half speed a km, the wheel energy of those cycles, whole or capped at 25 to 45 km/h, comes out of nothing but their length,
 * time and stops: within 20 %, mean error 2 % (tests/calc/road/drain.test.ts).
 */
export const DRIVING: DrivingStyle = { accelMs2: 0.55, brakeMs2: 0.55, standS: 14, slowsPerKm: 2, slowTo: 0.5 };

/** No vehicle crawls all the way because its timetable is slack: below this it stands longer instead, m/s. */
const SLOWEST_CRUISE_MS = 10 / 3.6;

/** Ramps (from cruising speed to rest and back) that a stretch counts: all of them for energy and length, and for time. */
export interface Ramps {
  readonly energy: number;
  readonly time: number;
}

export function rampsOf(stops: number, km: number, style: DrivingStyle): Ramps {
  const slows = style.slowsPerKm * km;
  return { energy: stops + slows * (1 - style.slowTo ** 2), time: stops + slows * (1 - style.slowTo) ** 2 };
}

/** Seconds one ramp costs per m/s of cruising speed, against driving on. */
const rampS2PerM = (style: DrivingStyle): number => 0.5 / style.accelMs2 + 0.5 / style.brakeMs2;

/**
 * Cruising speed that keeps a timetable, m/s, from 2.8 m/s to `maxMs`: the slower root of length/v + ramps v k + standing = time.
 * Where no speed keeps it, the one that comes closest.
 */
export function cruiseMs(
  leg: { readonly km: number; readonly minutes: number; readonly stopsPerKm: number },
  maxMs: number,
  style: DrivingStyle = DRIVING,
): number {
  const metres = leg.km * 1000;
  const stops = leg.stopsPerKm * leg.km;
  const ramps = rampsOf(stops, leg.km, style);
  const perSpeed = ramps.time * rampS2PerM(style);
  const movingS = leg.minutes * 60 - stops * style.standS;
  const under = movingS * movingS - 4 * perSpeed * metres;
  const kept = movingS > 0 && under >= 0 ? (2 * metres) / (movingS + Math.sqrt(under)) : Number.POSITIVE_INFINITY;
  // Between two ramps there must be room for them.
  const room = ramps.energy > 0 ? Math.sqrt(metres / (ramps.energy * rampS2PerM(style))) : Number.POSITIVE_INFINITY;
  return Math.min(Math.max(kept, SLOWEST_CRUISE_MS), room, maxMs);
}
