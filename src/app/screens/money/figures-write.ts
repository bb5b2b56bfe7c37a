import { minorPerMajor } from "../../../calc/money/currency.js";
import type { At, Value } from "./figures-fields.js";

/** Of records that hold from a day on, the one that holds last. */
export const newest = <R extends { readonly from: string; readonly writtenUtcMs: number }>(
  records: readonly R[],
): R | undefined =>
  [...records].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.writtenUtcMs - b.writtenUtcMs)).at(-1);
const per = (currency: string): number => minorPerMajor(currency) ?? 1;
export const major = (minor: number, currency: string): number => minor / per(currency);
export const coins = (value: Value | undefined, currency: string): number =>
  Math.round(Number(value ?? 0) * per(currency));
/** A price may hold parts of a coin. */
export const price = (value: Value | undefined, currency: string): number =>
  Number((Number(value ?? 0) * per(currency)).toFixed(4));
/** The record of a vehicle that holds last. */
export const newestOf = <
  R extends { readonly vehicleId: string; readonly from: string; readonly writtenUtcMs: number },
>(
  records: readonly R[],
  vehicleId: string,
): R | undefined => newest(records.filter((record) => record.vehicleId === vehicleId));
export const dated = (at: At) => ({
  id: at.newId(),
  v: 1 as const,
  from: at.from,
  writtenUtcMs: at.nowUtcMs,
  currency: at.currency,
  note: "",
});
