import type { CivilDate } from "../../units/zone.js";
import { daysFrom, daysLater, earlierOf } from "./calendar.js";
import { type Minor, toMinor } from "./minor.js";

/** A lease with a ceiling of km per period of the contract. */
export interface LeaseTerms {
  readonly ceilingKm: number;
  /** Price of each km over the ceiling, in smallest coins, maybe with a fraction; null when the contract's price is not known. */
  readonly excessPerKmMinor: number | null;
}
export interface LeaseState {
  readonly code: "fine" | "warn" | "over";
  readonly kmSoFar: number;
  readonly kmLeft: number;
  /** Km at the period's end if the days go on like the known ones. */
  readonly kmAtEnd: number;
  /** Day on which the ceiling is reached at that pace, null when it is not. */
  readonly reachedOn: CivilDate | null;
  /** Km a day that would just keep within it. */
  readonly kmPerDayLeft: number;
  readonly excessMinor: Minor | null;
  readonly missingDays: number;
}

/**
 * How a lease stands on a day. It warns as soon as the pace leads over the ceiling, not when it is passed.
 * Days without an entry are taken at the pace of the known ones, and counted. `kmByDay` holds known days of the period up to `today`.
 */
export function leaseState(
  terms: LeaseTerms,
  period: { readonly from: CivilDate; readonly to: CivilDate; readonly today: CivilDate },
  kmByDay: ReadonlyMap<CivilDate, number>,
): LeaseState {
  const last = earlierOf(period.today, period.to);
  const known = [...kmByDay].filter(([date]) => date >= period.from && date <= last);
  const elapsed = Math.max(0, daysFrom(period.from, last) + 1);
  const pace = known.length > 0 ? known.reduce((sum, [, km]) => sum + km, 0) / known.length : 0;
  const missingDays = elapsed - known.length;
  const kmSoFar = known.reduce((sum, [, km]) => sum + km, 0) + missingDays * pace;
  const daysLeft = Math.max(0, daysFrom(last, period.to));
  const kmAtEnd = kmSoFar + daysLeft * pace;
  const kmLeft = terms.ceilingKm - kmSoFar;
  const excess = Math.max(0, kmAtEnd - terms.ceilingKm);
  return {
    code: kmLeft < 0 ? "over" : excess > 0 ? "warn" : "fine",
    kmSoFar,
    kmLeft,
    kmAtEnd,
    reachedOn: excess === 0 ? null : kmLeft < 0 ? last : daysLater(last, Math.ceil(kmLeft / pace)),
    kmPerDayLeft: daysLeft > 0 ? Math.max(0, kmLeft) / daysLeft : 0,
    excessMinor: terms.excessPerKmMinor === null ? null : toMinor(excess * terms.excessPerKmMinor),
    missingDays,
  };
}
