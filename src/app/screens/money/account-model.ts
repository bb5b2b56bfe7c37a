import { minorPerMajor } from "../../../calc/money/currency.js";
import type { AccountKind, AccountRow } from "../../../calc/money/index.js";
import type { AccountLineRecord } from "../../../records/index.js";

/** An amount that is being asked for: a new line, or one that puts another right. */
export interface AskedAmount {
  readonly driver: string;
  readonly about: AccountKind;
  readonly corrects: AccountRow | null;
}

/** A line is put right in its own currency, whatever the yard's is by now. */
export const currencyOf = ({ corrects }: AskedAmount, currency: string): string => corrects?.line.currency ?? currency;

/** The line that an amount in whole currency makes. */
export function lineOf(
  asked: AskedAmount,
  amount: number,
  at: Pick<AccountLineRecord, "id" | "vehicleId" | "date" | "currency" | "writtenUtcMs">,
): AccountLineRecord {
  const currency = currencyOf(asked, at.currency);
  return {
    ...at,
    v: 1,
    driver: asked.driver,
    about: asked.about,
    amountMinor: Math.round(amount * (minorPerMajor(currency) ?? 1)),
    currency,
    corrects: asked.corrects?.line.id ?? null,
    note: "",
  };
}
