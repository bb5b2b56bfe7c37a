import { quantileOfSorted } from "../../units/numbers.js";
import type { DayAnswer, Verdict } from "./answer.js";
import type { DayInput } from "./input.js";
import { isStuck, planDay } from "./plan-day.js";
import { LOW_GUESS } from "./top-up.js";
import { walkDraws } from "./walks.js";

export type BreakChoice = "plug" | "wait" | "go";
/** Why a choice is the best one; notEnough: none of them does, this one leaves the most. */
export type AdviceReason =
  | "nothingNeeded"
  | "sunIsEnough"
  | "plugNeeded"
  | "setNearlyFull"
  | "tooCold"
  | "tooHot"
  | "notEnough";

/** The same day with each choice taken now, and with the same break spent in deep shade. */
export interface BreakInputs {
  readonly plug: DayInput;
  readonly wait: DayInput;
  readonly shade: DayInput;
  readonly go: DayInput;
  readonly nowUtcMs: number;
  readonly minutes: number;
}

/** What a choice leaves above the reserve between the end of the break and home, km; below 0 is missing. */
export interface ChoiceEnd {
  readonly likelyKm: number;
  /** One day in ten is worse. */
  readonly lowKm: number;
  readonly verdict: Verdict;
  readonly answer: DayAnswer;
}

export interface BreakAdvice {
  readonly choices: Readonly<Record<BreakChoice, ChoiceEnd>>;
  readonly best: BreakChoice;
  readonly reason: AdviceReason;
  /** Where to stand for this break. */
  readonly stand: "sun" | "shade";
}

/** From here on a set takes little and a break brings next to nothing (common practice, no source). */
const NEARLY_FULL = 0.9;
/** Air above which heat costs a standing set more than the sun brings it, as in the care of sets (common practice, no source). */
const HOT_AIR_C = 35;
/** Less than this is no reason to stand in the sun, km. */
const WORTH_KM = 0.5;
const MINUTE_MS = 60_000;

/** Plug, wait in the sun or go on: the least trouble that is enough, else what leaves the most on a bad day. */
export function breakAdvice(inputs: BreakInputs): BreakAdvice {
  const behindUtcMs = inputs.nowUtcMs + inputs.minutes * MINUTE_MS;
  const end = (input: DayInput, fromUtcMs: number) => endOf(planDay(input), fromUtcMs);
  const choices = {
    plug: end(inputs.plug, behindUtcMs),
    wait: end(inputs.wait, behindUtcMs),
    go: end(inputs.go, inputs.nowUtcMs),
  };
  const level = levelAt(choices.go.answer, inputs.nowUtcMs);
  const airC = airAt(inputs.wait, inputs.nowUtcMs);
  return {
    choices,
    ...bestOf(choices, { level, stopped: chargingStopped(inputs.go, airC) }),
    stand: standIn(choices.wait, end(inputs.shade, behindUtcMs), { level, airC }),
  };
}

function endOf(answer: DayAnswer, fromUtcMs: number): ChoiceEnd {
  const { lines, reserveShare, usableWh, whPerKm, kmLeft, stuck } = answer;
  const toUtcMs = answer.homeUtcMs ?? Number.POSITIVE_INFINITY;
  const ahead = lines.atUtcMs.flatMap((at, i) => (at >= fromUtcMs && at <= toUtcMs ? [i] : []));
  const least = (line: readonly number[], home: number) =>
    ahead.reduce((low, i) => Math.min(low, line[i] as number), home);
  const low = least(lines.p10, answer.home.p10);
  const likely = least(lines.p50, answer.home.p50);
  const km = (share: number) => (whPerKm > 0 ? ((share - reserveShare) * usableWh) / whPerKm : 0);
  const unknown = answer.verdict === "notKnown";
  return {
    // a set that ran empty misses more than its level tells
    likelyKm: likely > 0 ? km(likely) : Math.min(km(likely), kmLeft.p50),
    lowKm: low > 0 ? km(low) : Math.min(km(low), kmLeft.p10),
    verdict: unknown ? "notKnown" : stuck || likely < reserveShare ? "short" : low < reserveShare ? "tight" : "enough",
    answer,
  };
}

const RANK: Readonly<Record<Verdict, number>> = { enough: 0, tight: 1, short: 2, notKnown: 3 };
const LEAST_TROUBLE: readonly BreakChoice[] = ["go", "wait", "plug"];

function bestOf(
  choices: Readonly<Record<BreakChoice, ChoiceEnd>>,
  now: { readonly level: number; readonly stopped: "tooCold" | "tooHot" | null },
): Pick<BreakAdvice, "best" | "reason"> {
  if (choices.go.verdict === "enough") return { best: "go", reason: "nothingNeeded" };
  if (now.stopped) return { best: "go", reason: now.stopped };
  if (now.level >= NEARLY_FULL) return { best: "go", reason: "setNearlyFull" };
  const least = Math.min(...LEAST_TROUBLE.map((choice) => RANK[choices[choice].verdict]));
  const fit = LEAST_TROUBLE.filter((choice) => RANK[choices[choice].verdict] === least);
  if (least === RANK.enough)
    return fit[0] === "wait" ? { best: "wait", reason: "sunIsEnough" } : { best: "plug", reason: "plugNeeded" };
  const best = fit.reduce((a, b) => (choices[b].lowKm > choices[a].lowKm + WORTH_KM ? b : a));
  return { best, reason: "notEnough" };
}

/** A set that takes nothing is too cold or too hot to be charged. */
function chargingStopped({ store }: DayInput, airC: number): "tooCold" | "tooHot" | null {
  if (store.acceptance.some(({ w }) => w > 0)) return null;
  return airC < 25 ? "tooCold" : "tooHot";
}

/** Sun for the charge, shade for the set's life: sun where it is needed, else where it brings something on a mild day. */
function standIn(
  sun: ChoiceEnd,
  shade: ChoiceEnd,
  now: { readonly level: number; readonly airC: number },
): "sun" | "shade" {
  if (now.level >= NEARLY_FULL || sun.likelyKm - shade.likelyKm < WORTH_KM) return "shade";
  return shade.verdict !== "enough" || now.airC < HOT_AIR_C ? "sun" : "shade";
}

function levelAt({ lines, start }: DayAnswer, utcMs: number): number {
  const after = lines.atUtcMs.findIndex((at) => at >= utcMs);
  if (after <= 0) return after === 0 ? start.p50 : (lines.p50.at(-1) ?? start.p50);
  const [from, to] = [lines.atUtcMs[after - 1] as number, lines.atUtcMs[after] as number];
  const [a, b] = [lines.p50[after - 1] as number, lines.p50[after] as number];
  return a + ((b - a) * (utcMs - from)) / (to - from);
}

const airAt = ({ segments }: DayInput, utcMs: number): number =>
  (segments.find((segment) => segment.toUtcMs > utcMs) ?? segments.at(-1))?.airC ?? 25;

/** Finer than a driver can tell by the road. */
const CLOSE_KM = 0.25;

/**
 * Farthest km out from the yard at which to turn and be home above the reserve on a bad day; 0 when even turning now is too late.
 * `inputTo` lays out the day with the turn at so many km; a longer way never leaves more. `outKm` is how far out it is now.
 */
export function turnBackAt(inputTo: (turnKm: number) => DayInput, outKm: number, mostKm: number): number {
  if (!comesHome(inputTo(outKm))) return 0;
  if (comesHome(inputTo(mostKm))) return mostKm;
  let near = outKm;
  let far = mostKm;
  while (far - near > CLOSE_KM) {
    const middle = (near + far) / 2;
    if (comesHome(inputTo(middle))) near = middle;
    else far = middle;
  }
  return near;
}

/**
 * Fewest whole km to leave out for the day to be enough, tried on the day itself; null where not even all but the last one do it.
 * `without` lays out the day with so many km less, in each way they may be left out: it must be enough in all of them.
 */
export function leastLeftOut(without: (km: number) => readonly DayInput[], aheadKm: number): number | null {
  const isEnough = (km: number) => without(km).every((input) => !isStuck(input) && comesHome(input));
  let enough = Math.ceil(aheadKm) - 1;
  if (enough < 1 || !isEnough(enough)) return null;
  let less = 0;
  while (enough - less > 1) {
    const middle = (less + enough) >> 1;
    if (isEnough(middle)) enough = middle;
    else less = middle;
  }
  return enough;
}

function comesHome(input: DayInput): boolean {
  const { lowestWh, store } = walkDraws(input);
  return quantileOfSorted(lowestWh.slice().sort(), LOW_GUESS) >= input.reserveShare * store.usableWh;
}

/** Likely km more that the day leaves with goods left behind. */
export const kmGained = (as: DayAnswer, lighter: DayAnswer): number => lighter.kmLeft.p50 - as.kmLeft.p50;
