import { bad, good, type Outcome, type Problem } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import { daysFrom, daysLater, monthsLater } from "./calendar.js";
import type { FixedCost } from "./fixed.js";
import { evenShare, type Minor, toMinor } from "./minor.js";
import { ratesOfReturn } from "./rate.js";
import { annuityFactor } from "./worth.js";

export type Every = "month" | "twoWeeks" | "week" | "day";
export const PERIODS_PER_YEAR: Readonly<Record<Every, number>> = { month: 12, twoWeeks: 26, week: 52, day: 365 };
const DAYS: Readonly<Record<Exclude<Every, "month">, number>> = { twoWeeks: 14, week: 7, day: 1 };

/** A loan as it is agreed. */
export interface LoanTerms {
  readonly principalMinor: Minor;
  /** Nominal rate a year, 0..3. */
  readonly ratePerYear: number;
  readonly payments: number;
  readonly every: Every;
  /** Day the money was paid out. */
  readonly startDate: CivilDate;
  readonly firstDue: CivilDate;
  /**
   * `reducing`: interest on what is still owed, every period alike. `reducingByDays`: the same by real days over 365.
   * `flat`: interest on the whole loan to the end, whatever was paid back, as many small lenders quote it.
   */
  readonly method: "reducing" | "reducingByDays" | "flat";
  /** Fee kept back at the start; it counts in the true yearly rate. */
  readonly feeMinor: Minor;
  /** Instalment the lender wrote down; null to work it out. */
  readonly instalmentMinor: Minor | null;
}

export interface Instalment {
  readonly number: number;
  readonly due: CivilDate;
  readonly amountMinor: Minor;
  readonly interestMinor: Minor;
  readonly principalMinor: Minor;
  readonly leftMinor: Minor;
}

export interface LoanPlan {
  readonly instalments: readonly Instalment[];
  readonly levelMinor: Minor;
  readonly totalInterestMinor: Minor;
  readonly ends: CivilDate;
  /** What the loan really costs a year, fee and dates taken in, null when no one rate fits. */
  readonly trueRatePerYear: number | null;
}

/** Instalment of a loan at the end of each period, unrounded. Source: annuity formula, principal / annuityFactor(rate, periods). */
export const levelPayment = (principal: number, ratePerPeriod: number, periods: number): number =>
  principal / annuityFactor(ratePerPeriod, periods);

export const dueDates = (terms: Pick<LoanTerms, "firstDue" | "payments" | "every">): readonly CivilDate[] =>
  Array.from({ length: terms.payments }, (_, i) =>
    terms.every === "month" ? monthsLater(terms.firstDue, i) : daysLater(terms.firstDue, i * DAYS[terms.every]),
  );

function problemsOf(terms: LoanTerms): readonly Problem[] {
  const found: Problem[] = [];
  const add = (isWrong: boolean, code: string, where: string, value: number | string) => {
    if (isWrong) found.push({ code, where, figures: { value } });
  };
  add(
    !(Number.isInteger(terms.principalMinor) && terms.principalMinor > 0),
    "loanAmount",
    "principalMinor",
    terms.principalMinor,
  );
  add(!(terms.ratePerYear >= 0 && terms.ratePerYear <= 3), "loanRate", "ratePerYear", terms.ratePerYear);
  add(
    !(Number.isInteger(terms.payments) && terms.payments >= 1 && terms.payments <= 4000),
    "loanTerm",
    "payments",
    terms.payments,
  );
  add(terms.firstDue < terms.startDate, "loanDates", "firstDue", terms.firstDue);
  return found;
}

/**
 * All instalments with real dates, in smallest coins: each is interest and principal exactly, the principals add up to the loan exactly,
 * and the last instalment takes up what rounding left. Problems: `loanAmount`, `loanRate`, `loanTerm`, `loanDates`, `instalmentTooSmall`
 * (the last one would be more than twice the others).
 */
export function loanPlan(terms: LoanTerms): Outcome<LoanPlan> {
  const problems = problemsOf(terms);
  if (problems.length > 0) return bad(...problems);
  const dues = dueDates(terms);
  const level = terms.instalmentMinor ?? toMinor(exactLevel(terms, dues));
  const instalments = terms.method === "flat" ? flatInstalments(terms, dues, level) : reducing(terms, dues, level);
  const last = instalments.at(-1) as Instalment;
  if (terms.instalmentMinor !== null && terms.payments > 1 && last.amountMinor > 2 * level)
    return bad({ code: "instalmentTooSmall", where: "instalmentMinor", figures: { last: last.amountMinor } });
  return good({
    instalments,
    levelMinor: level,
    totalInterestMinor: instalments.reduce((sum, each) => sum + each.interestMinor, 0),
    ends: last.due,
    trueRatePerYear: trueRate(terms, instalments),
  });
}

/** Interest of one period as a share of what is owed. */
function periodRate(terms: LoanTerms, from: CivilDate, to: CivilDate): number {
  if (terms.method === "reducingByDays") return (terms.ratePerYear * daysFrom(from, to)) / 365;
  return terms.ratePerYear / PERIODS_PER_YEAR[terms.every];
}

function exactLevel(terms: LoanTerms, dues: readonly CivilDate[]): number {
  if (terms.method === "flat") return (terms.principalMinor + flatInterest(terms)) / terms.payments;
  let discount = 1;
  let factor = 0;
  for (const [i, due] of dues.entries()) {
    discount /= 1 + periodRate(terms, dues[i - 1] ?? terms.startDate, due);
    factor += discount;
  }
  return terms.principalMinor / factor;
}

const flatInterest = (terms: LoanTerms): Minor =>
  toMinor((terms.principalMinor * terms.ratePerYear * terms.payments) / PERIODS_PER_YEAR[terms.every]);

function flatInstalments(terms: LoanTerms, dues: readonly CivilDate[], level: Minor): readonly Instalment[] {
  const interest = flatInterest(terms);
  return closed(terms, dues, level, (i) => evenShare(interest, terms.payments, i));
}

function reducing(terms: LoanTerms, dues: readonly CivilDate[], level: Minor): readonly Instalment[] {
  return closed(terms, dues, level, (i, left) =>
    toMinor(left * periodRate(terms, dues[i - 1] ?? terms.startDate, dues[i] as CivilDate)),
  );
}

/** The instalments one by one; a loan paid off early by a large instalment ends early. Over a long month the debt may grow a little. */
function closed(
  terms: LoanTerms,
  dues: readonly CivilDate[],
  level: Minor,
  interestOf: (index: number, leftMinor: Minor) => Minor,
): readonly Instalment[] {
  const out: Instalment[] = [];
  let left = terms.principalMinor;
  for (const [i, due] of dues.entries()) {
    const interestMinor = interestOf(i, left);
    const isLast = i === dues.length - 1 || level - interestMinor >= left;
    const principalMinor = isLast ? left : level - interestMinor;
    left -= principalMinor;
    const amountMinor = interestMinor + principalMinor;
    out.push({ number: i + 1, due, amountMinor, interestMinor, principalMinor, leftMinor: left });
    if (isLast) break;
  }
  return out;
}

/** Source: yearly rate at which all instalments, by days over 365, are worth the money paid out (as in directive 2008/48/EC, annex I). */
function trueRate(terms: LoanTerms, instalments: readonly Instalment[]): number | null {
  const flows = instalments.map(({ due, amountMinor }) => ({
    atYears: daysFrom(terms.startDate, due) / 365,
    amount: -amountMinor,
  }));
  const { code, ratesPerYear } = ratesOfReturn([
    { atYears: 0, amount: terms.principalMinor - terms.feeMinor },
    ...flows,
  ]);
  return code === "one" ? (ratesPerYear[0] ?? null) : null;
}

/** The instalments as costs of the days they pay for: each from the day after the one before to its due day. */
export const loanCosts = (plan: LoanPlan, startDate: CivilDate, currency: string): readonly FixedCost[] =>
  plan.instalments.map(({ due, amountMinor }, i) => {
    const before = plan.instalments[i - 1]?.due ?? startDate;
    const from = before < due ? daysLater(before, 1) : due;
    return { kind: "instalment", amountMinor, currency, from, to: due };
  });

/** Warns when a loan runs on after the vehicle or kit has worn out. */
export function loanOutlives(plan: LoanPlan, startDate: CivilDate, lifeYears: number): Problem | null {
  const wornOut = daysLater(startDate, Math.round(lifeYears * 365.25));
  if (plan.ends <= wornOut) return null;
  return { code: "loanOutlivesVehicle", where: "payments", figures: { ends: plan.ends, wornOut } };
}
