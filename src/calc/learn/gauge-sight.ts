import { normalShare } from "../../units/dice.js";
import { clamp } from "../../units/numbers.js";
import { type Belief, carry, type Sight, varianceAlong } from "./belief.js";
import { placeOf } from "./parts.js";

/** A gauge seen at rest, as a share of full; `full` is "it has stopped charging": the level itself, whatever the gauge shows. */
export interface GaugeSeen {
  readonly atUtcMs: number;
  readonly share: number;
  readonly sdShare: number;
  /** Widest shares that would have shown the same: a full set shows no more than full, an empty one no less than empty. */
  readonly low: number;
  readonly high: number;
  readonly full: boolean;
  /** What it would be with the point elsewhere; empty where that cannot be. */
  readonly slips: readonly number[];
  /** The person was asked whether it is so and said yes. */
  readonly sure: boolean;
}

/**
 * What a gauge says of level, offset and scale. Level below 0 is what a day asked for beyond an empty set: the gauge cannot show it, so near
 * empty (and at the gauge's own ends) the sight is bent: the mean and variance that follow from the whole likelihood, put as a straight sight
 * of the same effect. Source: censored normal values, J. Tobin (1958), Econometrica 26, 24.
 */
export function gaugeSight(belief: Belief, seen: GaugeSeen): Sight {
  const offset = belief.mean[placeOf("gaugeOffset")] as number;
  const scale = Math.exp(belief.mean[placeOf("gaugeScale")] as number);
  const level = belief.mean[placeOf("level")] as number;
  const slopes = [
    [placeOf("level"), scale],
    [placeOf("gaugeOffset"), 1],
    [placeOf("gaugeScale"), scale * level],
  ] as const;
  const plain: Sight = { slopes, expected: offset + scale * level, seen: seen.share, variance: seen.sdShare ** 2 };
  const own = varianceAlong(belief, slopes);
  const reach = 3 * Math.sqrt(own);
  const isPlain = plain.expected - reach > offset && seen.low === seen.share && seen.high === seen.share;
  return isPlain ? plain : bentSight(plain, own, seen, offset);
}

const NODES = 40;

function bentSight(plain: Sight, own: number, { low, high, sdShare }: GaugeSeen, emptyShown: number): Sight {
  const sd = Math.sqrt(own);
  let [total, mean, square] = [0, 0, 0];
  for (let i = 0; i <= NODES; i++) {
    const z = -4 + (8 * i) / NODES;
    const shown = Math.max(emptyShown, plain.expected + z * sd);
    const off = (shown - clamp(shown, low, high)) / sdShare;
    const weight = Math.exp(-0.5 * (z * z + off * off));
    total += weight;
    mean += weight * z;
    square += weight * z * z;
  }
  if (total < NOTHING) return plain;
  const shift = mean / total;
  const told = clamp(1 - (square / total - shift * shift), TELLS_LEAST, 1 - TELLS_LEAST);
  return { ...plain, seen: plain.expected + (shift * sd) / told, variance: own / told - own };
}
/** So unlikely that the plain sight says as much. */
const NOTHING = 1e-9;
const TELLS_LEAST = 1e-3;

/** A level held below empty is an empty set: the level as it is, no longer what was asked for. Mean, variance and slope of max(0, normal). */
export function grounded(belief: Belief): Belief {
  const place = placeOf("level");
  const n = belief.mean.length;
  const mean = belief.mean[place] as number;
  const variance = belief.cov[place * (n + 1)] as number;
  const sd = Math.sqrt(variance);
  if (mean > 2.5 * sd) return belief;
  const above = normalShare(mean / sd);
  const density = Math.exp((-mean * mean) / (2 * variance)) / Math.sqrt(2 * Math.PI);
  const middle = mean * above + sd * density;
  const square = (mean * mean + variance) * above + mean * sd * density;
  const rest = Math.max(1e-6, square - middle * middle - above * above * variance);
  return carry(belief, place, { value: middle, slopes: [[place, above]], variance: rest });
}
