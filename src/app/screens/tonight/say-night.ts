import { currencyPlaces } from "../../../calc/money/currency.js";
import type { StayOutcome } from "../../../calc/yard/walk-plan.js";
import type { WhyShort, WhyThen } from "../../../calc/yard/why.js";
import type { Yard } from "../../../records/index.js";
import type { StayAbout } from "../../../records/map/night.js";
import type { Problem } from "../../../units/outcome.js";
import { minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";
import { handOver } from "../../settings.js";
import { exactAmount } from "../../words/money/amount.js";
import type { TonightWords } from "../../words/tonight/en.js";
import { type SwapRounds, shortBy, type VehicleNight } from "./night-facts.js";

const hourOf = (utcMs: number, yard: Yard): number => minuteOfDay(utcMs, yard.zone) / 60;

/** Whole money of the plan in the yard's currency. */
export const moneyText = (money: number, yard: Yard): string =>
  exactAmount(Math.round(money * 10 ** (currencyPlaces(yard.currency) ?? 0)), yard.currency);

export function whyText(
  words: TonightWords,
  why: WhyShort | undefined,
  at: { readonly about: StayAbout; readonly yard: Yard; readonly dead: boolean },
): string {
  if (at.dead) return words.why.chargerDead;
  if (at.about.cannotCharge) return words.why.cannotCharge;
  switch (why?.code) {
    case "fullTooLittle":
      return words.why.fullTooLittle;
    case "noSocketFits":
      return words.why.noSocketFits;
    case "stayTooShort":
      return words.why.stayTooShort(why.missingMinutes);
    case "cutTakesTheTime":
      return words.why.cutTakesTheTime;
    case "nobodyAwake":
      return words.why.nobodyAwake(hourOf(why.atUtcMs, at.yard));
    case "siteFull":
      return words.why.siteFull(hourOf(why.fromUtcMs, at.yard), hourOf(why.toUtcMs, at.yard), why.moreKw);
    case "socketsHeld":
      return words.why.socketsHeld(hourOf(why.fromUtcMs, at.yard));
    case "nothingFree":
      return words.why.nothingFree(hourOf(why.fromUtcMs, at.yard), hourOf(why.toUtcMs, at.yard));
    default:
      return words.why.roomLeft;
  }
}

/** What stands where a vehicle has no slot: it needs none, or none was left. */
export const noSlotText = (words: TonightWords, outcome: StayOutcome): string =>
  outcome.short ? words.noSlot : words.needsNothing;

export function thenText(words: TonightWords, then: WhyThen | undefined, yard: Yard): string {
  if (!then) return words.needsNothing;
  if (then.code !== "waitsForCheap") return words.whyThen[then.code];
  return handOver.value ? words.whyThen.waits : words.whyThen.waitsForCheap(moneyText(then.saves, yard));
}

/** The cheapest way out of being short: read, swap, shorten. */
export function wayOut(words: TonightWords, of: VehicleNight, swap: SwapRounds | null): string {
  const mine = of.stays.find(({ outcome }) => outcome.short) ?? of.stays[0];
  if (!mine) return words.ways.giveRound;
  if (mine.about.levelFrom === "worseGuess") return words.ways.readGauge;
  if (swap) return words.ways.swapRounds(swap.plate, swap.km);
  const { kmItCan } = shortBy(mine.about, mine.outcome);
  return kmItCan >= 1 ? words.ways.shorterRound(kmItCan) : words.ways.anotherCharger;
}

export function underText(words: TonightWords, of: VehicleNight): string {
  const mine = of.stays.find(({ outcome }) => outcome.short);
  if (!mine) return "";
  const { kmUnder } = shortBy(mine.about, mine.outcome);
  return kmUnder > 0 ? words.kmUnder(kmUnder) : words.unitsUnder(Math.ceil(mine.outcome.missingKwh * 10) / 10);
}

const WIDEST_GAP = 50;

/** Lines that say how good the plan is, as far as that is proved; what it costs stays away while the phone is lent out. */
export function proofLines(words: TonightWords, shown: NightShown, yard: Yard): string[] {
  const { proof, score } = shown;
  const more = Math.max(0, score.short - proof.short);
  const served = more === 0 ? words.proof.served : words.proof.perhaps(more);
  return handOver.value ? [served] : [served, ...costLines(words, shown, yard, more)];
}

function costLines(words: TonightWords, shown: NightShown, yard: Yard, more: number): string[] {
  const { proof, score, walked, layout } = shown;
  const lines: string[] = [];
  const { tariff } = layout.night;
  if (tariff.kind === "none") lines.push(words.proof.unpriced);
  else if (tariff.kind === "flatFee")
    lines.push(words.proof.fee(moneyText(score.money, yard), walked.outcomes.filter((one) => one.session).length));
  else lines.push(words.proof.cost(moneyText(score.money, yard)));
  // The bound on money holds among plans that leave equally few short; a wide gap then says nothing of the plan.
  if (tariff.kind !== "none" && more === 0 && proof.money !== null && proof.money > 0) {
    const gap = Math.max(0, score.money / proof.money - 1) * 100;
    if (gap < 0.05) lines.push(words.proof.moneyLeast);
    else if (gap <= WIDEST_GAP) lines.push(words.proof.moneyGap(Math.ceil(gap * 10) / 10));
  }
  return lines;
}

/** A problem of the yard's figures in words; `plateOf` and `socketOf` name what its place means. */
export function problemText(
  words: TonightWords,
  problem: Problem,
  names: { readonly plateOf: (vehicleId: string) => string; readonly socketOf: (socketId: string) => string },
): string {
  const [, id = ""] = problem.where.split(".");
  const of = words.problems;
  switch (problem.code) {
    case "noMeterLimit":
      return of.noMeterLimit;
    case "baseLoadFillsLimit":
      return of.baseLoadFillsLimit(Number(problem.figures?.hour ?? 0));
    case "noSocketFits":
      return of.noSocketFits(names.plateOf(id));
    case "socketFitsNobody":
      return of.socketFitsNobody(names.socketOf(id));
    case "leavesBeforeHome":
      return of.leavesBeforeHome(names.plateOf(id));
    case "noRound":
      return of.noRound(names.plateOf(id));
    case "zoneUnknown":
      return of.zoneUnknown(String(problem.figures?.found ?? ""));
    default:
      return of.other;
  }
}
