import type { Band } from "../calc/day/answer.js";
import { pinballLoss } from "../calc/learn/score.js";
import type { TruthDay } from "./replay-file.js";
import type { Forecast } from "./replay-run.js";

/** How good a set of forecasts was. Shares are of the set's usable charge; null where nothing could be scored. */
export interface Scores {
  readonly days: number;
  /** Forecasts that gave an answer. */
  readonly answered: number;
  /** Mean distance of the likely level at home from the true one, and of the lowest point. */
  readonly chargeError: number | null;
  readonly lowestError: number | null;
  /** Mean pinball loss of the lowest point over the quantiles 5, 10, 50, 90, 95. */
  readonly pinball: number | null;
  /** Share of true lowest points within 10..90 and 5..95. */
  readonly inside80: number | null;
  readonly inside90: number | null;
  /** Mean square of (chance - what happened). Source: G. W. Brier (1950), Mon. Weather Rev. 78, 1. */
  readonly brier: number | null;
  /** Mean of |likely - true| / true. */
  readonly driveError: number | null;
  /** Mean of |mean said - true| over the mean of the true sun, and sum of the means said over sum of the true less 1. */
  readonly sunError: number | null;
  readonly sunBias: number | null;
  /** Shortages that were not said, and said ones that did not come. */
  readonly missedShort: number;
  readonly falseAlarms: number;
}

const LEVELS = [0.05, 0.1, 0.5, 0.9, 0.95] as const;
const quantiles = (band: Band): readonly number[] => [band.p05, band.p10, band.p50, band.p90, band.p95];
const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

export interface ScoreRule {
  readonly when: Forecast["when"];
  /** Score only days with at least so many days of the vehicle before them. */
  readonly fromDay: number;
}

interface Pair {
  readonly said: Forecast;
  readonly was: TruthDay;
  readonly lowest: number;
  readonly home: number;
}

export function score(forecasts: readonly Forecast[], truth: readonly TruthDay[], rule: ScoreRule): Scores {
  const pairs = pairsOf(forecasts, truth, rule);
  const answered = pairs.filter(({ said }) => said.verdict !== "notKnown").length;
  const of = (value: (pair: Pair) => number) => mean(pairs.map(value));
  const pinball = ({ said, lowest }: Pair) =>
    quantiles(said.lowest).reduce((sum, q, l) => sum + pinballLoss(LEVELS[l] as number, q, lowest), 0) / LEVELS.length;
  const short = ({ said, lowest }: Pair) => lowest < said.reserveShare;
  const withSun = pairs.filter(({ was }) => was.sunWh !== undefined);
  const trueSun = mean(withSun.map(({ was }) => was.sunWh ?? 0));
  // Energies are added up over days: the mean is what is said of them, not the middle.
  const sunMiss = mean(withSun.map(({ said, was }) => Math.abs(said.sunWh.mean - (was.sunWh ?? 0))));
  const sunMean = mean(withSun.map(({ said }) => said.sunWh.mean));
  const drives = pairs.filter(({ was }) => (was.driveWh ?? 0) > 0);
  return {
    days: pairs.length,
    answered,
    chargeError: of(({ said, home }) => Math.abs(said.home.p50 - home)),
    lowestError: of(({ said, lowest }) => Math.abs(said.lowest.p50 - lowest)),
    pinball: of(pinball),
    inside80: of(({ said, lowest }) => (lowest >= said.lowest.p10 && lowest <= said.lowest.p90 ? 1 : 0)),
    inside90: of(({ said, lowest }) => (lowest >= said.lowest.p05 && lowest <= said.lowest.p95 ? 1 : 0)),
    brier: of((pair) => (pair.said.chance - (short(pair) ? 0 : 1)) ** 2),
    driveError: mean(drives.map(({ said, was }) => Math.abs(said.driveWh.p50 / (was.driveWh as number) - 1))),
    sunError: trueSun && sunMiss !== null ? sunMiss / trueSun : null,
    sunBias: trueSun && sunMean !== null ? sunMean / trueSun - 1 : null,
    missedShort: pairs.filter((pair) => short(pair) && pair.said.verdict === "enough").length,
    falseAlarms: pairs.filter((pair) => !short(pair) && pair.said.verdict === "short").length,
  };
}

function pairsOf(forecasts: readonly Forecast[], truth: readonly TruthDay[], rule: ScoreRule): Pair[] {
  const byKey = new Map(truth.map((day) => [`${day.vehicleId} ${day.date}`, day]));
  const counted = new Map<string, number>();
  const pairs: Pair[] = [];
  for (const said of forecasts) {
    if (said.when !== rule.when) continue;
    const was = byKey.get(`${said.vehicleId} ${said.date}`);
    if (!was) continue;
    const nth = counted.get(said.vehicleId) ?? 0;
    counted.set(said.vehicleId, nth + 1);
    const outcome = rule.when === "morning" ? was : was.ifNothingMore;
    if (outcome && nth >= rule.fromDay) pairs.push({ said, was, lowest: outcome.lowestShare, home: outcome.homeShare });
  }
  return pairs;
}
