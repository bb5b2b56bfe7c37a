import type { CivilDate } from "../../units/zone.js";
import {
  dateOfDay,
  dayNumber,
  earlierOf,
  type Month,
  monthEnds,
  monthOf,
  monthsBetween,
  monthsLater,
} from "./calendar.js";
import { allocate, evenShare, type Minor } from "./minor.js";

export type FixedKind = "instalment" | "rent" | "insurance" | "otherFixed";

/** A cost of a stretch of days, `from` and `to` included, that runs whether the vehicle does or not. */
export interface FixedCost {
  readonly kind: FixedKind;
  readonly amountMinor: Minor;
  readonly currency: string;
  readonly from: CivilDate;
  readonly to: CivilDate;
}

/** Part of a cost that falls on a day: even over its days, adding up to the amount exactly; 0 outside them. */
export function costOnDay(cost: FixedCost, day: number): Minor {
  const first = dayNumber(cost.from);
  const parts = dayNumber(cost.to) - first + 1;
  return day < first || day >= first + parts ? 0 : evenShare(cost.amountMinor, parts, day - first);
}

/** Costs that touch a month. */
export function costsOfMonth(costs: readonly FixedCost[], month: Month): readonly FixedCost[] {
  const { from, to } = monthEnds(month);
  return costs.filter((cost) => cost.from <= to && cost.to >= from);
}

/** A cost that comes again every month from a day on, up to and with the one running at `until`. */
export function monthlyCosts(
  cost: Omit<FixedCost, "to">,
  until: CivilDate,
  endsOn: CivilDate | null = null,
): readonly FixedCost[] {
  const last = earlierOf(endsOn ?? until, until);
  if (last < cost.from) return [];
  const count = monthsBetween(monthOf(cost.from), monthOf(last)) + 1;
  return Array.from({ length: count }, (_, i) => {
    const from = monthsLater(cost.from, i);
    return { ...cost, from, to: dateOfDay(dayNumber(monthsLater(cost.from, i + 1)) - 1) };
  }).filter((each) => each.from <= last);
}

/** A cost of the yard shared among its vehicles by weight, adding up to the bill exactly. */
export const shareAmong = (cost: FixedCost, weights: readonly number[]): readonly FixedCost[] =>
  allocate(cost.amountMinor, weights).map((amountMinor) => ({ ...cost, amountMinor }));
