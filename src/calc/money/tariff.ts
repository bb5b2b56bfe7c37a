import { allocate, type Minor, toMinor } from "./minor.js";

/** What units cost at a meter. Minutes are of the local clock; a band may cross midnight (`fromMinute` after `toMinute`). */
export interface Tariff {
  /** `none`: no price is known here. */
  readonly kind: "bands" | "flatFee" | "none";
  readonly bands: readonly {
    readonly fromMinute: number;
    readonly toMinute: number;
    readonly perKwhMinor: number;
  }[];
  /** Price outside the bands, and the only one when there are none. */
  readonly otherwisePerKwhMinor: number;
  /** Fee of one plug-in under a flat fee. */
  readonly feeMinor: Minor;
  readonly currency: string;
}

/** One plug-in, as written in the log. */
export interface Charge {
  /** Units at the meter, null when nobody read or estimated them. */
  readonly kwh: number | null;
  readonly kwhHow: "meter" | "estimated";
  /** Minutes of the local clock, null when not known; the end may be before the start, over midnight. */
  readonly fromMinute: number | null;
  readonly toMinute: number | null;
  /** What was paid on the spot, here or elsewhere; null when the meter's tariff applies. */
  readonly paidMinor: Minor | null;
}

/** Units of one price. */
export interface BandUnits {
  readonly perKwhMinor: number;
  readonly wh: number;
}
export interface ChargeCost {
  readonly lowMinor: Minor;
  readonly likelyMinor: Minor;
  readonly highMinor: Minor;
  /** What the cost rests on: money paid, a flat fee, units in known bands, or units at an unknown hour. */
  readonly from: "paid" | "fee" | "bands" | "hourUnknown";
  readonly units: readonly BandUnits[];
}

const DAY_MINUTES = 1440;
/** Doubt of units that were worked out and not read, as a share: common practice, no source. */
export const ESTIMATED_UNITS_DOUBT = 0.15;

const wrap = (minute: number): number => ((minute % DAY_MINUTES) + DAY_MINUTES) % DAY_MINUTES;
const within = (minute: number, from: number, to: number): boolean =>
  from <= to ? minute >= from && minute < to : minute >= from || minute < to;

/** Price of a unit at a minute of the day. [smallest coin per kWh] The first band that holds counts. */
export function unitPriceAt(tariff: Tariff, minute: number): number {
  const at = wrap(minute);
  return (
    tariff.bands.find((band) => within(at, wrap(band.fromMinute), endOf(band)))?.perKwhMinor ??
    tariff.otherwisePerKwhMinor
  );
}
// A band to 24:00 ends at 1440, not at 0; one from 0 to 1440 holds all day.
const endOf = (band: { readonly toMinute: number }): number =>
  band.toMinute === DAY_MINUTES ? DAY_MINUTES : wrap(band.toMinute);

/** Minutes of each price between two times, the end after midnight when it is not after the start. Kept by tariff: a yard's nights are alike. */
function minutesByPrice(tariff: Tariff, fromMinute: number, toMinute: number): ReadonlyMap<number, number> {
  const kept = keptMinutes.get(tariff) ?? new Map<number, ReadonlyMap<number, number>>();
  keptMinutes.set(tariff, kept);
  const key = wrap(fromMinute) * DAY_MINUTES + wrap(toMinute);
  const found = kept.get(key) ?? countMinutes(tariff, fromMinute, toMinute);
  if (kept.size > 5000) kept.clear();
  kept.set(key, found);
  return found;
}
const keptMinutes = new WeakMap<Tariff, Map<number, ReadonlyMap<number, number>>>();

function countMinutes(tariff: Tariff, fromMinute: number, toMinute: number): ReadonlyMap<number, number> {
  const from = wrap(fromMinute);
  const length = wrap(toMinute - fromMinute) || DAY_MINUTES;
  const edges = [
    0,
    length,
    ...tariff.bands.flatMap((band) => [band.fromMinute, band.toMinute].map((m) => wrap(m - from))),
  ]
    .filter((edge) => edge >= 0 && edge <= length)
    .sort((a, b) => a - b);
  const found = new Map<number, number>();
  for (let i = 1; i < edges.length; i++) {
    const minutes = (edges[i] as number) - (edges[i - 1] as number);
    const price = unitPriceAt(tariff, from + (edges[i - 1] as number));
    if (minutes > 0) found.set(price, (found.get(price) ?? 0) + minutes);
  }
  return found;
}

/** Units of a charge by price, spread evenly over its time; in whole Wh that add up to the charge. */
export function unitsByBand(tariff: Tariff, kwh: number, fromMinute: number, toMinute: number): readonly BandUnits[] {
  const minutes = minutesByPrice(tariff, fromMinute, toMinute);
  const shares = allocate(Math.round(kwh * 1000), [...minutes.values()]);
  return [...minutes.keys()].map((perKwhMinor, i) => ({ perKwhMinor, wh: shares[i] ?? 0 }));
}

const costOf = (units: readonly BandUnits[]): number =>
  units.reduce((total, unit) => total + (unit.wh * unit.perKwhMinor) / 1000, 0);

/**
 * What a charge cost in the tariff's currency, null when nothing tells it: no units, no fee and nothing paid.
 * At an unknown hour the low guess is the cheapest price, the high guess the dearest, the likely one the mean over the day's minutes.
 */
export function chargeCost(charge: Charge, tariff: Tariff | null): ChargeCost | null {
  if (charge.paidMinor !== null) return { ...exactly(charge.paidMinor), from: "paid", units: [] };
  if (!tariff || tariff.kind === "none") return null;
  if (tariff.kind === "flatFee") return { ...exactly(tariff.feeMinor), from: "fee", units: [] };
  if (charge.kwh === null) return null;
  const known = charge.fromMinute !== null && charge.toMinute !== null;
  const units = unitsByBand(tariff, charge.kwh, charge.fromMinute ?? 0, charge.toMinute ?? 0);
  const doubt = charge.kwhHow === "meter" ? 0 : ESTIMATED_UNITS_DOUBT;
  const prices = units.map((unit) => unit.perKwhMinor);
  const likely = costOf(units);
  const low = known ? likely : charge.kwh * Math.min(...prices);
  const high = known ? likely : charge.kwh * Math.max(...prices);
  return {
    lowMinor: toMinor(low * (1 - doubt)),
    likelyMinor: toMinor(likely),
    highMinor: toMinor(high * (1 + doubt)),
    from: known || prices.length === 1 ? "bands" : "hourUnknown",
    units,
  };
}
const exactly = (minor: Minor) => ({ lowMinor: minor, likelyMinor: minor, highMinor: minor });

/** Mean price of a unit over the day. [smallest coin per kWh] Null without a price per unit. */
export function meanUnitPrice(tariff: Tariff): number | null {
  if (tariff.kind !== "bands") return null;
  let total = 0;
  for (const [price, minutes] of minutesByPrice(tariff, 0, 0)) total += price * minutes;
  return total / DAY_MINUTES;
}
