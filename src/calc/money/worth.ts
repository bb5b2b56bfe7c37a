import type { Flow } from "./rate.js";

/** What one unit a period, at each period's end, is worth today. [1] Rate per period above -1. Source: Brealey, Myers and Allen, Principles of Corporate Finance. */
export const annuityFactor = (ratePerPeriod: number, periods: number): number =>
  ratePerPeriod === 0 ? periods : -Math.expm1(-periods * Math.log1p(ratePerPeriod)) / ratePerPeriod;

/** Value today of flows in time: sum of flow / (1 + r)^years. Source: the same. */
export const presentValue = (ratePerYear: number, flows: readonly Flow[]): number =>
  flows.reduce((sum, { atYears, amount }) => sum + amount / (1 + ratePerYear) ** atYears, 0);

/** The same for flows at the end of year 0, 1, 2 and so on. */
export const netPresentValue = (ratePerYear: number, flowsFromYear0: readonly number[]): number =>
  presentValue(
    ratePerYear,
    flowsFromYear0.map((amount, atYears) => ({ atYears, amount })),
  );

/** Years until the flows have brought back what they cost, straight inside the year; null when they never do. */
export function paybackYears(flowsFromYear0: readonly number[]): number | null {
  let held = 0;
  for (const [year, flow] of flowsFromYear0.entries()) {
    const before = held;
    held += flow;
    if (held >= 0) return year === 0 ? 0 : year - 1 + (flow > 0 ? -before / flow : 0);
  }
  return null;
}

/** The same with each flow discounted to today. */
export const discountedPaybackYears = (ratePerYear: number, flowsFromYear0: readonly number[]): number | null =>
  paybackYears(flowsFromYear0.map((flow, year) => flow / (1 + ratePerYear) ** year));
