import type { Vehicle, Yard } from "../../../records/index.js";
import type { Book, Change } from "../../fleet.js";

/** A value as it stands on a key and in a pad: money in whole currency, choices and days as text. */
export type Value = number | string;
export type Values = Readonly<Record<string, Value>>;

interface Numeric {
  readonly kind: "number" | "money";
  readonly least: number;
  readonly most: number;
  readonly decimals: number;
}
interface Chosen {
  readonly kind: "choice";
  readonly of: readonly string[];
}
export type FieldForm = Numeric | Chosen | { readonly kind: "date" };

export type FieldName =
  | "fuel"
  | "perHundredKm"
  | "howKnown"
  | "upkeepThen"
  | "fuelPriceNow"
  | "upkeepNow"
  | "setPrice"
  | "setScrap"
  | "setKm"
  | "setYears"
  | "kitPrice"
  | "kitYears"
  | "kitDate"
  | "loanAmount"
  | "loanRate"
  | "loanMonths"
  | "loanFirst"
  | "loanFlat"
  | "rentMonth"
  | "insuranceYear"
  | "workDaysYear";

const number = (least: number, most: number, decimals = 0): Numeric => ({ kind: "number", least, most, decimals });
const money = (least = 0): Numeric => ({ kind: "money", least, most: 99_999_999, decimals: 2 });

export const FIELDS: Readonly<Record<FieldName, FieldForm>> = {
  fuel: { kind: "choice", of: ["diesel", "petrol", "cng", "lpg"] },
  perHundredKm: number(0.1, 60, 1),
  howKnown: { kind: "choice", of: ["receipts", "memory", "guess"] },
  upkeepThen: money(),
  fuelPriceNow: money(0.001),
  upkeepNow: money(),
  setPrice: money(),
  setScrap: money(),
  setKm: number(100, 500_000),
  setYears: number(0.1, 30, 1),
  kitPrice: money(),
  kitYears: number(0.5, 30, 1),
  kitDate: { kind: "date" },
  loanAmount: money(1),
  loanRate: number(0, 300, 1),
  loanMonths: number(1, 600),
  loanFirst: { kind: "date" },
  loanFlat: { kind: "choice", of: ["reducing", "flat"] },
  rentMonth: money(),
  insuranceYear: money(),
  workDaysYear: number(1, 366),
};

/** What writing needs to know beside the values. */
export interface At {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly currency: string;
  /** Day from which the new figure holds. */
  readonly from: string;
  readonly nowUtcMs: number;
  readonly newId: () => string;
}

/** Fields that make one record: `needs` must all be known before it can be written, in the order they are asked. */
export interface Group {
  readonly name: string;
  readonly fields: readonly FieldName[];
  readonly needs: readonly FieldName[];
  readonly read: (book: Book, at: Pick<At, "vehicle" | "yard" | "currency">) => Values;
  /** The changes that keep the values; what `held` knows and no field asks for stays as it is. */
  readonly write: (values: Values, at: At, held: Book) => readonly Change[];
}
