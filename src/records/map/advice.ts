import type { BreakInputs } from "../../calc/day/advice.js";
import type { DayInput } from "../../calc/day/input.js";
import type { DaySegment } from "../../calc/day/segments.js";
import { sunInstant } from "../../calc/sun/index.js";
import { HOUR_MS } from "../../units/numbers.js";
import { civilDate } from "../../units/zone.js";
import type { LegPart, LoadClass, Round } from "../index.js";
import { answerInputOf } from "./answer-input.js";
import { planNow, withBreakNow } from "./break.js";
import { type DayCase, parked } from "./day.js";
import { siteOf } from "./place.js";
import { runShift } from "./shift.js";
import { skiesByDate, wetOn } from "./weather.js";

/** A break from now on, on a socket of so many kW or in the light of the place. */
export interface BreakAsk {
  readonly minutes: number;
  readonly socketKw: number;
}

/** The day with a plug, a wait in the sun, the same wait in deep shade, and as it is; null when no round is known. */
export function breakInputsOf(given: DayCase, ask: BreakAsk): BreakInputs | null {
  const plan = planNow(given);
  if (!plan) return null;
  const pause = (shade: "open" | "deep", socketKw: number | null) =>
    answerInputOf(withBreakNow(given, plan, { minutes: ask.minutes, shade, socketKw, name: "" }));
  return {
    plug: pause("open", ask.socketKw),
    wait: pause("open", null),
    shade: pause("deep", null),
    go: answerInputOf(given),
    nowUtcMs: given.nowUtcMs,
    minutes: ask.minutes,
  };
}

/** The day as asked about, ending in a way out and back that turns at some km; what is dark or wet of it makes the way shorter. */
export interface TurnCase {
  readonly inputTo: (turnKm: number) => DayInput;
  readonly wet: boolean;
  readonly darkAt: (turnKm: number) => boolean;
}

/** Out and back from now on with the legs and the rain of the day and what is on board now; null when no round is known. */
export function turnCaseOf(given: DayCase, outKm: number): TurnCase | null {
  const plan = planNow(given);
  const leg = plan && meanLeg(plan.round);
  if (!plan || !leg) return null;
  const { yard, vehicle, nowUtcMs } = given;
  const date = civilDate(nowUtcMs, yard.zone);
  const day = answerInputOf({ ...given, plugs: [] });
  const ground = { yard, vehicle, skies: skiesByDate(given.skies, yard.id) };
  const before = day.segments.flatMap((segment) => until(segment, nowUtcMs));
  const loadKg = day.segments.find((segment) => isAt(segment, nowUtcMs) && segment.onShift)?.payloadKg ?? plan.loadKg;
  const run = (turnKm: number) => {
    const parts = [ofKm(leg, turnKm - outKm), ofKm({ ...leg, climbM: leg.dropM, dropM: leg.climbM }, turnKm)];
    const round = { ...plan.round, parts: parts.filter((part) => part.km > 0) };
    return runShift({ date, round, loadKg, leaveMinute: 0 }, ground, nowUtcMs);
  };
  return {
    inputTo: (turnKm) => {
      const { segments, homeUtcMs } = run(Math.max(turnKm, LEAST_KM));
      // the book counts from now on, also where the day asked about is tomorrow
      return {
        ...day,
        dayFromUtcMs: nowUtcMs,
        segments: [...before, ...segments, ...parked(homeUtcMs, homeUtcMs + HOUR_MS, ground)],
      };
    },
    wet: wetOn(ground.skies, date),
    darkAt: (turnKm) => {
      const { homeUtcMs } = run(Math.max(turnKm, LEAST_KM));
      return [nowUtcMs, homeUtcMs].some((at) => sunInstant(at, siteOf(yard), day.sky.linkeTurbidity) === null);
    },
  };
}

/** A way of no length has no drive to draw. */
const LEAST_KM = 0.01;

const isAt = ({ fromUtcMs, toUtcMs }: DaySegment, utcMs: number): boolean => fromUtcMs <= utcMs && utcMs < toUtcMs;

const until = (segment: DaySegment, utcMs: number): DaySegment[] => {
  const toUtcMs = Math.min(segment.toUtcMs, utcMs);
  if (toUtcMs <= segment.fromUtcMs) return [];
  const share = (toUtcMs - segment.fromUtcMs) / (segment.toUtcMs - segment.fromUtcMs);
  return [{ ...segment, toUtcMs, km: segment.km * share, onShift: false }];
};

/** One kilometre of the round: the ground of its longest leg, pace, climb and stops of all of them. */
function meanLeg(round: Round): LegPart | null {
  const legs = round.parts.filter((part): part is LegPart => part.kind === "leg" && part.km > 0);
  const km = legs.reduce((sum, leg) => sum + leg.km, 0);
  const longest = legs.reduce<LegPart | null>((most, leg) => (most && most.km >= leg.km ? most : leg), null);
  if (!longest) return null;
  const mean = (of: (leg: LegPart) => number) => legs.reduce((sum, leg) => sum + of(leg), 0) / km;
  return {
    ...longest,
    km: 1,
    minutes: mean((leg) => leg.minutes),
    climbM: mean((leg) => leg.climbM),
    dropM: mean((leg) => leg.dropM),
    stopsPerKm: mean((leg) => leg.stopsPerKm * leg.km),
    headingDeg: null,
  };
}

const ofKm = (leg: LegPart, km: number): LegPart => ({
  ...leg,
  km,
  minutes: leg.minutes * km,
  climbM: leg.climbM * km,
  dropM: leg.dropM * km,
});

/** The same day with less on board from the start of it. */
export const lighterInputOf = (given: DayCase, loadClass: LoadClass): DayInput =>
  answerInputOf({
    ...given,
    vehicle: { ...given.vehicle, usual: { ...given.vehicle.usual, loadClass } },
    shifts: given.shifts.map((shift) =>
      shift.vehicleId === given.vehicle.id && shift.date === given.date ? { ...shift, loadKg: null, loadClass } : shift,
    ),
  });

/** What is on board by class, or null when kg were typed that no class names. */
export function loadClassNow(given: DayCase): LoadClass | null {
  const shift = given.shifts.find((one) => one.vehicleId === given.vehicle.id && one.date === given.date);
  if (!shift) return given.vehicle.usual.loadClass;
  return shift.loadKg === null ? shift.loadClass : null;
}
