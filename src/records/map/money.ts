import {
  always,
  BASELINE_DOUBT,
  currencyPlaces,
  type Dated,
  daysLater,
  equalShareOf,
  type FixedCost,
  inOrder,
  type LoanPlan,
  type LoanTerms,
  loanCosts,
  loanPlan,
  monthlyCosts,
  monthsLater,
  type Tariff,
  type Terms,
} from "../../calc/money/index.js";
import type { Problem } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import { minuteOfClock } from "../clock.js";
import type {
  BaselineRecord,
  FixedCostRecord,
  LeaseRecord,
  LoanRecord,
  PriceRecord,
  SetCostRecord,
  Vehicle,
  Yard,
} from "../index.js";

/** Everything on record that says what a vehicle's road and power cost. Records of other vehicles and yards may be among them. */
export interface MoneyCase {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  /** All vehicles of the yard: costs of the yard are shared among them. */
  readonly vehicleIds: readonly string[];
  readonly baselines: readonly BaselineRecord[];
  readonly prices: readonly PriceRecord[];
  readonly setCosts: readonly SetCostRecord[];
  readonly fixedCosts: readonly FixedCostRecord[];
  readonly loans: readonly LoanRecord[];
  readonly leases: readonly LeaseRecord[];
  /** Last day of interest: costs without an end are laid out up to it. */
  readonly until: CivilDate;
}

export interface MoneyTerms {
  readonly terms: Terms;
  readonly loans: readonly { readonly record: LoanRecord; readonly plan: LoanPlan }[];
  readonly problems: readonly Problem[];
}

type Stamped = { readonly from: CivilDate; readonly writtenUtcMs: number };
const datedOf = <R extends Stamped, T>(records: readonly R[], value: (record: R) => T): readonly Dated<T>[] =>
  inOrder(records.map((record) => ({ from: record.from, writtenUtcMs: record.writtenUtcMs, value: value(record) })));

/**
 * Terms of one vehicle. Prices are taken as written, each from its own day; a loan that cannot be worked out is left out and told.
 * Problems: `currencyUnknown`, `baselineMissing`, `priceZero`, and those of `loanPlan`, with the record's path.
 */
export function moneyTermsOf(given: MoneyCase): MoneyTerms {
  const { yard, vehicle } = given;
  const own = <R extends { readonly vehicleId: string | null }>(records: readonly R[]): readonly R[] =>
    records.filter((record) => record.vehicleId === vehicle.id || record.vehicleId === null);
  const prices = own(given.prices.filter((price) => price.yardId === yard.id));
  const loans = loansOf(own(given.loans));
  const baselines = own(given.baselines);
  return {
    loans: loans.plans,
    problems: [...problemsOf(yard, baselines, prices), ...loans.problems],
    terms: {
      currency: currencyOf(yard, prices),
      baseline: datedOf(baselines, ({ fuel, per100Km, how, upkeepPerKmMinor }) => ({
        fuel,
        per100Km,
        doubtShare: BASELINE_DOUBT[how],
        upkeepPerKmMinor,
      })),
      fuelPrice: fuelPricesOf(prices),
      tariff: tariffsOf(yard, prices),
      upkeepNow: datedOf(prices.filter(isUpkeep), ({ of, currency }) => ({ perUnitMinor: of.perKmMinor, currency })),
      set: datedOf(own(given.setCosts), ({ priceMinor, scrapMinor, lifeKmLow, lifeKm, lifeKmHigh, currency }) => ({
        priceMinor,
        scrapMinor,
        lifeKmLow,
        lifeKm,
        lifeKmHigh,
        currency,
      })),
      fixed: [
        ...given.fixedCosts.flatMap((record) => fixedOf(record, given)),
        ...loans.plans.flatMap(({ record, plan }) => loanCosts(plan, record.from, record.currency)),
        ...own(given.leases).flatMap((lease) => leaseCosts(lease, given.until)),
      ],
      grid: yard.grid ? always({ ...yard.grid, year: String(yard.grid.year) }) : [],
      gridToBatteryEfficiency: vehicle.charger.efficiency,
    },
  };
}

type PriceOf<K extends PriceRecord["of"]["kind"]> = PriceRecord & { readonly of: { readonly kind: K } };
const isFuel = (price: PriceRecord): price is PriceOf<"fuel"> => price.of.kind === "fuel";
const isPower = (price: PriceRecord): price is PriceOf<"power"> => price.of.kind === "power";
const isUpkeep = (price: PriceRecord): price is PriceOf<"upkeep"> => price.of.kind === "upkeep";

function fuelPricesOf(prices: readonly PriceRecord[]): Terms["fuelPrice"] {
  const priced = prices.filter(isFuel);
  return Object.fromEntries(
    [...new Set(priced.map(({ of }) => of.fuel))].map((fuel) => [
      fuel,
      datedOf(
        priced.filter(({ of }) => of.fuel === fuel),
        ({ of, currency }) => ({ perUnitMinor: of.perUnitMinor, currency }),
      ),
    ]),
  );
}

interface Bands {
  readonly bands: readonly { readonly from: string; readonly to: string; readonly perKwhMinor: number }[];
  readonly otherwisePerKwhMinor: number;
  readonly feeMinor: number;
}
const tariffOf = (kind: Tariff["kind"], of: Bands, currency: string): Tariff => ({
  kind,
  bands: of.bands.map(({ from, to, perKwhMinor }) => ({
    fromMinute: minuteOfClock(from),
    toMinute: minuteOfClock(to),
    perKwhMinor,
  })),
  otherwisePerKwhMinor: of.otherwisePerKwhMinor,
  feeMinor: of.feeMinor,
  currency,
});

/** Tariffs by date; a yard whose tariff was never changed has the one on its sheet. */
function tariffsOf(yard: Yard, prices: readonly PriceRecord[]): readonly Dated<Tariff>[] {
  const dated = datedOf(prices.filter(isPower), ({ of, currency }) => tariffOf(of.tariff, of, currency));
  return dated.length > 0 ? dated : always(tariffOf(yard.tariff.kind, yard.tariff, yard.currency));
}

/**
 * Price records to keep when a yard's tariff or currency is changed, so that the days before stay as they were: the old one from the
 * beginning (unless prices are already dated), the new one from `date`. Empty when nothing about prices changed.
 */
export function tariffChange(
  before: Yard,
  after: Yard,
  at: { readonly date: CivilDate; readonly nowUtcMs: number; readonly hasDated: boolean },
): readonly PriceRecord[] {
  const price = (yard: Yard, from: CivilDate): PriceRecord => ({
    id: `${yard.id}/power/${from}/${at.nowUtcMs}`,
    v: 1,
    from,
    writtenUtcMs: at.nowUtcMs,
    currency: yard.currency,
    note: "",
    yardId: yard.id,
    vehicleId: null,
    of: {
      kind: "power",
      tariff: yard.tariff.kind,
      bands: yard.tariff.bands,
      otherwisePerKwhMinor: yard.tariff.otherwisePerKwhMinor,
      feeMinor: Math.round(yard.tariff.feeMinor),
    },
  });
  const shown = (yard: Yard): string => JSON.stringify([price(yard, at.date).of, yard.currency]);
  if (shown(before) === shown(after)) return [];
  return [...(at.hasDated ? [] : [price(before, BEGINNING)]), price(after, at.date)];
}
const BEGINNING = "2000-01-01";

/** The currency by date: where a price is written in a new one, it changed. */
function currencyOf(yard: Yard, prices: readonly PriceRecord[]): Terms["currency"] {
  const [first, ...later] = datedOf(
    prices.filter((price) => !isUpkeep(price)),
    ({ currency }) => currency,
  );
  if (!first) return always(yard.currency);
  return [...always(first.value), ...later];
}

function problemsOf(yard: Yard, baselines: readonly BaselineRecord[], prices: readonly PriceRecord[]): Problem[] {
  const found: Problem[] = [];
  if (currencyPlaces(yard.currency) === null)
    found.push({ code: "currencyUnknown", where: "yard.currency", figures: { currency: yard.currency } });
  if (baselines.length === 0) found.push({ code: "baselineMissing", where: "baselines" });
  for (const price of prices.filter(isFuel))
    if (price.of.perUnitMinor === 0) found.push({ code: "priceZero", where: `prices.${price.id}` });
  return found;
}

function fixedOf(record: FixedCostRecord, given: MoneyCase): readonly FixedCost[] {
  const { yard, vehicle, until, vehicleIds } = given;
  if (record.vehicleId !== null ? record.vehicleId !== vehicle.id : record.yardId !== yard.id) return [];
  const cost = { kind: record.cost, amountMinor: record.amountMinor, currency: record.currency, from: record.from };
  const { to } = record;
  const whole = record.every === "month" ? monthlyCosts(cost, until, to) : yearlyCosts(cost, until, to);
  const spans = whole.map((span) => (to !== null && to < span.to ? { ...span, endsOn: to } : span));
  if (record.vehicleId !== null) return spans;
  const place = [...vehicleIds].sort().indexOf(vehicle.id);
  return place < 0 ? [] : spans.map((span) => equalShareOf(span, vehicleIds.length, place));
}

function yearlyCosts(cost: Omit<FixedCost, "to">, until: CivilDate, endsOn: CivilDate | null): readonly FixedCost[] {
  const out: FixedCost[] = [];
  for (let from = cost.from, n = 1; from <= until && (endsOn === null || from <= endsOn); n++) {
    const next = monthsLater(cost.from, 12 * n);
    out.push({ ...cost, from, to: daysLater(next, -1) });
    from = next;
  }
  return out;
}

const leaseCosts = (lease: LeaseRecord, until: CivilDate): readonly FixedCost[] =>
  monthlyCosts(
    { kind: "instalment", amountMinor: lease.perMonthMinor, currency: lease.currency, from: lease.from },
    until,
    lease.to,
  );

export const loanTermsOf = (record: LoanRecord): LoanTerms => ({
  principalMinor: record.principalMinor,
  ratePerYear: record.ratePerYear,
  payments: record.payments,
  every: record.every,
  startDate: record.from,
  firstDue: record.firstDue,
  method: record.method,
  feeMinor: record.feeMinor,
  instalmentMinor: record.instalmentMinor,
});

function loansOf(
  records: readonly LoanRecord[],
): Pick<MoneyTerms, "loans" | "problems"> & { plans: MoneyTerms["loans"] } {
  const plans: { record: LoanRecord; plan: LoanPlan }[] = [];
  const problems: Problem[] = [];
  for (const record of records) {
    const plan = loanPlan(loanTermsOf(record));
    if (plan.ok) plans.push({ record, plan: plan.value });
    else problems.push(...plan.problems.map((each) => ({ ...each, where: `loans.${record.id}.${each.where}` })));
  }
  return { plans, loans: plans, problems };
}
