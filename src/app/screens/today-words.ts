import type { StripWords } from "../parts/strip-model.js";
import type { Words } from "../words/en.js";
import { joined, plain } from "../words/format.js";
import type { NoPlug, Said, TodayModel, Way } from "./today-model.js";

/** Verdict word and the sentence beside it. */
export function verdictWords(words: Words, said: Said): { word: string; number: string; second: string | null } {
  switch (said.verdict) {
    case "enough":
      if (said.stall)
        return {
          word: words.states.enough,
          number: words.stallLeft(said.stall.hours, said.stall.minutes),
          second: words.kmLeftHome(said.km),
        };
      return { word: words.states.enough, number: words.kmLeftHome(said.km), second: words.badDay(said.badKm) };
    case "tight":
      return { word: words.states.tight, number: words.orKm(said.upKm, said.downKm), second: null };
    case "short":
      return {
        word: words.states.short,
        number: said.km > 0 ? words.shortBy(said.km, said.fromH) : "",
        second: said.badKm > said.km ? words.badDay(said.badKm) : null,
      };
    case "notKnown":
      return { word: words.states.notKnown, number: "", second: notKnownReason(words, said) };
  }
}

function notKnownReason(words: Words, said: Said & { verdict: "notKnown" }): string {
  if (said.why === "round") return words.noRound;
  if (said.why === "band") return words.bandTooWide;
  return said.since === null ? words.nobodyRead : words.nobodyReadSince(said.since);
}

/** The verdict as one spoken sentence. */
export function verdictSentence(words: Words, model: TodayModel): string {
  const { word, number, second } = verdictWords(words, model.said);
  const parts = [words.vehicleNumber(model.plate), word, number, second ?? "", stuckWords(words, model)].filter(
    Boolean,
  );
  return plain(`${parts.join(". ")}.`.replaceAll("..", "."));
}

/** The reading as the dash shows it. */
export function readingFigure(words: Words, model: TodayModel): string | null {
  const reading = model.reading;
  if (!reading) return model.startShare === null ? null : words.percent(Math.round(model.startShare * 100));
  if (reading.kind === "volts") return words.volts(reading.value);
  if (reading.kind === "full") return words.full;
  return reading.kind === "bars" ? words.bars(reading.value) : words.percent(reading.value);
}

function flagOf(words: Words, model: TodayModel): readonly [string, string] | null {
  if (model.lowestH === null) return null;
  const hour = words.lowestAt(model.lowestH);
  const { said } = model;
  if (said.verdict === "enough" && said.stall) return [words.flagStall(said.stall.hours, said.stall.minutes), hour];
  if (said.verdict === "enough") return [words.flagKm(said.km), hour];
  if (said.verdict === "tight") return [words.flagOr(said.upKm), hour];
  if (said.verdict === "short" && said.km > 0) return [words.flagUnder(said.km), hour];
  return null;
}

export function stripWords(words: Words, model: TodayModel): StripWords {
  const figure = readingFigure(words, model);
  const note = model.reading && !model.reading.guess ? words.typedAt(model.reading.hour) : words.guessed;
  const bars = model.bars ? Math.max(1, Math.round(model.reserveShare * model.bars)) : null;
  const flag = flagOf(words, model);
  return {
    whole: [verdictSentence(words, model), flag ? joined(...flag) : "", `${words.sun} ${words.sunKm(model.sunKm)}`]
      .filter(Boolean)
      .join(" "),
    sun: words.sun,
    sunSum: words.sunKm(model.sunKm),
    line: bars === null ? words.line(Math.round(model.reserveShare * 100)) : words.lineBars(bars),
    start: figure === null ? null : [figure, model.saysLittle ? words.voltsSayLittle : note],
    flag,
  };
}

/** The hill that ends the day, in a sentence; "" where none does. */
export const stuckWords = (words: Words, { hill }: TodayModel): string =>
  hill?.problem === "tooSteep" || hill?.problem === "noSuchRoad" ? hillWords(words, hill) : "";

/** A hill that does not go as planned, in a sentence. */
export function hillWords(words: Words, hill: NonNullable<TodayModel["hill"]>): string {
  const name = hill.name || words.aHill;
  if (hill.problem === "noSuchRoad") return words.noSuchRoad(name);
  if (hill.problem === "tooSteep") return words.tooSteep(name);
  return hill.problem === "slower" ? words.slowHill(name, hill.kmh) : words.hotHill(name);
}

/** What a way out is called, why, and what it brings. */
export function wayWords(
  words: Words,
  way: Way,
  noPlug: NoPlug | null,
): { title: string; sub: string; brings: string } {
  if (way.kind === "plug")
    return {
      title: words.plugFromTo(way.fromH, way.toH),
      sub: words.thenEnough,
      brings: way.gainKm > 0 ? words.gain(way.gainKm) : "",
    };
  return { title: words.leaveOut(way.km), sub: noPlug ? words.noPlug[noPlug] : words.leaveOutWhich, brings: "" };
}
