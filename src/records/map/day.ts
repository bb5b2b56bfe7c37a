import { cutOffShare, storeModel } from "../../calc/battery/index.js";
import type { LegNote, Missing } from "../../calc/day/answer.js";
import { type DayInput, DRAWS, PRIOR_DOUBT } from "../../calc/day/input.js";
import type { DaySegment } from "../../calc/day/segments.js";
import { SHADE } from "../../calc/roof/index.js";
import { clearSkySdLog } from "../../calc/sun/index.js";
import { seedOf } from "../../units/dice.js";
import { DAY_MS, HOUR_MS, MINUTE_MS } from "../../units/numbers.js";
import { type CivilDate, civilDate, daysBetween, plusDays, utcMsAt } from "../../units/zone.js";
import type { Learned, PlaceLearned, Reading, Round, Shift, Sky, Socket, Vehicle, Yard } from "../index.js";
import { batteryOf } from "./battery.js";
import { bestChargerW } from "./plug.js";
import { roofOf } from "./roof.js";
import { type Ground, inPieces, runShift } from "./shift.js";
import { plannedMinutes, type ShiftPlan, shiftPlansOf } from "./shift-plan.js";
import { type Span, spanWithout } from "./span.js";
import { type StartLevel, startLevelOf } from "./start.js";
import { daySkyOf, meanAirC, nightCellC, skiesByDate } from "./weather.js";

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
  /** Sockets of the yard, as far as they are written down. */
  readonly sockets?: readonly Socket[] | undefined;
  /** Charging that is settled while the vehicle stands at the yard: the night's slots. */
  readonly plugs?: readonly Plug[];
  /** What the vehicle's own days and its place's taught; `answerInputOf` takes it in. */
  readonly learned?: Learned | undefined;
  readonly placeLearned?: PlaceLearned | undefined;
  /** The last reading was worked out, with the vehicle where its round says; nobody took it. */
  readonly believed?: boolean;
  /** The shifts of dates before are behind the last reading, or none of this question's. */
  readonly alone?: boolean;
}

/** One stretch on a socket, with the most W it gives to the battery side. */
export interface Plug {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly chargerW: number;
  /** Planned, and nobody has ticked that the plug is in. */
  readonly unticked?: boolean;
}

/** A reading older than this says nothing about today. */
const OLDEST_READING_MS = 3 * DAY_MS;
/** A shift may leave late on its date's evening or, by its minute, on the day after, and run through the night. */
const LONGEST_SHIFT_DAYS = 2;
const LEAST_RESERVE = 0.01;
/** People tick a plug after they have put it in. */
const TIME_TO_TICK_MS = HOUR_MS / 2;
/** A reading soon after the hour of leaving is taken at the yard more often than on the way; common practice, no source. */
const LATE_START_MS = HOUR_MS / 2;

/** Records of one vehicle and one date, laid out for the day's calculation. */
export function dayInputOf(given: DayCase): DayInput {
  const { yard, vehicle, date, nowUtcMs } = given;
  const ground: Ground = { yard, vehicle, skies: skiesByDate(given.skies, yard.id) };
  const plans = shiftPlansOf(vehicle, given.rounds, given.shifts, date);
  const dayFromUtcMs = utcMsAt(date, 0, yard.zone);
  const before = given.alone ? [] : plansBefore(given);
  const start = freshStart(given, before, plans[0] ?? null, dayFromUtcMs);
  const first = before.filter((plan) => leaveOf(plan, yard) >= nowUtcMs);
  const { segments, lateMinutes, legNotes } = wholeDay(given, ground, [...first, ...plans], start.atUtcMs);
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
    nightStore: storeModel(battery, nightCellC(yard, ground.skies, leaveUtcMs)),
    // A reserve below the level at which the vehicle stops would be charge that nobody can drive with; at 0 an empty set would be enough.
    reserveShare: Math.max(vehicle.battery.reserveShare, floorShare, LEAST_RESERVE),
    floorShare,
    chargerW: bestChargerW(vehicle, given.sockets ?? []),
    chargerEfficiency: vehicle.charger.efficiency,
    plugSpans: freeSpans(segments, { fromUtcMs: nowUtcMs, toUtcMs: leaveUtcMs }, yard.cuts),
    doubt: {
      startShare: start.share,
      startSdShare: start.sdShare,
      driveMiddle: learned?.driveFactor ?? 1,
      driveSdLog: learned?.spread ?? PRIOR_DOUBT.driveSdLog,
      roofMiddle: 1,
      roofSdLog: Math.hypot(PRIOR_DOUBT.roofSdLog, clearSkySdLog(yard.altitudeM)),
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

/** Shifts of earlier dates that need not be over when the day begins: some pass midnight, and days ahead have shifts of their own before. */
function plansBefore({ yard, vehicle, rounds, shifts, date, nowUtcMs }: DayCase): readonly ShiftPlan[] {
  const found: ShiftPlan[] = [];
  for (let d = plusDays(civilDate(nowUtcMs - OLDEST_READING_MS, yard.zone), -LONGEST_SHIFT_DAYS); d < date; ) {
    found.push(...shiftPlansOf(vehicle, rounds, shifts, d));
    d = plusDays(d, 1);
  }
  return found;
}

/** Was the vehicle out after an instant, before now? A shift that was long over then is not run through. */
function outSince(utcMs: number, before: readonly ShiftPlan[], given: DayCase): boolean {
  const { yard, vehicle, nowUtcMs } = given;
  return before.some((plan) => {
    const leaveUtcMs = leaveOf(plan, yard);
    if (leaveUtcMs >= nowUtcMs || leaveUtcMs + 2 * plannedMinutes(plan.round) * MINUTE_MS + DAY_MS / 4 < utcMs)
      return false;
    return utcMs < runShift(plan, { yard, vehicle, skies: new Map() }).homeUtcMs - HOUR_MS / 2;
  });
}

/**
 * The last reading, unless the vehicle has been out since, or was to be plugged in and nobody says whether it was, or the reading is too old:
 * then nobody knows, and the answer says what to type.
 */
function freshStart(
  given: DayCase,
  before: readonly ShiftPlan[],
  plan: ShiftPlan | null,
  dayFromUtcMs: number,
): StartLevel {
  const { vehicle, nowUtcMs } = given;
  const start = startLevelOf(vehicle, given.readings, nowUtcMs);
  const none = {
    ...startLevelOf(vehicle, [], nowUtcMs),
    atUtcMs: Math.min(nowUtcMs, plan ? leaveOf(plan, given.yard) : dayFromUtcMs),
  };
  if (start.missing.length > 0 || nowUtcMs - start.atUtcMs > OLDEST_READING_MS) return none;
  const perhapsPlugged = (given.plugs ?? []).some(
    ({ unticked, fromUtcMs, toUtcMs }) => unticked && fromUtcMs < nowUtcMs - TIME_TO_TICK_MS && toUtcMs > start.atUtcMs,
  );
  return perhapsPlugged || outSince(start.atUtcMs, before, given) ? none : start;
}

const leaveOf = (plan: ShiftPlan, yard: Yard): number => utcMsAt(plan.date, plan.leaveMinute, yard.zone);

/**
 * From the reading to the end of the shift's day: parked, out, parked, perhaps out again. A reading taken on the way starts the day there.
 * Shifts of dates before are gone through as well; the answer is not about them.
 */
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
    const asked = plan.date === given.date;
    const run = runShift(plan, ground, notBefore(plan, given, { startUtcMs, homeUtcMs }));
    parkUntil(run.leaveUtcMs);
    const out = run.segments.filter((segment) => segment.toUtcMs > startUtcMs);
    segments.push(...out.map((segment) => ({ ...fromThere(segment, startUtcMs), onShift: asked })));
    homeUtcMs = run.homeUtcMs;
    atUtcMs = Math.max(atUtcMs, homeUtcMs);
    if (!asked) continue;
    lateMinutes += run.lateMinutes;
    legNotes.push(...run.legNotes);
  }
  parkUntil(Math.max(endUtcMs, atUtcMs + HOUR_MS));
  return { segments, lateMinutes, legNotes };
}

/** A vehicle leaves when it is back from the shift before, and after a reading that was taken while it should just have left. */
function notBefore(
  plan: ShiftPlan,
  { yard, believed }: DayCase,
  { startUtcMs, homeUtcMs }: { readonly startUtcMs: number; readonly homeUtcMs: number },
): number | undefined {
  if (homeUtcMs > startUtcMs) return homeUtcMs;
  const lateMs = startUtcMs - leaveOf(plan, yard);
  const firstMs = (plan.round.parts[0]?.minutes ?? 0) * MINUTE_MS;
  return lateMs > 0 && lateMs <= Math.min(LATE_START_MS, firstMs) && !believed ? startUtcMs : undefined;
}

/** Parked at the yard with nothing plugged in, between two instants, less the cuts of the supply. */
function freeSpans(segments: readonly DaySegment[], within: Span, cuts: readonly Span[]): readonly Span[] {
  return segments
    .filter(({ kind }) => kind === "park")
    .map(({ fromUtcMs, toUtcMs }) => ({
      fromUtcMs: Math.max(fromUtcMs, within.fromUtcMs),
      toUtcMs: Math.min(toUtcMs, within.toUtcMs),
    }))
    .flatMap((span) => spanWithout(span, cuts));
}

const fromThere = (segment: DaySegment, startUtcMs: number): DaySegment => {
  if (segment.fromUtcMs >= startUtcMs) return segment;
  const left = (segment.toUtcMs - startUtcMs) / (segment.toUtcMs - segment.fromUtcMs);
  return { ...segment, fromUtcMs: startUtcMs, km: segment.km * left };
};

/** Parked at the yard. */
export function parked(fromUtcMs: number, toUtcMs: number, ground: Ground): DaySegment[] {
  const { yard } = ground;
  if (fromUtcMs >= toUtcMs) return [];
  const stand: DaySegment = {
    fromUtcMs,
    toUtcMs,
    kind: "park",
    label: yard.name,
    km: 0,
    drainW: 0,
    regenW: 0,
    otherW: 0,
    headingDeg: null,
    directBlocked: SHADE[yard.parkShade].directBlocked,
    diffuseBlocked: SHADE[yard.parkShade].diffuseBlocked,
    windMs: 0,
    airC: 0,
    chargerW: 0,
    payloadKg: 0,
    onShift: false,
  };
  return inPieces(stand, ground);
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
