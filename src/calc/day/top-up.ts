import { HOUR_MS, quantileOfSorted } from "../../units/numbers.js";
import { refill } from "../battery/index.js";
import type { TopUp } from "./answer.js";
import type { DayInput } from "./input.js";
import { type DayWalks, lowestWith } from "./walks.js";

/** The low guess: one day in ten is worse. */
export const LOW_GUESS = 0.1;
const CLOSE_WH = 1;

const lowGuess = (values: Float64Array): number => quantileOfSorted(values.slice().sort(), LOW_GUESS);

/**
 * The least grid energy before leaving that makes the shift enough, the last moment to plug in for it, and whether the sun does it instead.
 * The least is found by halving: more charge at leaving never lowers the lowest point.
 */
export function topUpFor(walks: DayWalks, input: DayInput, spilledWh: number): TopUp {
  const reserveWh = input.reserveShare * walks.store.usableWh;
  const asItStands = lowGuess(walks.lowestWh);
  const lowestWithoutSunWh = input.roof ? lowGuess(lowestWith(walks, 0, 0)) : asItStands;
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
  const enough = (extraWh: number) => lowGuess(lowestWith(walks, extraWh, 1)) >= reserveWh;
  const possible = enough(mostWh);
  const extraWh = possible ? leastExtra(enough, reserveWh - asItStands, mostWh) : mostWh - likelyLeaveWh;
  const toShare = Math.min(1, (likelyLeaveWh + extraWh) / mostWh);
  const charger = { ratedW: input.chargerW, efficiency: input.chargerEfficiency };
  const charge = refill(input.nightStore, charger, { from: likelyLeaveWh / mostWh, to: toShare });
  const leaveUtcMs = walks.steps.columns.fromUtcMs[walks.steps.columns.lowestFrom] as number;
  const latest = leaveUtcMs - charge.hours * HOUR_MS;
  const code = !Number.isFinite(latest)
    ? "cannotCharge"
    : !possible
      ? "fullNotEnough"
      : latest < input.nowUtcMs
        ? "noTime"
        : "needed";
  return {
    ...settled,
    code,
    gridKwh: charge.gridWh / 1000,
    toShare,
    chargeMinutes: Number.isFinite(latest) ? charge.hours * 60 : 0,
    latestPlugInUtcMs: Number.isFinite(latest) ? Math.round(latest) : null,
    roomForSunShare: 0,
  };
}

function leastExtra(enough: (extraWh: number) => boolean, guessWh: number, mostWh: number): number {
  let low = 0;
  let high = Math.min(mostWh, guessWh * 1.02 + CLOSE_WH);
  while (high < mostWh && !enough(high)) {
    low = high;
    high = Math.min(mostWh, high * 1.3);
  }
  while (high - low > CLOSE_WH) {
    const middle = (low + high) / 2;
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
