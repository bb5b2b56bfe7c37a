import { type Minor, toMinor } from "./minor.js";
import { type Charge, ESTIMATED_UNITS_DOUBT, type Tariff, unitsByBand } from "./tariff.js";

/** What a charge should have cost by the lawful tariff, beside what was paid. */
export interface FairCharge {
  readonly fairLowMinor: Minor;
  readonly fairMinor: Minor;
  readonly fairHighMinor: Minor;
  readonly paidMinor: Minor;
  /** Paid over fair; null when fair is nothing. */
  readonly times: number | null;
  /** Paid more than even the high guess of fair. */
  readonly over: boolean;
  readonly kwhHow: "meter" | "estimated";
}

/**
 * Fair price of a paid charge: units times the lawful tariff; null without units, without a payment or without a price per unit.
 * `kwhLow` and `kwhHigh` come from whoever estimated the units (km and volts); else an estimate is taken within 15 %.
 */
export function fairCharge(
  charge: Charge & { readonly kwhLow?: number; readonly kwhHigh?: number },
  lawful: Tariff,
): FairCharge | null {
  if (charge.kwh === null || charge.paidMinor === null || lawful.kind !== "bands") return null;
  const known = charge.fromMinute !== null && charge.toMinute !== null;
  const units = unitsByBand(lawful, charge.kwh, charge.fromMinute ?? 0, charge.toMinute ?? 0);
  const prices = units.map((unit) => unit.perKwhMinor);
  const mean = units.reduce((total, unit) => total + unit.wh * unit.perKwhMinor, 0) / Math.max(1, sumWh(units));
  const doubt = charge.kwhHow === "meter" ? 0 : ESTIMATED_UNITS_DOUBT;
  const fairMinor = toMinor(charge.kwh * mean);
  const fairHighMinor = toMinor((charge.kwhHigh ?? charge.kwh * (1 + doubt)) * (known ? mean : Math.max(...prices)));
  return {
    fairLowMinor: toMinor((charge.kwhLow ?? charge.kwh * (1 - doubt)) * (known ? mean : Math.min(...prices))),
    fairMinor,
    fairHighMinor,
    paidMinor: charge.paidMinor,
    times: fairMinor > 0 ? charge.paidMinor / fairMinor : null,
    over: charge.paidMinor > fairHighMinor,
    kwhHow: charge.kwhHow,
  };
}
const sumWh = (units: readonly { readonly wh: number }[]): number => units.reduce((sum, unit) => sum + unit.wh, 0);

/** A month of paid charges: the sums, and how many could not be judged. */
export function fairMonth(charges: readonly (FairCharge | null)[]) {
  const judged = charges.filter((charge) => charge !== null);
  const add = (pick: (charge: FairCharge) => number): Minor => judged.reduce((sum, charge) => sum + pick(charge), 0);
  return {
    judged: judged.length,
    notJudged: charges.length - judged.length,
    fairLowMinor: add((charge) => charge.fairLowMinor),
    fairMinor: add((charge) => charge.fairMinor),
    fairHighMinor: add((charge) => charge.fairHighMinor),
    paidMinor: add((charge) => charge.paidMinor),
  };
}
