import { clamp } from "../../units/numbers.js";
import { type Belief, varianceAlong } from "./belief.js";
import { type DriveKind, driveParts } from "./learn-day.js";
import { daySdLog, isGuess, type Part, placeOf, type VehicleLearned } from "./parts.js";

/** What a day's answer takes from what was learned. Log-normal factors around their middle. */
export interface LearnedFactors {
  readonly driveMiddle: number;
  /** Of the charge a day's driving takes: drive factor, the day's own scatter, habit of kilometres, and how much the set holds. */
  readonly driveSdLog: number;
  /** Of the energy itself: what a gauge tells is its share of a set that may hold more or less. */
  readonly driveEnergySdLog: number;
  readonly roofMiddle: number;
  readonly roofSdLog: number;
  /** Sun in built-up places over sun in the open. */
  readonly shadeMiddle: number;
  readonly capacity: number;
  /** Ten days are not yet in: the screen says "a guess". */
  readonly guess: boolean;
}

export function learnedFactors(learned: VehicleLearned, kind: DriveKind): LearnedFactors {
  const { belief } = learned;
  const parts = driveParts(learned.drivers, kind);
  const habit = learned.kmHabit;
  const ones = (list: readonly Part[]) => list.map((part) => [placeOf(part), 1] as const);
  const slowVar = varianceAlong(belief, [...ones(parts), [placeOf("capacity"), -1]]);
  const scale = bandScale(learned.misses);
  const dayVar = daySdLog(learned) ** 2 + habit.sumSquares / habit.days;
  return {
    driveMiddle: Math.exp(sumOf(belief, parts) + habit.middleLog),
    driveSdLog: scale * Math.sqrt(slowVar + dayVar),
    driveEnergySdLog: scale * Math.sqrt(varianceAlong(belief, ones(parts)) + dayVar),
    roofMiddle: Math.exp(sumOf(belief, ["roof"])),
    roofSdLog: scale * Math.sqrt(varianceAlong(belief, ones(["roof"]))),
    shadeMiddle: Math.exp(sumOf(belief, ["shade"])),
    capacity: Math.exp(sumOf(belief, ["capacity"])),
    guess: isGuess(learned),
  };
}

const sumOf = (belief: Belief, parts: readonly Part[]): number =>
  parts.reduce((sum, part) => sum + (belief.mean[placeOf(part)] as number), 0);

/** Level held likely at the last look, and its spread; null when nobody knows. */
export function learnedLevel(learned: VehicleLearned): { atUtcMs: number; share: number; sdShare: number } | null {
  if (learned.levelAtUtcMs === null) return null;
  const share = clamp(sumOf(learned.belief, ["level"]), 0, 1);
  const sdShare = bandScale(learned.misses) * Math.sqrt(varianceAlong(learned.belief, [[placeOf("level"), 1]]));
  return { atUtcMs: learned.levelAtUtcMs, share, sdShare };
}

/** The honest band counts for this many misses. */
const HONEST_WEIGHT = 20;

/**
 * Factor on every spread so that the bands hold as many days as they say: the 80 and 90 % quantiles of past misses (in standard deviations,
 * counted among n + 1 as in split-conformal bands) over the 1.28 and 1.64 they should be, drawn to 1 as long as days are few. 0.9..2: what a gauge
 * hides always in the same way, its misses cannot show, so they may widen a band and hardly narrow it.
 * Source: Vovk, Gammerman and Shafer (2005), Algorithmic Learning in a Random World.
 */
export function bandScale(misses: readonly number[]): number {
  const n = misses.length;
  if (n === 0) return 1;
  const sizes = misses.map(Math.abs).sort((a, b) => a - b);
  const quantile = (share: number) => sizes[Math.min(n, Math.ceil(share * (n + 1))) - 1] as number;
  const ratio = (quantile(0.8) / 1.2816 + quantile(0.9) / 1.6449) / 2;
  return clamp((n * ratio + HONEST_WEIGHT) / (n + HONEST_WEIGHT), 0.9, 2);
}

/** Kilometres driven against kilometres planned: the habit, learned from days that were no other round. */
export function withKm(learned: VehicleLearned, ranLog: number): VehicleLearned {
  if (!Number.isFinite(ranLog) || Math.abs(ranLog) > ANOTHER_ROUND_LOG) return learned;
  const { days, sumSquares, middleLog } = learned.kmHabit;
  const off = clamp(ranLog - middleLog, -0.15, 0.15);
  const fade = 0.97;
  return {
    ...learned,
    kmHabit: {
      days: fade * days + 1,
      middleLog: middleLog + off / (fade * days + 1),
      sumSquares: fade * sumSquares + off * off,
    },
  };
}
/** A day 40 % longer or shorter than planned was another round. */
const ANOTHER_ROUND_LOG = Math.log(1.4);
