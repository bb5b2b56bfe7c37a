import { HOUR_MS, quantileOfSorted } from "../../units/numbers.js";
import { sortSpread } from "../../units/sort.js";
import { refill } from "../battery/index.js";
import type { TopUp } from "./answer.js";
import type { DayInput } from "./input.js";
import { type DayWalks, lowestWith } from "./walks.js";

/** The low guess: one day in ten is worse. */
export const LOW_GUESS = 0.1;
const CLOSE_WH = 0.5;

const lowGuess = (values: Float64Array): number =>
  quantileOfSorted(sortSpread(values, new Float64Array(values.length)), LOW_GUESS);

/**
 * The least grid energy before leaving that makes the shift enough, the last moment to plug in for it, and whether the sun does it instead.
 * The least is found by false position: more charge at leaving never lowers the lowest point.
 */
export function topUpFor(walks: DayWalks, input: DayInput, spilledWh: number): TopUp {
  const reserveWh = input.reserveShare * walks.store.usableWh;
  const asItStands = lowGuess(walks.lowestWh);
  const lowestWithoutSunWh = input.roof ? lowGuess(lowestWith(walks, 0, "noSun")) : asItStands;
  const likelyLeaveWh = quantileOfSorted(walks.leaveWh.slice().sort(), 0.5);
  const settled = {
    sunDoesIt: asItStands >= reserveWh && lowestWithoutSunWh < reserveWh,
    lowestWithoutSun: lowestWithoutSunWh / walks.store.usableWh,
    fullDue: input.fullDue,
  };
  const still = {
    ...settled,
    gridKwh: 0,
    toShare: likelyLeaveWh / walks.store.usableWh,
    chargeMinutes: 0,
    latestPlugInUtcMs: null,
  };
  if (asItStands >= reserveWh) {
    // Only where the low guess stays above the line may the sun be left room.
    const spareWh = Math.min(spilledWh, asItStands - reserveWh);
    return { ...still, code: "none", roomForSunShare: Math.max(0, spareWh / walks.store.usableWh) };
  }
  const mostWh = walks.store.usableWh;
  const least = leastExtra((extraWh) => lowGuess(lowestWith(walks, extraWh, "asDrawn")) - reserveWh, {
    overAtNone: asItStands - reserveWh,
    mostWh,
  });
  const possible = least !== null;
  const extraWh = least ?? mostWh - likelyLeaveWh;
  const toShare = Math.min(1, (likelyLeaveWh + extraWh) / mostWh);
  const charger = { ratedW: input.chargerW, efficiency: input.chargerEfficiency };
  // as slow as the night makes it, but counted in the set that the levels are shares of
  const cold = { ...input.nightStore, usableWh: mostWh };
  const charge = refill(cold, charger, { from: likelyLeaveWh / mostWh, to: toShare });
  const leaveUtcMs = walks.steps.columns.fromUtcMs[walks.steps.columns.lowestFrom] as number;
  const latest = latestStart(charge.hours, input.plugSpans ?? [{ fromUtcMs: input.nowUtcMs, toUtcMs: leaveUtcMs }]);
  const code = !Number.isFinite(charge.hours)
    ? "cannotCharge"
    : !possible
      ? "fullNotEnough"
      : latest === null
        ? "noTime"
        : "needed";
  return {
    ...settled,
    code,
    gridKwh: code === "cannotCharge" ? 0 : charge.gridWh / 1000,
    toShare: code === "cannotCharge" ? still.toShare : toShare,
    chargeMinutes: code === "cannotCharge" ? 0 : charge.hours * 60,
    latestPlugInUtcMs: latest,
    roomForSunShare: 0,
  };
}

/** Last moment from which the hours still fit into the spans before leaving; null where they do not. */
function latestStart(hours: number, spans: NonNullable<DayInput["plugSpans"]>): number | null {
  let leftMs = hours * HOUR_MS;
  for (const { fromUtcMs, toUtcMs } of [...spans].reverse()) {
    if (toUtcMs - fromUtcMs >= leftMs) return Math.round(toUtcMs - leftMs);
    leftMs -= Math.max(0, toUtcMs - fromUtcMs);
  }
  return null;
}

/**
 * Least charge that lifts the low guess to the line (`overWh` 0), at most half a Wh above it; null when even `mostWh` does not.
 * False position with the Illinois halving (M. Dowell and P. Jarratt, BIT 11, 1971): three or four walks instead of a dozen.
 */
function leastExtra(
  overWh: (extraWh: number) => number,
  given: { readonly overAtNone: number; readonly mostWh: number },
): number | null {
  let low = 0;
  let overLow = given.overAtNone;
  let high = Math.min(given.mostWh, CLOSE_WH - 1.02 * overLow);
  let overHigh = overWh(high);
  while (overHigh < 0) {
    if (high >= given.mostWh) return null;
    low = high;
    overLow = overHigh;
    // an emptied set says little about what is missing: the step also grows with what was tried
    high = Math.min(given.mostWh, Math.max(1.5 * high, high + CLOSE_WH - 1.5 * overHigh));
    overHigh = overWh(high);
  }
  let kept = 0; // ends of the bracket that were kept twice weigh half
  while (high - low > CLOSE_WH && overHigh > CLOSE_WH) {
    const middle = high - (overHigh * (high - low)) / (overHigh - overLow);
    const over = overWh(middle);
    if (over >= 0) {
      high = middle;
      overHigh = over;
      if (kept > 0) overLow /= 2;
      kept = 1;
    } else {
      low = middle;
      overLow = over;
      if (kept < 0) overHigh /= 2;
      kept = -1;
    }
  }
  return high;
}
