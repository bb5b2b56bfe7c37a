import type { DayAnswer, SegmentShown } from "../../calc/day/answer.js";
import { socketsOnTheWay } from "../../calc/day/shown.js";
import type { Reading, RoundPart } from "../../records/index.js";
import { shiftPlanOf } from "../../records/map/shift-plan.js";
import { wordOf } from "../../records/map/sky-word.js";
import { HOUR_MS } from "../../units/numbers.js";
import { civilDate, minuteOfDay, utcMsAt } from "../../units/zone.js";
import type { Answered, Case } from "../answers.js";
import { kmLeft, kmMissing, tenMinutes } from "../parts/rounding.js";
import { levelAt, type RoadBlock, type StripModel } from "../parts/strip-model.js";
import { figures } from "../words/format.js";
import type { NoPlug, RoadClass, Said, TodayModel, Way } from "./today-model.js";

/** The one place where the calculation's answer becomes what Today shows. `leaveOutKm`: km to leave out for the day to be enough, once they are known. */
export function todayModelOf(
  { case: asked, answer }: Answered,
  nowUtcMs: number,
  leaveOutKm: number | null = null,
): TodayModel {
  const { vehicle, yard, date } = asked;
  const hour = hoursFrom(utcMsAt(date, 0, yard.zone));
  const reading = latestReading(asked.readings, answer);
  const plan = shiftPlanOf(vehicle, asked.rounds, asked.shifts, date);
  const drawn = answer.leaveUtcMs === null ? null : stripOf(answer, asked, nowUtcMs);
  const shift = asked.shifts.find((one) => one.date === date);
  const sky = wordOf(asked.skies.find((one) => one.date === date));
  return {
    vehicleId: vehicle.id,
    plate: vehicle.plate,
    name: vehicle.name,
    date,
    nowH: hour(nowUtcMs),
    said: saidOf(answer, hour, asked),
    guess: (vehicle.learned?.days ?? 0) < DAYS_UNTIL_KNOWN,
    usualDay: plan !== null && shift === undefined,
    gaugeKind: vehicle.gauge.kind,
    reading: reading && {
      kind: reading.kind,
      value: reading.value,
      hour: typedHour(reading, asked, nowUtcMs),
      guess: isGuess(reading),
    },
    startShare: answer.missing.includes("reading") ? null : answer.start.p50,
    sky: sky ?? "usual",
    load: shift?.loadClass ?? vehicle.usual.loadClass,
    road: plan ? roadClassOf(plan.round.parts) : "flat",
    strip: drawn,
    sunKm: answer.whPerKm > 0 ? kmLeft(answer.sunTaken.p50 / answer.whPerKm) : 0,
    sunKmPerShare: answer.whPerKm > 0 ? tallestHourWh(asked, answer) / answer.whPerKm : 0,
    reserveShare: answer.reserveShare,
    bars: vehicle.gauge.kind === "bars" ? vehicle.gauge.bars : null,
    saysLittle: answer.readingDoubt === "voltsSayLittle",
    lowestH: drawn?.lowest ? tenMinutes(drawn.lowest.hour) : null,
    out: isOut(answer, nowUtcMs),
    tooCold: answer.topUp.code === "cannotCharge",
    hill: hillOf(answer, nowUtcMs),
    sockets: socketsOnTheWay(answer, nowUtcMs),
    ways: waysOf(answer, { asked, hour, leaveOutKm }),
    noPlug: noPlugOf(answer),
  };
}

const DAYS_UNTIL_KNOWN = 10;
const hoursFrom = (zeroUtcMs: number) => (utcMs: number) => (utcMs - zeroUtcMs) / HOUR_MS;
/** A start that the app assumed for the first answer, before anybody read a gauge. */
const GUESSED = /\/guess$/;
const isGuess = (reading: Reading): boolean => GUESSED.test(reading.id);
export const guessedFull = (vehicleId: string, atUtcMs: number): Reading => ({
  id: `${vehicleId}/guess`,
  v: 1,
  vehicleId,
  atUtcMs,
  kind: "full",
  value: 100,
  restedMin: null,
  perBlock: false,
});

function latestReading(readings: readonly Reading[], answer: DayAnswer): Reading | null {
  const usable = readings.filter((reading) => reading.atUtcMs <= answer.fromUtcMs + HOUR_MS);
  const last = usable.reduce<Reading | null>((a, b) => (a && a.atUtcMs >= b.atUtcMs ? a : b), null);
  return answer.missing.includes("reading") ? null : last;
}

/** Hour of a reading, when it was not just now. */
function typedHour(reading: Reading, asked: Case, nowUtcMs: number): number | null {
  if (nowUtcMs - reading.atUtcMs < HOUR_MS / 3) return null;
  return minuteOfDay(reading.atUtcMs, asked.yard.zone) / 60;
}

function saidOf(answer: DayAnswer, hour: (utcMs: number) => number, asked: Case): Said {
  const { p10, p50 } = answer.kmLeft;
  switch (answer.verdict) {
    case "enough":
      return { verdict: "enough", km: kmLeft(p50), badKm: kmLeft(p10), stall: stallOf(answer) };
    case "tight":
      return { verdict: "tight", upKm: kmLeft(p50), downKm: kmMissing(-p10) };
    case "short": {
      const below = answer.belowReserveUtcMs;
      const fromH = below === null ? null : tenMinutes(hour(below), "back");
      if (answer.stuck && p50 >= 0) return { verdict: "short", km: 0, badKm: 0, fromH }; // the hill, not the charge
      return { verdict: "short", km: kmMissing(-p50), badKm: kmMissing(-p10), fromH };
    }
    case "notKnown": {
      if (answer.missing.includes("round")) return { verdict: "notKnown", why: "round", since: null };
      if (!answer.missing.includes("reading")) return { verdict: "notKnown", why: "band", since: null };
      const seen = asked.readings.filter((reading) => !isGuess(reading)).map((reading) => reading.atUtcMs);
      const since = seen.length > 0 ? civilDate(Math.max(...seen), asked.yard.zone) : null;
      return { verdict: "notKnown", why: "gauge", since };
    }
  }
}

/** Hours of stall left, down to ten minutes. */
function stallOf(answer: DayAnswer): { hours: number; minutes: number } | null {
  if (!answer.hoursLeft) return null;
  const tenths = Math.floor(answer.hoursLeft.p50 * 6 + 1e-6);
  return { hours: Math.floor(tenths / 6), minutes: (tenths % 6) * 10 };
}

const WORST_FIRST = ["noSuchRoad", "tooSteep", "hot30min", "slower"] as const;
/** A leg a little slower than planned is no news; one that makes the day late is. */
const LATE_MIN = 10;
/** The worst leg ahead that does not go as the round says. */
export function hillOf({ legNotes, lateMinutes }: DayAnswer, nowUtcMs: number): TodayModel["hill"] {
  const ahead = legNotes.filter((note) => note.untilUtcMs > nowUtcMs);
  const told = ahead.filter((note) => note.problem !== "slower" || lateMinutes >= LATE_MIN);
  const worst = WORST_FIRST.flatMap((problem) => told.filter((note) => note.problem === problem))[0];
  return worst ? { problem: worst.problem, name: worst.label, kmh: Math.floor(worst.speedKmh) } : null;
}

/** Metres of climb per km: what people call flat, some hills, hills. Common practice, no source. */
const SOME_HILLS_M_PER_KM = 6;
const HILLS_M_PER_KM = 18;
export function roadClassOf(parts: readonly RoundPart[]): RoadClass {
  const legs = parts.filter((part) => part.kind === "leg");
  const km = legs.reduce((total, leg) => total + leg.km, 0);
  const climb = legs.reduce((total, leg) => total + leg.climbM, 0);
  const perKm = km > 0 ? climb / km : 0;
  return perKm < SOME_HILLS_M_PER_KM ? "flat" : perKm < HILLS_M_PER_KM ? "some" : "hills";
}

/** Wh that the tallest hour of the year could bring: the rated roof less heat and losses, never less than today's clear hours. */
function tallestHourWh(asked: Case, answer: DayAnswer): number {
  const ratedW = asked.vehicle.roof.faces.reduce((total, face) => total + face.ratedW, 0);
  return Math.max(1, 0.75 * ratedW, ...answer.sunHours.map((one) => one.openSkyWh));
}

const HALF_HOUR = 0.5;
const SHORTEST_STRIP_H = 6;
/** At the very left the pole of now would stand in the words. */
const NOW_FROM_EDGE_H = 0.25;

/** True from leaving to coming home. */
export const isOut = (answer: DayAnswer, nowUtcMs: number): boolean =>
  answer.leaveUtcMs !== null && nowUtcMs > answer.leaveUtcMs && nowUtcMs < (answer.homeUtcMs ?? 0);

/** The picture of an answer. */
export function stripOf(answer: DayAnswer, asked: Case, nowUtcMs: number): StripModel {
  const hour = hoursFrom(utcMsAt(asked.date, 0, asked.yard.zone));
  const at = answer.lines.atUtcMs.map(hour);
  const leaveH = hour(answer.leaveUtcMs ?? answer.fromUtcMs);
  const homeH = hour(answer.homeUtcMs ?? answer.fromUtcMs);
  const fromH = Math.max(at[0] ?? 0, leaveH - HALF_HOUR);
  const toH = Math.min(at.at(-1) ?? 24, Math.max(homeH + 1.5, fromH + SHORTEST_STRIP_H));
  const hours = [fromH, ...at.filter((one) => one > fromH + 1e-6 && one < toH - 1e-6), toH];
  const cut = (line: readonly number[]) => hours.map((one) => levelAt(at, line, one));
  const tallest = tallestHourWh(asked, answer);
  const nowH = hour(nowUtcMs);
  return {
    fromH,
    toH,
    nowH: nowH > fromH + NOW_FROM_EDGE_H && nowH < toH ? nowH : null,
    known: answer.verdict !== "notKnown",
    reserve: answer.reserveShare,
    hours,
    low: cut(answer.lines.p10),
    mid: cut(answer.lines.p50),
    high: cut(answer.lines.p90),
    sun: answer.sunHours.map((one) => ({
      hour: Math.round(hour(one.fromUtcMs)),
      offered: Math.max(one.offeredWh, one.takenWh) / tallest,
      taken: one.takenWh / tallest,
    })),
    road: roadOf(answer.segments, hour, nowH, asked),
    lowest: { hour: hour(answer.lowestAtUtcMs), level: answer.lowest.p50 },
    bars: asked.vehicle.gauge.kind === "bars" ? asked.vehicle.gauge.bars : null,
  };
}

const LONG_STOP_H = 0.75;

/** Legs and short stops join into rounds; long stops are parking, in the sun or not; a vendor's stops are the stall. */
function roadOf(
  segments: readonly SegmentShown[],
  hour: (utcMs: number) => number,
  nowH: number,
  asked: Case,
): RoadBlock[] {
  const vendor = asked.vehicle.class === "vendingCart";
  const blocks: RoadBlock[] = [];
  let open: { fromH: number; toH: number; names: string[]; posts: number[] } | null = null;
  const close = () => {
    if (open) {
      blocks.push({ kind: "round", ...open, done: open.toH <= nowH });
    }
    open = null;
  };
  for (const segment of segments) {
    const fromH = hour(segment.fromUtcMs);
    const toH = hour(segment.toUtcMs);
    const standing = segment.kind !== "drive" && (segment.kind === "plug" || toH - fromH >= LONG_STOP_H);
    if (!segment.onShift || standing) {
      close();
      const kind =
        segment.kind === "plug" ? "plug" : segment.onShift && vendor ? "stall" : segment.inSun ? "sunRail" : "rail";
      blocks.push({ kind, fromH, toH, names: [segment.label], posts: [], done: toH <= nowH });
    } else if (segment.kind === "drive") {
      open ??= { fromH, toH, names: [], posts: [] };
      open.toH = toH;
      if (segment.label) open.names.push(segment.label);
    } else {
      open ??= { fromH, toH, names: [], posts: [] };
      open.posts.push((fromH + toH) / 2);
      if (segment.label) open.names.push(segment.label);
      open.toH = toH;
    }
  }
  close();
  return withShortNames(blocks);
}

const firstWord = (name = ""): string => name.split(/[\s,]/)[0] ?? "";

/** Names for a round's block, longest first: the first name on it, its first word unless another block begins alike, then its number. */
function withShortNames(blocks: readonly RoadBlock[]): RoadBlock[] {
  const rounds = blocks.filter((block) => block.kind === "round");
  return blocks.map((block) => {
    const at = rounds.indexOf(block);
    if (at < 0) return block;
    const [name = ""] = block.names;
    const word = firstWord(name);
    const alike = rounds.some(({ names }) => names[0] !== name && firstWord(names[0]) === word);
    const names = [name, alike ? "" : word, figures(at + 1)].filter(Boolean);
    return { ...block, names: [...new Set(names)] };
  });
}

const noPlugOf = ({ stuck, topUp: { code } }: DayAnswer): NoPlug | null =>
  !stuck && (code === "fullNotEnough" || code === "noTime") ? code : null;

/** Ways out of a short or tight day: the least plug that makes it enough, or fewer km. */
function waysOf(
  answer: DayAnswer,
  {
    asked,
    hour,
    leaveOutKm,
  }: { readonly asked: Case; readonly hour: (utcMs: number) => number; readonly leaveOutKm: number | null },
): Way[] {
  const { topUp } = answer;
  if (answer.stuck || (answer.verdict !== "tight" && answer.verdict !== "short")) return [];
  const ways: Way[] = [];
  if (topUp.code === "needed" && topUp.latestPlugInUtcMs !== null) {
    const fromH = hour(topUp.latestPlugInUtcMs);
    const gainWh = topUp.gridKwh * 1000 * asked.vehicle.charger.efficiency;
    ways.push({
      kind: "plug",
      fromH: tenMinutes(fromH, "back"),
      toH: tenMinutes(fromH + topUp.chargeMinutes / 60, "on"),
      gainKm: kmLeft(gainWh / Math.max(1, answer.whPerKm)),
    });
  }
  if (leaveOutKm !== null) ways.push({ kind: "leaveOut", km: leaveOutKm });
  return ways;
}
