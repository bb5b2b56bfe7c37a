import {
  addSums,
  allIn,
  type Dated,
  type DayLine,
  dayNumber,
  energyOnly,
  type Fuel,
  type Gap,
  type GridFactor,
  type LoanPlan,
  type Minor,
  type Payback,
  type Sums,
  type Terms,
  valueOn,
} from "../../calc/money/index.js";
import type { CivilDate } from "../../units/zone.js";
import type { BaselineRecord, KitCostRecord } from "../index.js";

export interface ReportCase {
  readonly from: CivilDate;
  readonly to: CivilDate;
  readonly currency: string;
  readonly vehicles: readonly {
    readonly plate: string;
    readonly lines: readonly DayLine[];
    readonly terms: Terms;
    readonly baselines: readonly BaselineRecord[];
    readonly kit: readonly KitCostRecord[];
    readonly loans: readonly { readonly lender: string; readonly plan: LoanPlan }[];
    readonly payback: Payback | null;
  }[];
  /** Hash of the chain's last link, printed so that later changes can be told. */
  readonly chainHead: string | null;
}

export interface Span {
  readonly from: CivilDate;
  readonly to: CivilDate;
}
export interface Guessed {
  readonly lowMinor: Minor;
  readonly likelyMinor: Minor;
  readonly highMinor: Minor;
}

/** The fuel vehicle replaced, as stated from a day on. */
export interface ReportBaseline {
  readonly plate: string;
  readonly from: CivilDate;
  readonly fuel: Fuel;
  readonly per100Km: number;
  readonly how: BaselineRecord["how"];
}

/** One page for lender, cooperative or family. All amounts in `currency`; days in another currency are named and left out. */
export interface Report {
  readonly from: CivilDate;
  readonly to: CivilDate;
  readonly currency: string;
  readonly plates: readonly string[];
  readonly sums: Sums;
  readonly energyOnly: Guessed;
  readonly allIn: Guessed;
  /** Lines that add up to `allIn` exactly, with their sign. */
  readonly parts: readonly { readonly part: ReportPart; readonly minor: Minor }[];
  /** Days nobody wrote, and days that could not be counted with the reasons, by vehicle. */
  readonly missing: readonly ({ readonly plate: string } & Span)[];
  readonly open: readonly ({ readonly plate: string; readonly gaps: readonly Gap[] } & Span)[];
  readonly offRoad: readonly ({ readonly plate: string } & Span)[];
  readonly otherCurrencyDays: number;
  readonly baselines: readonly ReportBaseline[];
  readonly fuelPrices: readonly { readonly fuel: Fuel; readonly from: CivilDate; readonly perUnitMinor: number }[];
  readonly carbon: ReportCarbon | null;
  readonly kitMinor: Minor;
  /** What is still owed to each lender on the last day, all loans of the report together, and when the last of them ends. */
  readonly debts: readonly {
    readonly lender: string;
    readonly loans: number;
    readonly leftMinor: Minor;
    readonly ends: CivilDate;
  }[];
  readonly paybacks: readonly { readonly plate: string; readonly payback: Payback | null }[];
  readonly chainHead: string | null;
}
export type ReportPart =
  | "fuelThen"
  | "power"
  | "upkeepThen"
  | "upkeepNow"
  | "setAside"
  | "instalment"
  | "rent"
  | "insurance"
  | "otherFixed";
export interface ReportCarbon {
  readonly fuelG: number;
  readonly gridG: number;
  readonly savedG: number;
  /** Counted days with a figure on both sides, of all counted days. */
  readonly days: number;
  readonly factors: readonly GridFactor[];
}

const GAINS: readonly ReportPart[] = ["fuelThen", "upkeepThen"];
const PARTS: readonly ReportPart[] = [
  "fuelThen",
  "power",
  "upkeepThen",
  "upkeepNow",
  "setAside",
  "instalment",
  "rent",
  "insurance",
  "otherFixed",
];

/** The page, ready for words: every figure comes from the day lines given, nothing is filled in. */
export function reportOf(given: ReportCase): Report {
  const within = given.vehicles.map((vehicle) => ({
    ...vehicle,
    lines: vehicle.lines.filter(({ date }) => date >= given.from && date <= given.to),
  }));
  const lines = within.flatMap((vehicle) => vehicle.lines);
  const own = lines.filter((line) => line.currency === given.currency);
  const sums = addSums(own.map((line) => line.sums));
  const spans = (pick: (line: DayLine) => boolean) =>
    within.flatMap(({ plate, lines: each }) => spansOf(each.filter(pick)).map((span) => ({ plate, ...span })));
  return {
    from: given.from,
    to: given.to,
    currency: given.currency,
    plates: within.map(({ plate }) => plate),
    sums,
    energyOnly: { lowMinor: sums.energyLow, likelyMinor: energyOnly(sums), highMinor: sums.energyHigh },
    allIn: { lowMinor: sums.allInLow, likelyMinor: allIn(sums), highMinor: sums.allInHigh },
    parts: PARTS.map((part) => ({ part, minor: GAINS.includes(part) ? sums[part] : 0 - sums[part] })),
    missing: spans((line) => line.state === "missing"),
    open: within.flatMap(({ plate, lines: each }) => openSpans(each).map((span) => ({ plate, ...span }))),
    offRoad: spans((line) => line.state === "offRoad"),
    otherCurrencyDays: lines.length - own.length,
    baselines: within.flatMap(({ plate, baselines }) =>
      baselines
        .filter(({ from }) => from <= given.to)
        .map(({ from, fuel, per100Km, how }) => ({ plate, from, fuel, per100Km, how })),
    ),
    fuelPrices: fuelPrices(within, given),
    carbon: carbonOf(sums, within, given.to),
    kitMinor: within.flatMap(({ kit }) => kit).reduce((sum, { priceMinor }) => sum + priceMinor, 0),
    debts: debtsByLender(
      within.flatMap(({ loans }) => loans),
      given.to,
    ),
    paybacks: within.map(({ plate, payback }) => ({ plate, payback })),
    chainHead: given.chainHead,
  };
}

/** Runs of days that follow each other. */
export function spansOf(lines: readonly { readonly date: CivilDate }[]): readonly Span[] {
  const spans: { from: CivilDate; to: CivilDate }[] = [];
  for (const { date } of lines) {
    const last = spans.at(-1);
    if (last && dayNumber(date) === dayNumber(last.to) + 1) last.to = date;
    else spans.push({ from: date, to: date });
  }
  return spans;
}

function openSpans(lines: readonly DayLine[]): readonly (Span & { readonly gaps: readonly Gap[] })[] {
  const open = lines.filter((line) => !line.counted && line.state !== "missing");
  const kinds = [...new Set(open.map((line) => line.gaps.join(" ")))];
  return kinds.flatMap((kind) => {
    const like = open.filter((line) => line.gaps.join(" ") === kind);
    return spansOf(like).map((span) => ({ ...span, gaps: like[0]?.gaps ?? [] }));
  });
}

/** Fuel prices that held within the report, each once. */
function fuelPrices(vehicles: ReportCase["vehicles"], span: Span): Report["fuelPrices"] {
  const found = new Map<string, Report["fuelPrices"][number]>();
  for (const { terms, baselines } of vehicles)
    for (const fuel of new Set(baselines.map((baseline) => baseline.fuel)))
      for (const { from, value } of holding(terms.fuelPrice[fuel] ?? [], span))
        found.set(`${fuel} ${from} ${value.perUnitMinor}`, { fuel, from, perUnitMinor: value.perUnitMinor });
  return [...found.values()].sort((a, b) => (a.from < b.from ? -1 : 1));
}

/** The values of a history that held on some day of a span. */
const holding = <T>(history: readonly Dated<T>[], span: Span): readonly Dated<T>[] =>
  history.filter(({ from }, i) => {
    const next = history[i + 1]?.from;
    return from <= span.to && (next === undefined || next > span.from);
  });

function carbonOf(sums: Sums, vehicles: ReportCase["vehicles"], date: CivilDate): ReportCarbon | null {
  if (sums.carbonDays === 0) return null;
  const factors = vehicles.map(({ terms }) => valueOn(terms.grid, date)).filter((grid) => grid !== null);
  const once = new Map(factors.map((grid) => [JSON.stringify(grid), grid]));
  return {
    fuelG: sums.fuelCo2G,
    gridG: sums.gridCo2G,
    savedG: sums.fuelCo2G - sums.gridCo2G,
    days: sums.carbonDays,
    factors: [...once.values()],
  };
}

function debtsByLender(loans: ReportCase["vehicles"][number]["loans"], date: CivilDate): Report["debts"] {
  const found = new Map<string, Report["debts"][number]>();
  for (const { lender, plan } of loans) {
    const former = found.get(lender);
    found.set(lender, {
      lender,
      loans: (former?.loans ?? 0) + 1,
      leftMinor: (former?.leftMinor ?? 0) + leftOn(plan, date),
      ends: former && former.ends > plan.ends ? former.ends : plan.ends,
    });
  }
  return [...found.values()];
}

/** Principal still owed when a day's instalments are paid. */
function leftOn(plan: LoanPlan, date: CivilDate): Minor {
  const [first] = plan.instalments;
  const paid = plan.instalments.filter(({ due }) => due <= date).at(-1);
  return paid?.leftMinor ?? (first ? first.leftMinor + first.principalMinor : 0);
}
