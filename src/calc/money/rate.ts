/** Money at a time, in years from the first; outgoing is negative. */
export interface Flow {
  readonly atYears: number;
  readonly amount: number;
}

/** The rates at which flows are worth nothing: one, none or several; `oneSign` when all flows go the same way and no rate can exist. */
export interface RateAnswer {
  readonly code: "one" | "none" | "several" | "oneSign";
  /** Per year, rising; from just above -1 to 1e12. */
  readonly ratesPerYear: readonly number[];
  readonly signChanges: number;
  /**
   * The rate that may be called the rate: the only one there is, or the only one that is not negative where the sum of the flows so far
   * changes sign once (C. J. Norstrom (1972), Journal of Financial and Quantitative Analysis 7(3) 1835-1839); else null.
   */
  readonly theRate: number | null;
}

const LOWEST = Math.log(1e-9);
const HIGHEST = Math.log(1e12);
const STEPS = 200;

/** A sum of `amount * exp(-at * t)`, t being the logarithm of 1 + rate. */
type Terms = readonly Flow[];

/** Value scaled so that the largest term is at most its amount: only sign and smallness are asked for, and nothing overflows. */
function valueAt(terms: Terms, t: number): number {
  let top = Number.NEGATIVE_INFINITY;
  for (const { atYears } of terms) top = Math.max(top, -atYears * t);
  let sum = 0;
  for (const { atYears, amount } of terms) sum += amount * Math.exp(-atYears * t - top);
  return sum;
}

function changesOf(terms: Terms): readonly number[] {
  const places: number[] = [];
  for (let i = 1; i < terms.length; i++)
    if (Math.sign((terms[i] as Flow).amount) !== Math.sign((terms[i - 1] as Flow).amount)) places.push(i);
  return places;
}

function bisect(terms: Terms, from: number, to: number): number {
  const start = Math.sign(valueAt(terms, from));
  let [low, high] = [from, to];
  for (let i = 0; i < STEPS && high - low > 1e-15; i++) {
    const middle = (low + high) / 2;
    if (Math.sign(valueAt(terms, middle)) === start) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * All t in (low, high) where the sum is 0. Each change of sign between two terms is taken away by the slope of the sum times exp(c t),
 * c lying between the two: its zeros part the zeros of the sum (Rolle; the proof of Descartes' rule of signs), so none can hide.
 */
function zeros(terms: Terms, low: number, high: number): readonly number[] {
  const change = changesOf(terms)[0];
  if (change === undefined) return [];
  const c = ((terms[change - 1] as Flow).atYears + (terms[change] as Flow).atYears) / 2;
  const slope = scaled(terms.map(({ atYears, amount }) => ({ atYears, amount: amount * (c - atYears) })));
  const cuts = [low, ...zeros(slope, low, high), high];
  const found: number[] = [];
  for (let i = 1; i < cuts.length; i++) {
    const [from, to] = [cuts[i - 1] as number, cuts[i] as number];
    const touches = i < cuts.length - 1 && Math.abs(valueAt(terms, to)) < 1e-12 * valueAt(terms.map(size), to);
    if (touches) found.push(to);
    else if (Math.sign(valueAt(terms, from)) * Math.sign(valueAt(terms, to)) < 0) found.push(bisect(terms, from, to));
  }
  return found.filter((t, i) => i === 0 || t - (found[i - 1] as number) > NEAR);
}
const size = ({ atYears, amount }: Flow): Flow => ({ atYears, amount: Math.abs(amount) });
// Where the sum only touches 0, rounding makes two zeros of one, about the root of the machine's precision apart.
const NEAR = 1e-6;

function scaled(terms: Terms): Terms {
  const top = Math.max(...terms.map(({ amount }) => Math.abs(amount)));
  return terms.map(({ atYears, amount }) => ({ atYears, amount: amount / top }));
}

/** Flows of the same moment put together, nothing-flows left out, by time. */
function ordered(flows: readonly Flow[]): Terms {
  const byTime = new Map<number, number>();
  for (const { atYears, amount } of flows) byTime.set(atYears, (byTime.get(atYears) ?? 0) + amount);
  const kept = [...byTime].map(([atYears, amount]) => ({ atYears, amount })).filter(({ amount }) => amount !== 0);
  return kept.sort((a, b) => a.atYears - b.atYears);
}

/**
 * Internal rates of return of dated flows. Flows that change sign once have exactly one; flows that change sign more often may have
 * several, none of which is then "the" rate. Exact to about 1e-9 for up to some hundred flows.
 */
export function ratesOfReturn(flows: readonly Flow[]): RateAnswer {
  const terms = ordered(flows);
  const signChanges = changesOf(terms).length;
  if (signChanges === 0) return { code: "oneSign", ratesPerYear: [], signChanges, theRate: null };
  const ratesPerYear = zeros(scaled(terms), LOWEST, HIGHEST).map(Math.expm1);
  const code = ratesPerYear.length === 0 ? "none" : ratesPerYear.length === 1 ? "one" : "several";
  const gains = ratesPerYear.filter((rate) => rate >= 0);
  const only = code === "one" ? ratesPerYear : sumsChangeOnce(terms) && gains.length === 1 ? gains : [];
  return { code, ratesPerYear, signChanges, theRate: only[0] ?? null };
}

function sumsChangeOnce(terms: Terms): boolean {
  let sum = 0;
  const sums = terms.map(({ atYears, amount }) => {
    sum += amount;
    return { atYears, amount: sum };
  });
  return changesOf(sums.filter(({ amount }) => amount !== 0)).length === 1;
}

/** The same for flows at the end of year 0, 1, 2 and so on. */
export const yearlyRates = (flowsFromYear0: readonly number[]): RateAnswer =>
  ratesOfReturn(flowsFromYear0.map((amount, atYears) => ({ atYears, amount })));
