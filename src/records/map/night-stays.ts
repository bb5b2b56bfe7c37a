import { storeModel } from "../../calc/battery/index.js";
import type { DayAnswer } from "../../calc/day/answer.js";
import type { DayInput } from "../../calc/day/input.js";
import { planDay } from "../../calc/day/plan-day.js";
import type { Span, Stay } from "../../calc/yard/night.js";
import { clamp, DAY_MS } from "../../units/numbers.js";
import type { Problem } from "../../units/outcome.js";
import { plusDays, utcMsAt } from "../../units/zone.js";
import type { NightEvent, NightRecord, Reading, Round, Shift, Sky, Socket, Vehicle, Yard } from "../index.js";
import { batteryOf } from "./battery.js";
import { dayInputOf, fullDue } from "./day.js";
import { levelBeforeCharge, type SeenLevel } from "./night-reading.js";
import { type MeterScale, meterScaleOf } from "./night-units.js";
import { endOf, type NightWindow, roundedDown, roundedUp, SLOT_MS } from "./night-yard.js";
import { plugKind } from "./plug.js";
import { type Ground, runShift, type ShiftPlan, shiftPlansOf } from "./shift.js";
import { startLevelOf } from "./start.js";
import { nightCellC, skiesByDate } from "./weather.js";

/** What a yard's night stands on. */
export interface NightCase {
  readonly yard: Yard;
  readonly sockets: readonly Socket[];
  readonly vehicles: readonly Vehicle[];
  readonly rounds: readonly Round[];
  readonly shifts: readonly Shift[];
  readonly skies: readonly Sky[];
  readonly readings: readonly Reading[];
  readonly nowUtcMs: number;
  /** The plan people already follow, with what turned out otherwise. */
  readonly followed: NightRecord | null;
  readonly draws?: number;
  /** Level at which a visit ended under a plan, by stay: what the next visit of the same vehicle begins from. */
  readonly leftAt?: Readonly<Record<string, number>>;
}

/** The hours of the night and when the supply is off in them. */
export interface NightHours {
  readonly window: NightWindow;
  readonly cuts: readonly Span[];
}

export type LevelFrom = "reading" | "forecast" | "worseGuess";

/** What a screen says of a stay that the plan itself does not know. Levels are shares of a full set. */
export interface StayAbout {
  readonly stayId: string;
  readonly vehicleId: string;
  readonly levelFrom: LevelFrom;
  readonly arriveShare: number;
  /** Enough on a bad day, and on a likely one; may pass 1 where even a full set is too little. */
  readonly targetShare: number;
  readonly likelyShare: number;
  readonly reserveShare: number;
  /** Kilometres of the next round and what a share of the set carries there. */
  readonly km: number;
  readonly kmPerShare: number;
  readonly roundName: string;
  readonly fullKwh: number;
  readonly cannotCharge: boolean;
  /** A full set is enough on a likely day and not on a bad one. */
  readonly tightAtBest: boolean;
  /** Share of a full set by units on the meter, in even steps from 0 to `fullKwh`. */
  readonly shareByKwh: readonly number[];
}

export interface VehicleStays {
  readonly stays: readonly Stay[];
  readonly about: readonly StayAbout[];
  readonly problems: readonly Problem[];
}

/** A reading older than this says nothing about tonight. */
const OLDEST_READING_MS = 3 * DAY_MS;
/** Tenth percentile of the level nobody has read (map/start.ts): the worse guess. */
const worseGuess = (share: number, sdShare: number): number => clamp(share - 1.2816 * sdShare, 0, 1);
const SHORTEST_STAY_MS = 2 * SLOT_MS;
/** Walks per forecast: the night needs the low guess of many vehicles, not a picture. */
export const NIGHT_DRAWS = 96;

interface Level {
  readonly share: number;
  readonly sdShare: number;
  readonly from: LevelFrom;
  /** The instant at which the vehicle stood at this level. */
  readonly atUtcMs: number;
}

interface Run {
  readonly plan: ShiftPlan;
  readonly shift: Shift | null;
  readonly leaveUtcMs: number;
  readonly homeUtcMs: number;
}

/** The visits of one vehicle in the night's hours, each with what its next round needs from its own forecast; shifts and readings are its own. */
export function staysOf(vehicle: Vehicle, of: NightCase, { window, cuts }: NightHours): VehicleStays {
  const ground: Ground = { yard: of.yard, vehicle, skies: skiesByDate(of.skies, of.yard.id) };
  const { runs, problems } = runsOf(vehicle, of, ground, window);
  const cellC = nightCellC(of.yard, ground.skies, endOf(window));
  const scale = meterScaleOf(storeModel(batteryOf(vehicle), cellC), vehicle.charger);
  const stays: Stay[] = [];
  const about: StayAbout[] = [];
  let level = firstLevel(vehicle, of, runs, (session) => levelBeforeCharge({ ...of, vehicle, session, scale, cuts }));
  for (const [k, run] of runs.entries()) {
    if (run.homeUtcMs <= level.atUtcMs) continue; // over before the gauge was read
    const input = inputFor(vehicle, of, run, level);
    const answer = planDay(input);
    const stay = stayBefore(run, runs[k - 1] ?? null, {
      vehicle,
      given: of,
      window,
      level,
      answer,
      scale,
      count: stays.length,
    });
    if (stay) {
      stays.push(stay.stay);
      about.push(stay.about);
    }
    const reached = stay ? (of.leftAt?.[stay.about.stayId] ?? Math.min(1, stay.about.targetShare)) : 0;
    const left = stay ? Math.max(0, reached - leavingShare(answer, scale)) : 0;
    level = homeLevel(answer, run, left, level);
  }
  return {
    stays,
    about,
    problems: [
      ...problems,
      ...(runs.length === 0 ? [{ code: "noRound", where: `vehicles.${vehicle.id}.usual.roundId` }] : []),
    ],
  };
}

/** Runs of the night's two days, in order; one that would leave before the last came home leaves then, and is named. */
function runsOf(
  vehicle: Vehicle,
  given: NightCase,
  ground: Ground,
  window: NightWindow,
): { runs: Run[]; problems: Problem[] } {
  const runs: Run[] = [];
  const problems: Problem[] = [];
  for (const date of [window.date, plusDays(window.date, 1)]) {
    const plans = shiftPlansOf(vehicle, given.rounds, given.shifts, date);
    const set = given.shifts.filter((shift) => shift.date === date).sort((a, b) => a.leaveMinute - b.leaveMinute);
    for (const [n, plan] of plans.entries()) {
      const before = runs[runs.length - 1]?.homeUtcMs ?? 0;
      if (utcMsAt(date, plan.leaveMinute, given.yard.zone) < before)
        problems.push({ code: "leavesBeforeHome", where: `vehicles.${vehicle.id}.shifts.${date}` });
      const { leaveUtcMs, homeUtcMs } = runShift(plan, ground, before);
      runs.push({ plan, shift: set[n] ?? null, leaveUtcMs, homeUtcMs });
    }
  }
  return { runs, problems };
}

/**
 * Level from the last reading: before the vehicle was plugged in under the plan that is followed, or taken while it hangs there and
 * reckoned back. The worse guess when nobody has read it.
 */
function firstLevel(
  vehicle: Vehicle,
  given: NightCase,
  runs: readonly Run[],
  read: (session: NightRecord["sessions"][number]) => SeenLevel | null,
): Level {
  const plugged = (given.followed?.sessions ?? [])
    .filter((session) => session.vehicleId === vehicle.id && session.plugUtcMs <= given.nowUtcMs)
    .sort((a, b) => a.plugUtcMs - b.plugUtcMs);
  const seen = plugged[0] ? read(plugged[0]) : null;
  if (seen) return { ...seen, from: "reading" };
  const untilUtcMs = Math.min(given.nowUtcMs, ...plugged.map((session) => session.plugUtcMs));
  const start = startLevelOf(vehicle, given.readings, untilUtcMs);
  const known = start.missing.length === 0 && untilUtcMs - start.atUtcMs <= OLDEST_READING_MS;
  if (known) return { share: start.share, sdShare: start.sdShare, from: "reading", atUtcMs: start.atUtcMs };
  const nothing = startLevelOf(vehicle, [], untilUtcMs);
  // Nobody read it: as it may stand after the last run that is over, or before the next one.
  const over = runs.filter((run) => run.homeUtcMs <= untilUtcMs).map((run) => run.homeUtcMs);
  const next = runs.find((run) => run.homeUtcMs > untilUtcMs);
  const atUtcMs = Math.max(...over, Math.min(untilUtcMs, next?.leaveUtcMs ?? untilUtcMs));
  return { share: worseGuess(nothing.share, nothing.sdShare), sdShare: 0, from: "worseGuess", atUtcMs };
}

/** The forecast of one run from a level that is known otherwise than by the gauge of the day. */
function inputFor(vehicle: Vehicle, given: NightCase, run: Run, level: Level): DayInput {
  const onTheWay = level.from === "reading" && level.atUtcMs > run.leaveUtcMs;
  const input = dayInputOf({
    yard: given.yard,
    vehicle,
    rounds: given.rounds,
    shifts: run.shift ? [run.shift] : [],
    skies: given.skies,
    readings: onTheWay ? given.readings : [],
    date: run.plan.date,
    nowUtcMs: onTheWay ? Math.max(level.atUtcMs, given.nowUtcMs) : level.atUtcMs,
    draws: given.draws ?? NIGHT_DRAWS,
    alone: true,
    believed: true,
  });
  return {
    ...input,
    missing: input.missing.filter((what) => what !== "reading"),
    doubt: { ...input.doubt, startShare: level.share, startSdShare: level.sdShare },
  };
}

/** Level at leaving if nothing is plugged in, likely; parked sun counted. */
const leavingShare = (answer: DayAnswer, scale: MeterScale): number =>
  scale.shareAt(scale.kwhAt(answer.topUp.toShare) - answer.topUp.gridKwh);

function homeLevel(answer: DayAnswer, run: Run, addedShare: number, before: Level): Level {
  const band = answer.home;
  return {
    share: clamp(band.p50 + addedShare, 0, 1),
    sdShare: (band.p90 - band.p10) / 2.563,
    from: before.from === "worseGuess" ? "worseGuess" : "forecast",
    atUtcMs: run.homeUtcMs,
  };
}

interface Ask {
  readonly vehicle: Vehicle;
  readonly given: NightCase;
  readonly window: NightWindow;
  readonly level: Level;
  readonly answer: DayAnswer;
  readonly scale: MeterScale;
  /** Visits of this vehicle before this one. */
  readonly count: number;
}

function stayBefore(run: Run, last: Run | null, ask: Ask): { stay: Stay; about: StayAbout } | null {
  const { vehicle, given, window, answer, scale, count } = ask;
  const stayId = count === 0 ? vehicle.id : `${vehicle.id}/${count + 1}`;
  const followed = given.followed?.sessions.find((session) => session.stayId === stayId);
  const begun = followed !== undefined && followed.plugUtcMs <= given.nowUtcMs;
  const homeUtcMs = Math.max(window.startUtcMs, last?.homeUtcMs ?? 0, lateOf(vehicle, given));
  const arriveUtcMs = begun
    ? Math.min(followed.plugUtcMs, roundedUp(homeUtcMs))
    : Math.max(roundedUp(homeUtcMs), roundedUp(given.nowUtcMs));
  const departUtcMs = Math.min(endOf(window), roundedDown(run.leaveUtcMs));
  if (departUtcMs - arriveUtcMs < SHORTEST_STAY_MS) return null;
  const wants = wantsOf(answer, scale);
  const dead = (given.followed?.events ?? []).some(
    (event) => event.kind === "chargerDead" && event.vehicleId === vehicle.id,
  );
  const cannotCharge = scale.acceptance === null || dead;
  const { fullKwh, chargerKw } = scale;
  return {
    stay: {
      id: stayId,
      arriveUtcMs,
      departUtcMs,
      fullKwh,
      arriveKwh: wants.arriveKwh,
      needKwh: wants.needKwh,
      safeKwh: wants.safeKwh,
      chargerKw,
      acceptance: scale.acceptance ?? [
        { levelKwh: 0, kw: chargerKw },
        { levelKwh: fullKwh, kw: chargerKw },
      ],
      plugs: cannotCharge ? [] : [plugKind(vehicle.charger.plug)],
      roundWeight: Math.max(1, Math.round(answer.km)),
      fullDue: !cannotCharge && fullDue({ ...given, vehicle, date: run.plan.date }),
      chemistry: vehicle.battery.chemistry,
    },
    about: aboutOf(stayId, run, ask, { ...wants, cannotCharge }),
  };
}

const lateOf = (vehicle: Vehicle, { followed }: NightCase): number =>
  Math.max(
    0,
    ...(followed?.events ?? []).flatMap((event: NightEvent) =>
      event.kind === "cameLate" && event.vehicleId === vehicle.id ? [event.untilUtcMs] : [],
    ),
  );

interface Wants {
  readonly arriveKwh: number;
  readonly needKwh: number;
  readonly safeKwh: number;
}

/**
 * Units a likely day needs, and those that make a bad day (one in ten) enough too. What a bad day asks beyond a full set is left out, so
 * that a full set ends tight; what a likely day asks beyond it stays, so that it ends short.
 */
function wantsOf(answer: DayAnswer, scale: MeterScale): Wants {
  const { topUp } = answer;
  const arriveKwh = Math.min(scale.fullKwh, Math.max(0, scale.kwhAt(topUp.toShare) - topUp.gridKwh));
  const leaves = scale.shareAt(arriveKwh);
  const under = (level: "p10" | "p50"): number => Math.max(0, -answer.spare[level]);
  const upTo = (share: number): number => Math.max(0, scale.kwhAt(share) - arriveKwh);
  const likely = under("p50") > 0 ? upTo(leaves + under("p50")) : 0;
  const bad = topUp.code === "none" ? 0 : topUp.code === "fullNotEnough" ? upTo(leaves + under("p10")) : topUp.gridKwh;
  const needKwh = topUp.code === "fullNotEnough" ? likely : Math.min(likely, bad);
  const most = Math.max(needKwh, scale.fullKwh - arriveKwh);
  return { arriveKwh, needKwh, safeKwh: Math.max(0, Math.min(bad, most) - needKwh) };
}

const SHARE_STEPS = 40;
function aboutOf(stayId: string, run: Run, ask: Ask, wants: Wants & { readonly cannotCharge: boolean }): StayAbout {
  const { vehicle, level, answer, scale } = ask;
  const wantedKwh = wants.arriveKwh + wants.needKwh;
  const shareOf = (kwh: number): number => (kwh > scale.fullKwh ? kwh / scale.fullKwh : scale.shareAt(kwh));
  return {
    stayId,
    vehicleId: vehicle.id,
    levelFrom: level.from,
    arriveShare: scale.shareAt(wants.arriveKwh),
    targetShare: shareOf(wantedKwh + wants.safeKwh),
    likelyShare: shareOf(wantedKwh),
    reserveShare: answer.reserveShare,
    km: answer.km,
    kmPerShare: answer.whPerKm > 0 ? answer.usableWh / answer.whPerKm : 0,
    roundName: run.plan.round.name,
    fullKwh: scale.fullKwh,
    cannotCharge: wants.cannotCharge,
    tightAtBest: answer.topUp.code === "fullNotEnough" && wantedKwh <= scale.fullKwh,
    shareByKwh: Array.from({ length: SHARE_STEPS + 1 }, (_, i) => scale.shareAt((i * scale.fullKwh) / SHARE_STEPS)),
  };
}
