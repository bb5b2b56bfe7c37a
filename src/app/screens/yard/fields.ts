import { minorPerMajor } from "../../../calc/money/currency.js";
import type { Yard } from "../../../records/index.js";
import type { YardWords } from "../../words/yard/en.js";
import type { NumberSpec, Spec, UnitName } from "../edit/spec.js";

export type FieldName = keyof YardWords["fields"];
export type GroupName = keyof YardWords["groups"];
type Of = Spec<FieldName>;
type More = Partial<Pick<NumberSpec, "decimals" | "times" | "unset" | "signed" | "unitText">>;

const number = (name: FieldName, unit: UnitName, usual: readonly number[], more: More = {}): Of => ({
  kind: "number",
  path: name,
  name,
  unit,
  usual,
  ...more,
});
const choice = (name: FieldName, ...options: string[]): Of => ({ kind: "choice", path: name, name, options });

export const GROUP_NAMES: readonly GroupName[] = ["place", "sockets", "supply", "prices", "people", "cuts", "weather"];
export const isGroup = (name: string): name is GroupName => GROUP_NAMES.some((group) => group === name);

/** How many of the smallest coin make one: prices are kept in it and shown in the whole. */
const coinsIn = (yard: Yard): number => minorPerMajor(yard.currency) ?? 100;
export const placesOf = (yard: Yard): number => Math.round(Math.log10(coinsIn(yard)));

/** A sum of money of the yard's currency. */
export const money = (yard: Yard, name: FieldName, usual: readonly number[] = []): Of =>
  number(name, "none", usual, { times: 1 / coinsIn(yard), decimals: placesOf(yard), unitText: yard.currency });

export function placeFields(zones: readonly string[], currencies: readonly string[]): readonly Of[] {
  return [
    { kind: "text", path: "name", name: "name", longest: 80 },
    number("latDeg", "degree", [], { decimals: 3, signed: true }),
    number("lonDeg", "degree", [], { decimals: 3, signed: true }),
    number("altitudeM", "metre", [0, 10, 100, 500, 1500], { signed: true }),
    { kind: "text", path: "zone", name: "zone", longest: 60, offers: zones },
    choice("parkShade", "open", "part", "deep", "roofed"),
    choice("groundClass", "asphalt", "concrete", "earth", "grass", "drySand", "snow"),
    { kind: "text", path: "currency", name: "currency", longest: 3, capitals: true, offers: currencies },
  ];
}

export const supplyFields: readonly Of[] = [
  number("siteLimitKw", "kw", [5, 10, 18, 25, 50], { decimals: 1, unset: "null" }),
  number("marginKw", "kw", [0, 0.5, 1, 2, 3], { decimals: 1 }),
];

export const tariffKind: Of = choice("tariff.kind", "bands", "flatFee", "none");
export function priceFields(yard: Yard): readonly Of[] {
  if (yard.tariff.kind === "none") return [];
  if (yard.tariff.kind === "flatFee") return [money(yard, "tariff.feeMinor")];
  return [money(yard, "tariff.otherwisePerKwhMinor")];
}
export const demandFields = (yard: Yard): readonly Of[] => [
  money(yard, "tariff.demandPerKwMinor"),
  number("tariff.billedPeakKw", "kw", [0, 5, 10, 15, 20], { decimals: 1 }),
];
export const worthFields = (yard: Yard): readonly Of[] => [
  money(yard, "staff.swapWorthMinor"),
  money(yard, "staff.wakeWorthMinor"),
];
