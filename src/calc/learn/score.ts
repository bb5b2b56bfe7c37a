/** How good the quantiles of many forecasts were, once the outcomes are known. Units are those of the forecast quantity. */
export interface QuantileScore {
  readonly pinballByLevel: readonly number[];
  /** Mean over the levels. */
  readonly pinball: number;
  /** Share of outcomes at or below each quantile: near the level when the band is honest. */
  readonly coverageByLevel: readonly number[];
  /** Share of outcomes from the lowest to the highest quantile, ends included. */
  readonly insideShare: number;
  readonly meanWidth: number;
}

/** Loss of one quantile forecast. Source: Koenker and Bassett (1978), Econometrica 46, 33-50. */
export const pinballLoss = (level: number, forecast: number, outcome: number): number =>
  Math.max(level * (outcome - forecast), (level - 1) * (outcome - forecast));

/** `forecasts` holds one list of quantiles (by `levels`) for each of `outcomes`; null when there is nothing to score. */
export function scoreQuantiles(
  levels: readonly number[],
  forecasts: readonly (readonly number[])[],
  outcomes: readonly number[],
): QuantileScore | null {
  const days = outcomes.length;
  if (days === 0 || levels.length === 0) return null;
  const meanOver = (value: (forecast: readonly number[], outcome: number) => number) =>
    outcomes.reduce((total, outcome, i) => total + value(forecasts[i] as readonly number[], outcome), 0) / days;
  const quantile = (forecast: readonly number[], l: number) => forecast[l] as number;
  const last = levels.length - 1;
  const pinballByLevel = levels.map((level, l) => meanOver((f, y) => pinballLoss(level, quantile(f, l), y)));
  return {
    pinballByLevel,
    pinball: pinballByLevel.reduce((total, loss) => total + loss, 0) / levels.length,
    coverageByLevel: levels.map((_, l) => meanOver((f, y) => (y <= quantile(f, l) ? 1 : 0))),
    insideShare: meanOver((f, y) => (y >= quantile(f, 0) && y <= quantile(f, last) ? 1 : 0)),
    meanWidth: meanOver((f) => quantile(f, last) - quantile(f, 0)),
  };
}
