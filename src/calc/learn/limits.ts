import { clamp } from "../../units/numbers.js";
import { type Belief, type Heard, hear, type Limit, type Sight, varianceAlong } from "./belief.js";
import { type Part, placeOf } from "./parts.js";

const DRIVE_PARTS: readonly Part[] = ["drive", "wet", "empty", "half", "full", "driverA", "driverB"];
/**
 * The furthest one value moves what the next answer rests on: then a slip of the finger moves it by less than 3 %. A value well within what
 * was to be expected may teach up to three times as much: it is no slip, and a new vehicle is learned within days. So may one on the side to
 * which the days before it leaned.
 */
const MOST_DRIVE = 0.02;
const MOST_SET = 0.008;
const MOST_GAUGE = 0.012;
const MOST_ROOF = 0.06;
const FITS_SD = 1.2;

function limitsFor(belief: Belief, sight: Sight, lean: number): Limit[] {
  const z = (sight.seen - sight.expected) / Math.sqrt(varianceAlong(belief, sight.slopes) + sight.variance);
  const fits = Math.max(0, 1 - (z / FITS_SD) ** 2);
  const freer = 1 + 2 * Math.max(fits, z * lean > 0 ? clamp(Math.abs(lean) - LEANS, 0, 1) : 0);
  return [
    { places: DRIVE_PARTS.map(placeOf), most: MOST_DRIVE * freer },
    { places: [placeOf("capacity"), placeOf("charger")], most: MOST_SET * freer },
    { places: [placeOf("gaugeOffset"), placeOf("gaugeScale")], most: MOST_GAUGE * freer },
    { places: [placeOf("roof"), placeOf("shade")], most: MOST_ROOF },
  ];
}

/** Takes in one thing seen, within the limits. */
export const listen = (belief: Belief, sight: Sight, { sure = false, lean = 0 } = {}): Heard =>
  hear(belief, sight, limitsFor(belief, sight, lean), sure);

/** More than one slip can bring about. */
const LEANS = 1.5;
const LEAK = 0.5;
const MOST_OF_ONE = 2;

/**
 * Running sum of misses in standard deviations that leaks half a one a day: past 1.5 the days lean to one side, which no single slip does.
 * Source: cumulative sum with reference value 1/2, E. S. Page (1954), Biometrika 41, 100.
 */
export function leanWith(lean: number, z: number): number {
  const sum = lean + clamp(z, -MOST_OF_ONE, MOST_OF_ONE);
  return Math.sign(sum) * Math.min(MOST_LEAN, Math.max(0, Math.abs(sum) - LEAK));
}
const MOST_LEAN = 4;
