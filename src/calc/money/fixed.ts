import type { CivilDate } from "../../units/zone.js";
import { dateOfDay, dayNumber, earlierOf, monthOf, monthsBetween, monthsLater } from "./calendar.js";
import { allocate, evenShare, type Minor } from "./minor.js";

export type FixedKind = "instalment" | "rent" | "insurance" | "otherFixed";

/** A cost of a stretch of days, `from` and `to` included, that runs whether the vehicle does or not. */
export interface FixedCost {
  readonly kind: FixedKind;
  readonly amountMinor: Minor;
  readonly currency: string;
  readonly from: CivilDate;
  readonly to: CivilDate;
  /** Last day that bears its part where the cost was ended midway; its parts before stay as they were. */
  readonly endsOn?: CivilDate;
}

/** A cost with its days as numbers, so that a day line need not count them again. */
export interface DayCost {
  readonly kind: FixedKind;
  readonly amountMinor: Minor;
  readonly currency: string;
  readonly firstDay: number;
  readonly parts: number;
  /** Day after the last one that bears a part. */
  readonly endDay: number;
}

/** Part of a cost that falls on a day: even over its days, adding up to the amount exactly; 0 outside them. */
export const costOnDay = (cost: DayCost, day: number): Minor =>
  day < cost.firstDay || day >= cost.endDay ? 0 : evenShare(cost.amountMinor, cost.parts, day - cost.firstDay);

/** The costs that touch the days from `from` to `to`. */
export const dayCosts = (costs: readonly FixedCost[], from: CivilDate, to: CivilDate): readonly DayCost[] =>
  costs
    .filter((cost) => cost.from <= to && cost.to >= from)
    .map(({ kind, amountMinor, currency, ...span }) => {
      const firstDay = dayNumber(span.from);
      const parts = dayNumber(span.to) - firstDay + 1;
      const endDay = span.endsOn === undefined ? firstDay + parts : dayNumber(span.endsOn) + 1;
      return { kind, amountMinor, currency, firstDay, parts, endDay };
    });

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

/** The share of one of `among` vehicles that bear a cost alike, as `shareAmong` gives it; the others need not be worked out. */
export const equalShareOf = (cost: FixedCost, among: number, place: number): FixedCost => {
  const whole = Math.floor(Math.abs(cost.amountMinor) / among);
  const share = whole + (place < Math.abs(cost.amountMinor) - whole * among ? 1 : 0);
  return { ...cost, amountMinor: cost.amountMinor < 0 && share > 0 ? -share : share };
};

/** A cost of the yard shared among its vehicles by weight, adding up to the bill exactly. */
export const shareAmong = (cost: FixedCost, weights: readonly number[]): readonly FixedCost[] =>
  allocate(cost.amountMinor, weights).map((amountMinor) => ({ ...cost, amountMinor }));
