import { entryKind, readingKind, shiftKind, skyKind } from "./day.js";
import type { AnyKind, RecordOf } from "./kind.js";
import { careKind, forecastKind, learnedKind, placeLearnedKind } from "./learned.js";
import {
  accountLineKind,
  baselineKind,
  chainLinkKind,
  fixedCostKind,
  kitCostKind,
  leaseKind,
  loanKind,
  moneyPlanKind,
  priceKind,
  setCostKind,
  standstillKind,
} from "./money.js";
import { nightKind } from "./night.js";
import { roundKind } from "./round.js";
import { vehicleKind } from "./vehicle.js";
import { socketKind, yardKind } from "./yard.js";

/** Every kind of record, in the order a fleet file lists them. A new kind is one line here. */
export const kinds = {
  yard: yardKind,
  socket: socketKind,
  vehicle: vehicleKind,
  round: roundKind,
  shift: shiftKind,
  sky: skyKind,
  reading: readingKind,
  entry: entryKind,
  baseline: baselineKind,
  price: priceKind,
  setCost: setCostKind,
  kitCost: kitCostKind,
  fixedCost: fixedCostKind,
  loan: loanKind,
  lease: leaseKind,
  standstill: standstillKind,
  moneyPlan: moneyPlanKind,
  accountLine: accountLineKind,
  chainLink: chainLinkKind,
  night: nightKind,
  learned: learnedKind,
  placeLearned: placeLearnedKind,
  forecast: forecastKind,
  care: careKind,
} as const;

export type Kinds = typeof kinds;
export type KindName = keyof Kinds;
/** Kinds that belong to a vehicle's or a yard's days. */
export type HistoryKind = { [K in KindName]: Kinds[K] extends { readonly history: object } ? K : never }[KindName];
export type AnyRecord<K extends KindName = KindName> = { readonly [N in KindName]: RecordOf<Kinds[N]> }[K];
/** What the table says of a kind, when its fields do not matter. */
export const kindOf = (name: KindName): AnyKind => kinds[name];
export const kindNames = Object.keys(kinds) as readonly KindName[];
