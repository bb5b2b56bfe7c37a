import { type CivilDate, daysBetween } from "../../units/zone.js";

/** What a person typed of a day, plain. Null = not typed. */
export interface EntryTyped {
  readonly date: CivilDate;
  readonly enteredUtcMs: number;
  readonly km: number | null;
  readonly odometerKm: number | null;
  readonly gauge: {
    readonly kind: "percent" | "bars" | "volts" | "full";
    readonly value: number;
    readonly perBlock: boolean;
  } | null;
  readonly gridKwh: number | null;
  readonly sunKwh: number | null;
}

/** What is on record about the vehicle, as far as it can contradict an entry. */
export interface EntryPast {
  /** The day on the yard's clock when it was typed. */
  readonly today: CivilDate;
  /** Middle of the last days, else the round's; null when neither is known. */
  readonly usualKm: number | null;
  readonly lastOdometer: { readonly date: CivilDate; readonly km: number } | null;
  readonly alreadyWritten: boolean;
  readonly lastEnteredUtcMs: number | null;
  readonly bars: number | null;
  /** Of the whole set, and of one block of it (6 cells of lead, or 4 of lithium: "12 V"). */
  readonly setNominalV: number;
  readonly blocks: number;
  readonly usableWh: number;
  readonly roofRatedW: number;
  /** Level that was to be expected at home, with its spread. */
  readonly expectedLevel: { readonly share: number; readonly sdShare: number } | null;
  /** Level that the typed gauge stands for; null when it says nothing. */
  readonly typedLevel: number | null;
}

export type EntryField = "date" | "km" | "odometerKm" | "level" | "gridKwh" | "sunKwh";
export type QuestionCode =
  | "negative"
  | "tenTimes" // a nought or a point too many or too few
  | "farFromUsual"
  | "odometerBack" // less than last time: a slip, or a new odometer
  | "odometerReplaced"
  | "odometerAndKmDiffer"
  | "twoEntries"
  | "clockBack"
  | "dayToCome"
  | "oneBlock" // volts of a block where the set was meant
  | "wholeSet"
  | "voltsOutOfRange"
  | "barsOutOfRange"
  | "percentOutOfRange"
  | "moreThanTheSetHolds"
  | "moreThanTheRoofGives"
  | "gaugeNotExpected";

/** Something typed that may be a slip. Nothing is changed or dropped: the person picks `likely`, keeps the value, or types it anew. */
export interface Question {
  readonly field: EntryField;
  readonly code: QuestionCode;
  readonly typed: number | null;
  /** What was probably meant; null when nothing better is known. */
  readonly likely: number | null;
}

/** Questions about an entry, most telling first; empty when it fits what is on record. */
export function checkEntry(typed: EntryTyped, past: EntryPast): readonly Question[] {
  return [
    ...aboutDate(typed, past),
    ...aboutKm(typed, past),
    ...aboutOdometer(typed, past),
    ...aboutGauge(typed, past),
    ...aboutUnits(typed, past),
  ];
}

function aboutDate(typed: EntryTyped, past: EntryPast): Question[] {
  const questions: Question[] = [];
  const ask = (code: QuestionCode) => questions.push({ field: "date", code, typed: null, likely: null });
  if (past.alreadyWritten) ask("twoEntries");
  if (daysBetween(past.today, typed.date) > 0) ask("dayToCome");
  if (past.lastEnteredUtcMs !== null && typed.enteredUtcMs < past.lastEnteredUtcMs - CLOCK_SLACK_MS) ask("clockBack");
  return questions;
}
/** Two phones seldom agree to the minute; an hour back is another clock. */
const CLOCK_SLACK_MS = 3_600_000;

/** Ten times or a tenth of the usual, within what days differ by. */
function slipOfTen(value: number, usual: number): number | null {
  for (const meant of [value / 10, value * 10]) if (meant > usual / 1.8 && meant < usual * 1.8) return meant;
  return null;
}
/** A day this many times longer or shorter than usual is asked about. Common practice, no source. */
const FAR = 2.2;

function aboutKm({ km }: EntryTyped, { usualKm }: EntryPast): Question[] {
  if (km === null) return [];
  const ask = (code: QuestionCode, likely: number | null): Question[] => [{ field: "km", code, typed: km, likely }];
  if (km < 0) return ask("negative", -km);
  if (usualKm === null || usualKm <= 0 || km === 0) return [];
  if (km < usualKm * FAR && km > usualKm / FAR) return [];
  const meant = slipOfTen(km, usualKm);
  return meant === null ? ask("farFromUsual", turnedRound(km, usualKm)) : ask("tenTimes", meant);
}

/** 84 for 48: the two figures swapped, if that fits the usual day. */
function turnedRound(km: number, usualKm: number): number | null {
  if (!Number.isInteger(km) || km < 10 || km > 99) return null;
  const turned = (km % 10) * 10 + Math.floor(km / 10);
  return turned < usualKm * 1.5 && turned > usualKm / 1.5 ? turned : null;
}

const MOST_KM_A_DAY = 300;

function aboutOdometer({ odometerKm, km, date }: EntryTyped, { lastOdometer, usualKm }: EntryPast): Question[] {
  if (odometerKm === null) return [];
  const ask = (code: QuestionCode, likely: number | null): Question[] => [
    { field: "odometerKm", code, typed: odometerKm, likely },
  ];
  if (odometerKm < 0) return ask("negative", -odometerKm);
  if (lastOdometer === null) return [];
  const days = daysBetween(lastOdometer.date, date);
  if (days < 0) return [];
  const ran = odometerKm - lastOdometer.km;
  const dayKm = km ?? usualKm ?? 60;
  const likely = lastOdometer.km + dayKm * Math.max(1, days);
  if (ran < 0)
    return odometerKm < lastOdometer.km / 4 && odometerKm < 5000
      ? ask("odometerReplaced", null)
      : ask("odometerBack", likely);
  if (ran > MOST_KM_A_DAY * Math.max(1, days)) {
    const tenth = odometerKm / 10;
    const meant = Math.abs(tenth - likely) < 0.02 * likely + 100 ? tenth : likely;
    return ask(meant === tenth ? "tenTimes" : "farFromUsual", meant);
  }
  if (days === 1 && km !== null && km > 0 && Math.abs(ran - km) > 5 + 0.25 * Math.max(ran, km))
    return ask("odometerAndKmDiffer", lastOdometer.km + km);
  return [];
}

function aboutGauge({ gauge }: EntryTyped, past: EntryPast): Question[] {
  if (gauge === null || gauge.kind === "full") return [];
  const ask = (code: QuestionCode, likely: number | null): Question[] => [
    { field: "level", code, typed: gauge.value, likely },
  ];
  const { value } = gauge;
  if (value < 0) return ask("negative", -value);
  if (gauge.kind === "percent" && value > 100) return ask("percentOutOfRange", value <= 1000 ? value / 10 : null);
  if (gauge.kind === "bars" && past.bars !== null && value > past.bars)
    return ask("barsOutOfRange", value <= 10 * past.bars && value % 10 === 0 ? value / 10 : null);
  if (gauge.kind === "volts") {
    const asked = aboutVolts(value, gauge.perBlock, past);
    if (asked.length > 0) return asked;
  }
  return unexpected(gauge.value, past);
}

/** A block or set at rest lies within a fifth under and a quarter over its nominal volts (flat lead-acid to just off the charger). */
const voltsFit = (value: number, nominalV: number): boolean => value > nominalV * 0.8 && value < nominalV * 1.25;

function aboutVolts(value: number, perBlock: boolean, past: EntryPast): Question[] {
  const blockV = past.setNominalV / past.blocks;
  const [meant, other] = perBlock ? [blockV, past.setNominalV] : [past.setNominalV, blockV];
  if (voltsFit(value, meant)) return [];
  const code: QuestionCode = !voltsFit(value, other) ? "voltsOutOfRange" : perBlock ? "wholeSet" : "oneBlock";
  const scaled = perBlock ? value / past.blocks : value * past.blocks;
  const likely =
    code === "voltsOutOfRange" ? ([value / 10, value * 10].find((v) => voltsFit(v, meant)) ?? null) : scaled;
  return [{ field: "level", code, typed: value, likely }];
}

/** Further from what was to be expected than this many standard deviations. */
const UNEXPECTED_SD = 3.5;
const GAUGE_SD = 0.06;

function unexpected(value: number, { expectedLevel, typedLevel }: EntryPast): Question[] {
  if (expectedLevel === null || typedLevel === null) return [];
  const sd = Math.hypot(expectedLevel.sdShare, GAUGE_SD);
  if (Math.abs(typedLevel - expectedLevel.share) < UNEXPECTED_SD * sd) return [];
  return [{ field: "level", code: "gaugeNotExpected", typed: value, likely: null }];
}

/** Units a charge can take from the meter for each unit the set holds: charger and set lose up to a third. */
const GRID_PER_SET = 1.5;
/** Hours of full sun on the best day. */
const SUN_HOURS = 9;

function aboutUnits({ gridKwh, sunKwh }: EntryTyped, past: EntryPast): Question[] {
  const over = (field: "gridKwh" | "sunKwh", value: number | null, mostKwh: number, code: QuestionCode): Question[] => {
    if (value === null) return [];
    if (value < 0) return [{ field, code: "negative", typed: value, likely: -value }];
    if (value <= mostKwh) return [];
    const tenth = value / 10 <= mostKwh ? value / 10 : value / 1000 <= mostKwh ? value / 1000 : null;
    return [{ field, code, typed: value, likely: tenth }];
  };
  return [
    ...over("gridKwh", gridKwh, (GRID_PER_SET * past.usableWh) / 1000, "moreThanTheSetHolds"),
    ...over("sunKwh", sunKwh, (SUN_HOURS * past.roofRatedW) / 1000, "moreThanTheRoofGives"),
  ];
}
