import type { Band, DayAnswer } from "../../calc/day/answer.js";
import type { VehicleLearned } from "../../calc/learn/parts.js";
import { placeOf } from "../../calc/learn/parts.js";
import { pinballLoss } from "../../calc/learn/score.js";
import { clamp } from "../../units/numbers.js";
import { type CivilDate, plusDays, utcMsAt } from "../../units/zone.js";
import type { Entry, Forecast, Said, ScoreSums, Vehicle, Yard } from "../index.js";
import { gaugeOf } from "./learn-events.js";

/** Levels of the quantiles that a forecast is kept with. */
export const SAID_LEVELS = [0.05, 0.1, 0.5, 0.9, 0.95] as const;

const listed = ({ p05, p10, p50, p90, p95 }: Band): number[] =>
  [p05, p10, p50, p90, p95].map((level) => Math.round(clamp(level, -5, 5) * 1e4) / 1e4);

/** What is kept of an answer, to be held against the day once it was lived. */
export function saidOf(answer: DayAnswer, madeUtcMs: number, days: number): Said {
  return {
    madeUtcMs,
    days,
    verdict: answer.verdict,
    chance: answer.chance,
    reserveShare: answer.reserveShare,
    home: listed(answer.home),
    lowest: listed(answer.lowest),
    kmPerSet: answer.whPerKm > 0 ? Math.round(Math.min(10_000, answer.usableWh / answer.whPerKm) * 10) / 10 : 0,
  };
}

/** A day as it was forecast and as it was lived. */
export interface LivedDay {
  readonly date: CivilDate;
  readonly when: "evening" | "first";
  readonly said: Said;
  /** Level on coming home by the gauge, its learned error taken off; a share of a full set. */
  readonly homeShare: number;
  /** Lived less likely: below 0 it came home with less than was said. */
  readonly offShare: number;
  readonly offKm: number;
}

export interface LivedCase {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly entries: readonly Entry[];
  readonly forecasts: readonly Forecast[];
  readonly learned: VehicleLearned | null;
}

/**
 * Days with a forecast and a gauge on coming home, oldest first. Of a day the forecast made first on it counts; that of the evening before only
 * where it was not plugged in after it, as nobody forecast what the plug would give.
 */
export function livedDays({ vehicle, yard, entries, forecasts, learned }: LivedCase): readonly LivedDay[] {
  const byDate = new Map(entries.map((entry) => [entry.date, entry]));
  return [...forecasts]
    .sort((a, b) => (a.date < b.date ? -1 : 1))
    .flatMap(({ date, evening, first }) => {
      const level = byDate.get(date)?.level;
      const read = level && gaugeOf(vehicle, { ...level, restedMin: 30, atUtcMs: utcMsAt(date, 0, yard.zone) });
      if (!read) return [];
      const night = byDate.get(plusDays(date, -1));
      const unplugged = night !== undefined && night.pluggedAt === null && !night.gridKwh;
      const said = known(first) ?? (unplugged ? known(evening) : null);
      if (!said) return [];
      const homeShare = read.full ? read.share : trueShare(read.share, learned);
      const offShare = homeShare - (said.home[2] as number);
      const when = said === first ? ("first" as const) : ("evening" as const);
      return [{ date, when, said, homeShare, offShare, offKm: offShare * said.kmPerSet }];
    });
}

const known = (said: Said | null): Said | null => (said && said.verdict !== "notKnown" ? said : null);

/** The level behind what the gauge shows, by the offset and scale learned of it. */
function trueShare(shown: number, learned: VehicleLearned | null): number {
  if (!learned?.on) return shown;
  const at = (part: "gaugeOffset" | "gaugeScale") => learned.belief.mean[placeOf(part)] as number;
  return clamp((shown - at("gaugeOffset")) / Math.exp(at("gaugeScale")), 0, 1);
}

export const isInside80 = ({ said, homeShare }: LivedDay): boolean =>
  homeShare >= (said.home[1] as number) && homeShare <= (said.home[3] as number);
const isInside90 = ({ said, homeShare }: LivedDay): boolean =>
  homeShare >= (said.home[0] as number) && homeShare <= (said.home[4] as number);

/** How good the forecasts of these days were; null when there are none. Sums, so that those of several vehicles add up. */
export function scoreOf(days: readonly LivedDay[]): ScoreSums | null {
  if (days.length === 0) return null;
  const sum = (of: (day: LivedDay) => number) =>
    Math.round(days.reduce((total, day) => total + of(day), 0) * 1e4) / 1e4;
  const count = (of: (day: LivedDay) => boolean) => days.filter(of).length;
  const isShort = ({ said, homeShare }: LivedDay) => homeShare < said.reserveShare;
  return {
    days: days.length,
    inside80: count(isInside80),
    inside90: count(isInside90),
    pinball: sum(
      ({ said, homeShare }) =>
        SAID_LEVELS.reduce((loss, level, l) => loss + pinballLoss(level, said.home[l] as number, homeShare), 0) /
        SAID_LEVELS.length,
    ),
    off: sum(({ offShare }) => Math.abs(offShare)),
    offKm: sum(({ offKm }) => Math.abs(offKm)),
    missedShort: count((day) => isShort(day) && day.said.verdict === "enough"),
    falseAlarms: count((day) => !isShort(day) && day.said.verdict === "short"),
  };
}

/** Scores of several vehicles together; null when none has any. */
export function sumOfScores(scores: readonly (ScoreSums | null)[]): ScoreSums | null {
  const found = scores.filter((score) => score !== null);
  const [first] = found;
  if (!first) return null;
  const fields = Object.keys(first) as (keyof ScoreSums)[];
  return Object.fromEntries(
    fields.map((field) => [field, found.reduce((total, score) => total + score[field], 0)]),
  ) as unknown as ScoreSums;
}
