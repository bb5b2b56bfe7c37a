import { evenNormals, seedPart } from "../../units/dice.js";
import { quantileOfSorted } from "../../units/numbers.js";
import type { CivilDate } from "../../units/zone.js";
import { dateOfDay, dayNumber, type Month, monthOf, nextMonth } from "./calendar.js";
import type { Instalment } from "./loan.js";
import type { Minor } from "./minor.js";
import { type YearTerms, yearMoney } from "./saving.js";

/** Figures of a year that are in doubt, each as a standard deviation relative to its value. */
export type DoubtField =
  | "kmPerDay"
  | "workDaysPerYear"
  | "fuelPricePerUnit"
  | "fuelPer100Km"
  | "tariffPerKwh"
  | "batteryWhPerKm"
  | "sunShare"
  | "setLifeKm";
export type Doubts = Readonly<Record<DoubtField, number>>;

/** Doubt before the log has taught better: common practice, no source. */
export const USUAL_DOUBTS: Doubts = {
  kmPerDay: 0.08,
  workDaysPerYear: 0.05,
  fuelPricePerUnit: 0.1,
  fuelPer100Km: 0.1,
  tariffPerKwh: 0.05,
  batteryWhPerKm: 0.08,
  sunShare: 0.2,
  setLifeKm: 0.3,
};
export const DOUBT_FIELDS = Object.keys(USUAL_DOUBTS) as readonly DoubtField[];

/** What was bought, how it is paid, and what it has saved up to `today`. */
export interface PaybackCase {
  readonly terms: YearTerms;
  readonly doubts: Doubts;
  /** Price of kit, fitting and papers. */
  readonly priceMinor: Minor;
  /** Instalments of the loan that paid part of it; empty without a loan. */
  readonly instalments: readonly Pick<Instalment, "due" | "amountMinor" | "interestMinor">[];
  /** Other cost of borrowing, such as the lender's fee. */
  readonly feeMinor: Minor;
  readonly since: CivilDate;
  readonly today: CivilDate;
  /** All-in saving of the book from `since` to `today`, instalments not taken off. */
  readonly savedMinor: Minor;
  /** Low and high guess of the same. */
  readonly savedLowMinor: Minor;
  readonly savedHighMinor: Minor;
  /** Years from `since` for which vehicle and kit are expected to last. */
  readonly lifeYears: number;
  readonly seed: number;
}

export interface Payback {
  /** Days on which the saving has brought back price, fee and interest paid by then; null: not within the life. */
  readonly low: CivilDate | null;
  readonly likely: CivilDate | null;
  readonly high: CivilDate | null;
  /** Share of the guesses in which it is never paid back within the life, 0..1. */
  readonly neverShare: number;
  readonly verdict: "pays" | "unsure" | "doesNotPay";
  /** All-in saving of a working year, before instalments; one year in ten is below `low`, one above `high`. */
  readonly perYear: { readonly low: number; readonly likely: number; readonly high: number };
  readonly perWorkDay: number;
  /** The likely saving of a month carries the month's largest instalment; null without a loan. */
  readonly carriesInstalment: boolean | null;
}

const DRAWS = 512;
/** Standard deviations to the one-in-ten point of a normal doubt, from printed normal tables. */
export const ONE_IN_TEN = 1.2816;
const YEAR_DAYS = 365.25;

/** The terms with each doubtful figure moved by so many standard deviations; shares stay between 0 and 1. */
export function moved(
  terms: YearTerms,
  doubts: Doubts,
  byDeviations: Readonly<Partial<Record<DoubtField, number>>>,
): YearTerms {
  const out: { -readonly [Field in keyof YearTerms]: YearTerms[Field] } = { ...terms };
  for (const field of DOUBT_FIELDS) {
    const factor = Math.exp(doubts[field] * (byDeviations[field] ?? 0));
    out[field] = field === "sunShare" ? Math.min(1, terms.sunShare * factor) : terms[field] * factor;
  }
  out.workDaysPerYear = Math.min(366, out.workDaysPerYear);
  return out;
}

/** What is still to be brought back, laid out once for many guesses. */
interface Debt {
  readonly today: number;
  readonly lastDay: number;
  /** Price, fee and interest up to today. */
  readonly owedMinor: Minor;
  /** Interest still to come, by day. */
  readonly later: readonly { readonly day: number; readonly interestMinor: Minor }[];
}

function debtOf(at: Omit<PaybackCase, "terms" | "doubts" | "seed">): Debt {
  const paid = at.instalments.filter(({ due }) => due <= at.today);
  const later = at.instalments.filter(({ due }) => due > at.today);
  return {
    today: dayNumber(at.today),
    lastDay: dayNumber(at.since) + at.lifeYears * YEAR_DAYS,
    owedMinor: at.priceMinor + at.feeMinor + paid.reduce((sum, { interestMinor }) => sum + interestMinor, 0),
    later: later.map(({ due, interestMinor }) => ({ day: dayNumber(due), interestMinor })),
  };
}

/** Day number on which the saving has caught up with price, fee and the interest paid so far; infinite beyond the life. */
function dayPaidBack(debt: Debt, savedMinor: number, perYear: number): number {
  const perDay = perYear / YEAR_DAYS;
  let owed = debt.owedMinor;
  if (savedMinor >= owed) return debt.today;
  if (perDay <= 0) return Number.POSITIVE_INFINITY;
  const day = () => Math.ceil(debt.today + (owed - savedMinor) / perDay);
  for (const step of debt.later) {
    if (day() < step.day) break;
    owed += step.interestMinor;
  }
  return day() <= debt.lastDay ? day() : Number.POSITIVE_INFINITY;
}

/** The same as a date; null beyond the life. */
export const paidBackOn = (at: Omit<PaybackCase, "terms" | "doubts" | "seed">, perYear: number): CivilDate | null =>
  dateOrNever(dayPaidBack(debtOf(at), at.savedMinor, perYear));

/** One guess: its all-in saving of a year, and the day it is paid back as a day number; infinite when that is beyond the life. */
interface Guess {
  readonly perYear: number;
  readonly day: number;
}

/** Evenly drawn guesses: the same seed gives the same band. The doubt about the old fuel use leans the same way before and after today. */
function guesses(of: PaybackCase): readonly Guess[] {
  const normals = evenNormals(
    DRAWS,
    DOUBT_FIELDS.map((_, field) => seedPart(of.seed, field)),
  );
  const debt = debtOf(of);
  return Array.from({ length: DRAWS }, (_, i) => {
    const by = Object.fromEntries(DOUBT_FIELDS.map((field, column) => [field, normals[column * DRAWS + i] ?? 0]));
    const lean = (by.fuelPer100Km ?? 0) / ONE_IN_TEN;
    const span = lean > 0 ? of.savedHighMinor - of.savedMinor : of.savedMinor - of.savedLowMinor;
    const { allIn: perYear } = yearMoney(moved(of.terms, of.doubts, by));
    return { perYear, day: dayPaidBack(debt, of.savedMinor + lean * span, perYear) };
  });
}

/**
 * When it is paid back, with the doubt of km, prices and battery life: one guess in ten is earlier than `low`, one in ten later than `high`.
 * `likely` is the plain sum: what is still to be brought back over the saving per day. Prices are taken to stay as they are.
 */
export function payback(of: PaybackCase): Payback {
  const found = guesses(of);
  const years = found.map(({ perYear }) => perYear).sort((a, b) => a - b);
  const days = found.map(({ day }) => day).sort((a, b) => a - b);
  const likelyYear = yearMoney(of.terms).allIn;
  const likely = paidBackOn(of, likelyYear);
  const likelyDay = likely === null ? Number.POSITIVE_INFINITY : dayNumber(likely);
  const dayAt = (level: number): number => days[Math.floor(level * DRAWS)] ?? Number.POSITIVE_INFINITY;
  const neverShare = days.filter((day) => day === Number.POSITIVE_INFINITY).length / DRAWS;
  const largest = Math.max(0, ...monthlyInstalments(of.instalments).values());
  return {
    low: dateOrNever(Math.min(likelyDay, dayAt(0.1))),
    likely,
    high: dateOrNever(Math.max(likelyDay, dayAt(0.9))),
    neverShare,
    verdict: likely === null ? "doesNotPay" : neverShare > 0.1 ? "unsure" : "pays",
    perYear: {
      low: Math.min(likelyYear, quantileOfSorted(years, 0.1)),
      likely: likelyYear,
      high: Math.max(likelyYear, quantileOfSorted(years, 0.9)),
    },
    perWorkDay: of.terms.workDaysPerYear > 0 ? likelyYear / of.terms.workDaysPerYear : 0,
    carriesInstalment: of.instalments.length === 0 ? null : likelyYear / 12 >= largest,
  };
}
const dateOrNever = (day: number): CivilDate | null => (Number.isFinite(day) ? dateOfDay(day) : null);

function monthlyInstalments(instalments: PaybackCase["instalments"]): ReadonlyMap<Month, Minor> {
  const byMonth = new Map<Month, Minor>();
  for (const { due, amountMinor } of instalments)
    byMonth.set(monthOf(due), (byMonth.get(monthOf(due)) ?? 0) + amountMinor);
  return byMonth;
}

/** One month of the payback picture, at the month's end. */
export interface PaybackMonth {
  readonly month: Month;
  readonly savedLowMinor: Minor;
  readonly savedMinor: Minor;
  readonly savedHighMinor: Minor;
  /** Own money, fee and instalments paid so far: the step. */
  readonly paidInMinor: Minor;
  /** What must be brought back by then: price, fee and interest so far. */
  readonly owedMinor: Minor;
}

/** Saving against what was paid, month by month from `today` to `months` later, for the picture and the table beside it. */
export function paybackMonths(of: PaybackCase, band: Payback["perYear"], months: number): readonly PaybackMonth[] {
  const steps = monthlyInstalments(of.instalments);
  const lent = of.instalments.reduce((sum, { amountMinor, interestMinor }) => sum + amountMinor - interestMinor, 0);
  const today = dayNumber(of.today);
  return Array.from({ length: months + 1 }, (_, i) => {
    const month = nextMonth(monthOf(of.today), i);
    const end = dayNumber(`${nextMonth(month)}-01`) - 1;
    const years = Math.max(0, end - today) / YEAR_DAYS;
    const saved = (perYear: number): Minor => Math.round(of.savedMinor + perYear * years);
    const due = of.instalments.filter((each) => dayNumber(each.due) <= end);
    return {
      month,
      savedLowMinor: saved(band.low),
      savedMinor: saved(band.likely),
      savedHighMinor: saved(band.high),
      paidInMinor: of.priceMinor - lent + of.feeMinor + sumUpTo(steps, month),
      owedMinor: of.priceMinor + of.feeMinor + due.reduce((sum, { interestMinor }) => sum + interestMinor, 0),
    };
  });
}
const sumUpTo = (steps: ReadonlyMap<Month, Minor>, month: Month): Minor =>
  [...steps].reduce((sum, [at, minor]) => sum + (at <= month ? minor : 0), 0);
