import { cutOffShare, storeModel } from "../../calc/battery/index.js";
import type { LegNote, Missing } from "../../calc/day/answer.js";
import { type DayInput, DRAWS, PRIOR_DOUBT } from "../../calc/day/input.js";
import type { DaySegment } from "../../calc/day/segments.js";
import { SHADE } from "../../calc/roof/index.js";
import { seedOf } from "../../units/dice.js";
import { DAY_MS, HOUR_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, daysBetween, plusDays, utcMsAt } from "../../units/zone.js";
import type { Learned, PlaceLearned, Reading, Round, Shift, Sky, Vehicle, Yard } from "../index.js";
import { batteryOf } from "./battery.js";
import { roofOf } from "./roof.js";
import { type Ground, runShift, type ShiftPlan, shiftPlansOf } from "./shift.js";
import { startLevelOf } from "./start.js";
import { airCAt, daySkyOf, meanAirC, nightAirC, skiesByDate, windAt } from "./weather.js";

/** Everything on record that the answer about one vehicle's day may need. */
export interface DayCase {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly shifts: readonly Shift[];
  readonly skies: readonly Sky[];
  readonly readings: readonly Reading[];
  readonly date: CivilDate;
  readonly nowUtcMs: number;
  readonly draws?: number;
  /** Charging that is settled while the vehicle stands at the yard: the night's slots. */
  readonly plugs?: readonly Plug[];
  /** What the vehicle's own days and its place's taught; `answerInputOf` takes it in. */
  readonly learned?: Learned | undefined;
  readonly placeLearned?: PlaceLearned | undefined;
}

/** One stretch on a socket, with the most W it gives to the battery side. */
export interface Plug {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly chargerW: number;
}

/** A reading older than this says nothing about today. */
const OLDEST_READING_MS = 3 * DAY_MS;

/** Records of one vehicle and one date, laid out for the day's calculation. */
export function dayInputOf(given: DayCase): DayInput {
  const { yard, vehicle, date, nowUtcMs } = given;
  const ground: Ground = { yard, vehicle, skies: skiesByDate(given.skies, yard.id) };
  const plans = shiftPlansOf(vehicle, given.rounds, given.shifts, date);
  const dayFromUtcMs = utcMsAt(date, 0, yard.zone);
  const start = freshStart(given, plans[0] ?? null, dayFromUtcMs);
  const { segments, lateMinutes, legNotes } = wholeDay(given, ground, plans, start.atUtcMs);
  const leaveUtcMs = segments.find((segment) => segment.onShift)?.fromUtcMs ?? dayFromUtcMs;
  const battery = batteryOf(vehicle);
  const cellC = meanAirC(yard, ground.skies, leaveUtcMs);
  const floorShare = Math.max(vehicle.battery.floorShare, cutOffShare(battery, vehicle.drive, cellC));
  const learned = vehicle.learned;
  const missing: Missing[] = [...start.missing, ...(plans.length > 0 ? [] : (["round"] as const))];
  return {
    vehicleId: vehicle.id,
    nowUtcMs,
    segments,
    dayFromUtcMs,
    sky: daySkyOf(yard, ground.skies, date),
    roof: roofOf(vehicle),
    store: storeModel(battery, cellC),
    nightStore: storeModel(battery, (cellC + nightAirC(yard, ground.skies, leaveUtcMs)) / 2),
    // A reserve below the level at which the vehicle stops would be charge that nobody can drive with.
    reserveShare: Math.max(vehicle.battery.reserveShare, floorShare),
    floorShare,
    chargerW: vehicle.charger.ratedW,
    chargerEfficiency: vehicle.charger.efficiency,
    doubt: {
      startShare: start.share,
      startSdShare: start.sdShare,
      driveMiddle: learned?.driveFactor ?? 1,
      driveSdLog: learned?.spread ?? PRIOR_DOUBT.driveSdLog,
      roofMiddle: 1,
      roofSdLog: PRIOR_DOUBT.roofSdLog,
      otherMiddle: 1,
      otherSdLog: PRIOR_DOUBT.otherSdLog,
      coverDayCorrelation: PRIOR_DOUBT.coverDayCorrelation,
    },
    missing,
    readingDoubt: start.readingDoubt,
    lateMinutes,
    legNotes,
    fullDue: fullDue(given),
    draws: given.draws ?? DRAWS,
    seed: seedOf(vehicle.id),
  };
}

/** The last reading, unless the vehicle has been out since or it is too old: then nobody knows, and the answer says what to type. */
function freshStart(given: DayCase, plan: ShiftPlan | null, dayFromUtcMs: number): ReturnType<typeof startLevelOf> {
  const { vehicle, yard, nowUtcMs, date } = given;
  const start = startLevelOf(vehicle, given.readings, nowUtcMs);
  const none = {
    ...startLevelOf(vehicle, [], nowUtcMs),
    atUtcMs: Math.min(nowUtcMs, leaveOf(given, plan) ?? dayFromUtcMs),
  };
  if (start.missing.length > 0 || nowUtcMs - start.atUtcMs > OLDEST_READING_MS) return none;
  for (let d = civilDate(start.atUtcMs, yard.zone); d < date; d = plusDays(d, 1)) {
    for (const before of shiftPlansOf(vehicle, given.rounds, given.shifts, d)) {
      const run = runShift(before, { yard, vehicle, skies: new Map() });
      if (start.atUtcMs < run.homeUtcMs - HOUR_MS / 2 && run.leaveUtcMs < nowUtcMs) return none;
    }
  }
  return start;
}

const leaveOf = (given: DayCase, plan: ShiftPlan | null): number | null =>
  plan ? utcMsAt(plan.date, plan.leaveMinute, given.yard.zone) : null;

/** From the reading to the end of the shift's day: parked, out, parked, perhaps out again. A reading taken on the way starts the day there. */
function wholeDay(
  given: DayCase,
  ground: Ground,
  plans: readonly ShiftPlan[],
  startUtcMs: number,
): { segments: DaySegment[]; lateMinutes: number; legNotes: readonly LegNote[] } {
  const endUtcMs = utcMsAt(plusDays(given.date, 1), 0, given.yard.zone);
  const segments: DaySegment[] = [];
  const legNotes: LegNote[] = [];
  let lateMinutes = 0;
  let atUtcMs = startUtcMs;
  const parkUntil = (utcMs: number) => {
    if (utcMs <= atUtcMs) return;
    for (const piece of plugged(parked(atUtcMs, utcMs, ground), given.plugs ?? [])) segments.push(piece);
    atUtcMs = utcMs;
  };
  let homeUtcMs = startUtcMs;
  for (const plan of plans) {
    const run = runShift(plan, ground, homeUtcMs > startUtcMs ? homeUtcMs : undefined);
    parkUntil(run.leaveUtcMs);
    const out = run.segments.filter((segment) => segment.toUtcMs > startUtcMs);
    segments.push(...out.map((segment) => fromThere(segment, startUtcMs)));
    homeUtcMs = run.homeUtcMs;
    atUtcMs = Math.max(atUtcMs, homeUtcMs);
    lateMinutes += run.lateMinutes;
    legNotes.push(...run.legNotes);
  }
  parkUntil(Math.max(endUtcMs, atUtcMs + HOUR_MS));
  return { segments, lateMinutes, legNotes };
}

const fromThere = (segment: DaySegment, startUtcMs: number): DaySegment => {
  if (segment.fromUtcMs >= startUtcMs) return segment;
  const left = (segment.toUtcMs - startUtcMs) / (segment.toUtcMs - segment.fromUtcMs);
  return { ...segment, fromUtcMs: startUtcMs, km: segment.km * left };
};

/** Parked at the yard, in pieces of at most six hours so that air and wind follow the day. */
export function parked(fromUtcMs: number, toUtcMs: number, { yard, skies }: Ground): DaySegment[] {
  const pieces: DaySegment[] = [];
  for (let at = fromUtcMs; at < toUtcMs; ) {
    const to = Math.min(toUtcMs, at + 3 * HOUR_MS);
    pieces.push({
      fromUtcMs: at,
      toUtcMs: to,
      kind: "park",
      label: yard.name,
      km: 0,
      drainW: 0,
      regenW: 0,
      otherW: 0,
      headingDeg: null,
      directBlocked: SHADE[yard.parkShade].directBlocked,
      diffuseBlocked: SHADE[yard.parkShade].diffuseBlocked,
      windMs: windAt(yard, skies, at),
      airC: airCAt(yard, skies, (at + to) / 2),
      chargerW: 0,
      payloadKg: 0,
      onShift: false,
    });
    at = to;
  }
  return pieces;
}

/** Cuts parked stretches where a plug goes in or out. */
function plugged(pieces: readonly DaySegment[], plugs: readonly Plug[]): DaySegment[] {
  return pieces.flatMap((piece) => {
    const cuts = plugs
      .flatMap(({ fromUtcMs, toUtcMs }) => [fromUtcMs, toUtcMs])
      .filter((utcMs) => utcMs > piece.fromUtcMs && utcMs < piece.toUtcMs);
    const ends = [...new Set([...cuts, piece.toUtcMs])].sort((a, b) => a - b);
    return ends.map((toUtcMs, i) => {
      const fromUtcMs = i === 0 ? piece.fromUtcMs : (ends[i - 1] as number);
      const plug = plugs.find((each) => each.fromUtcMs <= fromUtcMs && each.toUtcMs >= toUtcMs);
      return { ...piece, fromUtcMs, toUtcMs, ...(plug ? { kind: "plug" as const, chargerW: plug.chargerW } : {}) };
    });
  });
}

/** Lead-acid wants a whole charge every so many days; without a full charge on record nobody can say that one is due. */
export function fullDue({
  vehicle,
  readings,
  yard,
  date,
}: Pick<DayCase, "vehicle" | "readings" | "yard" | "date">): boolean {
  const every = vehicle.battery.fullChargeEveryDays;
  const full = readings
    .filter(
      ({ vehicleId, kind, value }) =>
        vehicleId === vehicle.id && (kind === "full" || (kind === "percent" && value >= 98)),
    )
    .map(({ atUtcMs }) => atUtcMs);
  if (every === null || full.length === 0) return false;
  return daysBetween(civilDate(Math.max(...full), yard.zone), date) >= every;
}
