import {
  costOnDay,
  type DayLine,
  type DayLog,
  dayCosts,
  dayLines,
  dayNumber,
  daysLater,
  fillMissing,
  type LeaseState,
  type LoanPlan,
  leaseState,
  loanOutlives,
  monthsLater,
  type Payback,
  type PaybackCase,
  payback,
  type Swing,
  savedBeforeInstalments,
  swings,
  type Terms,
  valueOn,
  type YearFromBook,
  yearFromBook,
} from "../../calc/money/index.js";
import { seedOf } from "../../units/dice.js";
import type { Outcome, Problem } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import type {
  BaselineRecord,
  Entry,
  FixedCostRecord,
  KitCostRecord,
  LeaseRecord,
  LoanRecord,
  MoneyPlanRecord,
  PriceRecord,
  Round,
  SetCostRecord,
  Sky,
  StandstillRecord,
  Vehicle,
  Yard,
} from "../index.js";
import { moneyTermsOf } from "./money.js";
import { dayLogsOf, type Estimates } from "./money-days.js";
import { sunEstimates } from "./money-sun.js";

/** Everything on record that the money of one vehicle rests on; records of others may be among it. */
export interface BookCase {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  readonly vehicleIds: readonly string[];
  readonly round: Round | null;
  readonly entries: readonly Entry[];
  readonly skies: readonly Sky[];
  readonly standstills: readonly StandstillRecord[];
  readonly baselines: readonly BaselineRecord[];
  readonly prices: readonly PriceRecord[];
  readonly setCosts: readonly SetCostRecord[];
  readonly fixedCosts: readonly FixedCostRecord[];
  readonly loans: readonly LoanRecord[];
  readonly leases: readonly LeaseRecord[];
  readonly kitCosts: readonly KitCostRecord[];
  readonly moneyPlans: readonly MoneyPlanRecord[];
  readonly today: CivilDate;
  /** Fill missing days, only at the owner's wish. */
  readonly fill: boolean;
}

/** The money of one vehicle up to today. */
export interface MoneyBook {
  readonly vehicle: Vehicle;
  readonly currency: string;
  /** From the first written day up to yesterday, or today when it is written. */
  readonly lines: readonly DayLine[];
  /** The log behind the lines, without the days nobody wrote. */
  readonly logs: readonly DayLog[];
  readonly terms: Terms;
  readonly loans: readonly { readonly record: LoanRecord; readonly plan: LoanPlan }[];
  readonly kit: readonly KitCostRecord[];
  readonly year: Outcome<YearFromBook>;
  /** Null without the price of a kit, or while a figure of the year is missing. */
  readonly payback: { readonly of: PaybackCase; readonly answer: Payback } | null;
  /** What would change a year's saving most; empty while a figure is missing. */
  readonly swings: readonly Swing[];
  readonly lease: LeaseState | null;
  readonly problems: readonly Problem[];
}

/** What nobody has said about the years to come: common practice, no source. */
export const WORK_DAYS_PER_YEAR = 300;
const SET_LIFE_YEARS = 3;
const YEAR_DAYS = 365;

/** What the day lines of one vehicle are made from. */
export type Ground = Omit<BookCase, "kitCosts" | "moneyPlans" | "fill">;

export const groundOf = (given: Ground) => ({
  ...termsNow(given),
  days: dayLogsOf({ ...given, estimates: estimatesOf(given) }),
});

/** Terms as they stand, fixed costs up to a year from today. */
export function termsNow(given: Ground) {
  const laid = moneyTermsOf({ ...given, until: daysLater(given.today, YEAR_DAYS) });
  return { laid, currency: valueOn(laid.terms.currency, given.today) ?? given.yard.currency };
}

/** Last day that has a line: today once it is written, else yesterday. */
export const lastDayOf = (logs: readonly DayLog[], today: CivilDate): CivilDate =>
  logs.some((log) => log.date === today) ? today : daysLater(today, -1);

export function moneyBookOf(given: BookCase): MoneyBook {
  const { vehicle, today } = given;
  const { laid, currency, days } = groundOf(given);
  const first = days.logs[0]?.date ?? null;
  const last = lastDayOf(days.logs, today);
  const filled = given.fill && first !== null ? fillMissing(days.logs, first, last) : null;
  const logs = filled?.ok ? filled.value : days.logs;
  const lines = first === null ? [] : dayLines(logs, laid.terms, first, last);
  const year = yearFromBook(lines, laid.terms, wishOf(given, laid.terms), today);
  const kit = given.kitCosts.filter((record) => record.vehicleId === vehicle.id && record.currency === currency);
  return {
    vehicle,
    currency,
    lines,
    logs,
    terms: laid.terms,
    loans: laid.loans,
    kit,
    year,
    payback: paybackOf({ kit, lines, year, loans: laid.loans, today, currency, seed: seedOf(vehicle.id) }),
    swings: year.ok ? swings(year.value.terms, year.value.doubts) : [],
    lease: leaseOf(given),
    problems: [
      ...laid.problems,
      ...days.problems,
      ...(filled && !filled.ok ? filled.problems : []),
      ...outlived(laid.loans, kit),
    ],
  };
}

/** Sun on days without a counter's figure: worked out, and said so wherever it is shown. */
function estimatesOf(given: Ground): Estimates {
  const { round, vehicle } = given;
  if (!round) return new Map();
  const dates = given.entries
    .filter((entry) => entry.vehicleId === vehicle.id && entry.sunKwh === null && (entry.km ?? 1) > 0)
    .map((entry) => entry.date);
  const found = sunEstimates({ ...given, round }, dates);
  return new Map([...found].map(([date, sunKwh]) => [date, { gridKwh: null, sunKwh }]));
}

function wishOf(given: BookCase, terms: Terms) {
  const plan = given.moneyPlans.find((record) => record.vehicleId === given.vehicle.id);
  const sets = given.setCosts.filter((record) => record.vehicleId === given.vehicle.id && record.from <= given.today);
  const newest = [...sets].sort((a, b) => (a.from < b.from ? -1 : 1)).at(-1);
  return {
    workDaysPerYear: plan?.workDaysPerYear ?? WORK_DAYS_PER_YEAR,
    kmPerDay: plan?.kmPerDay ?? null,
    batteryWhPerKm: plan?.batteryWhPerKm ?? null,
    sunShare: plan?.sunShare ?? null,
    setLifeYears: newest?.lifeYears ?? SET_LIFE_YEARS,
    fixedPerYear: fixedPerYear(terms, given.today),
  };
}

/** Rent, insurance and the like over the coming year; instalments stand in the payback by themselves. */
function fixedPerYear(terms: Terms, today: CivilDate): number {
  const from = daysLater(today, 1);
  const costs = dayCosts(
    terms.fixed.filter((cost) => cost.kind !== "instalment"),
    from,
    daysLater(today, YEAR_DAYS),
  );
  let sum = 0;
  for (let day = dayNumber(from); day <= dayNumber(today) + YEAR_DAYS; day++)
    for (const cost of costs) sum += costOnDay(cost, day);
  return sum;
}

function paybackOf(at: {
  readonly kit: readonly KitCostRecord[];
  readonly lines: readonly DayLine[];
  readonly year: Outcome<YearFromBook>;
  readonly loans: MoneyBook["loans"];
  readonly today: CivilDate;
  readonly currency: string;
  readonly seed: number;
}): MoneyBook["payback"] {
  const since = at.kit.map((record) => record.from).sort()[0];
  if (since === undefined || !at.year.ok) return null;
  const own = at.lines.filter((line) => line.currency === at.currency && line.date >= since);
  const saved = savedBeforeInstalments(own);
  const loans = at.loans.filter(({ record }) => record.currency === at.currency);
  const of: PaybackCase = {
    terms: at.year.value.terms,
    doubts: at.year.value.doubts,
    priceMinor: at.kit.reduce((sum, { priceMinor }) => sum + priceMinor, 0),
    instalments: loans.flatMap(({ plan }) => plan.instalments),
    feeMinor: loans.reduce((sum, { record }) => sum + record.feeMinor, 0),
    since,
    today: at.today,
    savedMinor: saved.likelyMinor,
    savedLowMinor: saved.lowMinor,
    savedHighMinor: saved.highMinor,
    lifeYears: Math.max(...at.kit.map(({ lifeYears }) => lifeYears)),
    seed: at.seed,
  };
  return { of, answer: payback(of) };
}

function outlived(loans: MoneyBook["loans"], kit: readonly KitCostRecord[]): readonly Problem[] {
  const lifeYears = Math.max(0, ...kit.map((record) => record.lifeYears));
  if (lifeYears === 0) return [];
  return loans.flatMap(({ record, plan }) => {
    const problem = loanOutlives(plan, record.from, lifeYears);
    return problem ? [{ ...problem, where: `loans.${record.id}.${problem.where}` }] : [];
  });
}

/** How the lease stands in its running month, which begins on the contract's day. */
function leaseOf({ leases, vehicle, today, entries }: BookCase): LeaseState | null {
  const lease = leases.find(
    (record) => record.vehicleId === vehicle.id && record.from <= today && (record.to === null || record.to >= today),
  );
  if (!lease) return null;
  let n = 0;
  while (monthsLater(lease.from, n + 1) <= today) n++;
  const period = { from: monthsLater(lease.from, n), to: daysLater(monthsLater(lease.from, n + 1), -1), today };
  const kmByDay = new Map(
    entries.flatMap((entry) => (entry.vehicleId === vehicle.id && entry.km !== null ? [[entry.date, entry.km]] : [])),
  );
  return leaseState(lease, period, kmByDay);
}
