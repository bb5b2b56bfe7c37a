import type { LegNote } from "../../calc/day/answer.js";
import type { DaySegment } from "../../calc/day/segments.js";
import { airDensityKgM3, cooled, type LegDrain, legDrain } from "../../calc/road/index.js";
import { SHADE, SURROUNDINGS, windOnRoofMs } from "../../calc/roof/index.js";
import { type Site, sunPosition } from "../../calc/sun/index.js";
import { HOUR_MS, MINUTE_MS } from "../../units/numbers.js";
import { utcMsAt } from "../../units/zone.js";
import type { RoundPart, Vehicle, Yard } from "../index.js";
import { siteOf } from "./place.js";
import { legOf, roadVehicleOf } from "./road.js";
import type { ShiftPlan } from "./shift-plan.js";
import { airCAt, type SkiesByDate, wetOn, windAt } from "./weather.js";

export { LOAD_SHARE, type ShiftPlan, shiftPlanOf, shiftPlansOf } from "./shift-plan.js";

export interface ShiftRun {
  readonly segments: readonly DaySegment[];
  readonly leaveUtcMs: number;
  readonly homeUtcMs: number;
  /** Minutes that the drive line makes it later than the round says. */
  readonly lateMinutes: number;
  readonly legNotes: readonly LegNote[];
  /** What each leg takes, by its place in the round's parts. */
  readonly drains: ReadonlyMap<number, LegDrain>;
}

export interface Ground {
  readonly yard: Yard;
  readonly skies: SkiesByDate;
  readonly vehicle: Vehicle;
}

/**
 * Runs a shift through its legs and stops: times, drain, load, shade. A leg slower than planned shifts the rest of the day; a vehicle that
 * is out until `notBeforeUtcMs` leaves then at the earliest.
 */
export function runShift(plan: ShiftPlan, { yard, skies, vehicle }: Ground, notBeforeUtcMs = 0): ShiftRun {
  const site = siteOf(yard);
  const road = roadVehicleOf(vehicle);
  const leaveUtcMs = Math.max(notBeforeUtcMs, utcMsAt(plan.date, plan.leaveMinute, yard.zone));
  const hasFridge = plan.round.parts.some((part) => part.kind === "stop" && part.fridgeOn);
  const segments: DaySegment[] = [];
  const legNotes: LegNote[] = [];
  const drains = new Map<number, LegDrain>();
  let atUtcMs = leaveUtcMs;
  let loadKg = plan.loadKg;
  let lateMinutes = 0;
  let heat = 0; // of the motor, cold at leaving
  for (const [n, part] of plan.round.parts.entries()) {
    const airC = airCAt(yard, skies, atUtcMs);
    const held = { airC, payloadKg: loadKg, onShift: true, fromUtcMs: atUtcMs };
    if (part.kind === "leg") {
      const density = airDensityKgM3(yard.altitudeM, airC);
      const drain = legDrain(
        legOf(part, { payloadKg: loadKg, wet: wetOn(skies, plan.date), airDensityKgM3: density }),
        road,
        heat,
      );
      heat = drain.heat;
      drains.set(n, drain);
      const { problem, gear, speedKmh } = drain;
      const toUtcMs = atUtcMs + wholeMs(drain.minutes);
      if (problem)
        legNotes.push({
          ...{ part: n, label: part.name ?? "", problem, gear, speedKmh, payloadKg: loadKg },
          untilUtcMs: toUtcMs,
        });
      lateMinutes += Math.max(0, drain.minutes - part.minutes);
      const drive = driveSegment(part, drain, { ...held, toUtcMs }, windAt(yard, skies, atUtcMs));
      const fridgeW = hasFridge ? vehicle.accessories.fridgeW : 0;
      segments.push(...withLamps(drive, vehicle.accessories.baseW + fridgeW, vehicle.accessories.lampW, site));
      atUtcMs = toUtcMs;
    } else {
      const toUtcMs = atUtcMs + wholeMs(part.minutes);
      const stop = stopSegment(part, vehicle, { ...held, toUtcMs }, hasFridge);
      segments.push(...inPieces(stop, { yard, skies }));
      loadKg = Math.max(0, loadKg + part.payloadChangeKg);
      heat = cooled(heat, part.minutes);
      atUtcMs = toUtcMs;
    }
  }
  return { segments, leaveUtcMs, homeUtcMs: atUtcMs, lateMinutes, legNotes, drains };
}

type Held = Pick<DaySegment, "fromUtcMs" | "toUtcMs" | "airC" | "payloadKg" | "onShift">;
const wholeMs = (minutes: number): number => Math.max(1, Math.round(minutes * MINUTE_MS));

function driveSegment(
  part: Extract<RoundPart, { kind: "leg" }>,
  drain: LegDrain,
  held: Held,
  windMs: number,
): DaySegment {
  const hours = (held.toUtcMs - held.fromUtcMs) / HOUR_MS; // whole milliseconds, one at least
  const { directBlocked, diffuseBlocked } = SURROUNDINGS[part.surroundings];
  return {
    ...held,
    kind: "drive",
    label: part.name ?? "",
    km: part.km,
    drainW: drain.batteryWh / hours,
    regenW: drain.regenWh / hours,
    otherW: 0,
    headingDeg: part.headingDeg,
    directBlocked,
    diffuseBlocked,
    windMs: windOnRoofMs(windMs, drain.speedKmh),
    chargerW: 0,
  };
}

function stopSegment(
  part: Extract<RoundPart, { kind: "stop" }>,
  vehicle: Vehicle,
  held: Held,
  hasFridge: boolean,
): DaySegment {
  const { baseW, lampW, fridgeW, grinderW, fanW } = vehicle.accessories;
  const { directBlocked, diffuseBlocked } = SHADE[part.shade];
  const otherW =
    baseW +
    (part.lampOn ? lampW : 0) +
    (hasFridge ? fridgeW : 0) +
    (part.grinderOn ? grinderW : 0) +
    (part.fanOn ? fanW : 0);
  const plugW = part.socketKw === null ? 0 : part.socketKw * 1000 * vehicle.charger.efficiency;
  return {
    ...held,
    kind: part.socketKw === null ? "stop" : "plug",
    label: part.name,
    km: 0,
    drainW: 0,
    regenW: 0,
    otherW,
    headingDeg: part.sideDeg,
    directBlocked,
    diffuseBlocked,
    windMs: 0,
    chargerW: Math.min(plugW, vehicle.charger.ratedW),
  };
}

const LONGEST_PIECE_MS = 3 * HOUR_MS;

/** A long stand in pieces of at most three hours, so that air and wind follow the day. */
export function inPieces(stand: DaySegment, { yard, skies }: Pick<Ground, "yard" | "skies">): DaySegment[] {
  const pieces: DaySegment[] = [];
  for (let at = stand.fromUtcMs; at < stand.toUtcMs; ) {
    const to = Math.min(stand.toUtcMs, at + LONGEST_PIECE_MS);
    const middle = (at + to) / 2;
    pieces.push({
      ...stand,
      fromUtcMs: at,
      toUtcMs: to,
      airC: airCAt(yard, skies, middle),
      windMs: windAt(yard, skies, middle),
    });
    at = to;
  }
  return pieces;
}

const SET_ZENITH_DEG = 90.833; // upper edge of the disc on the horizon, 34 minutes of refraction: Meeus, chapter 15

/** Lamps burn from sunset to sunrise: a leg that crosses one of them is cut there. */
function withLamps(drive: DaySegment, otherW: number, lampW: number, site: Site): DaySegment[] {
  const isDay = (utcMs: number) => sunPosition(utcMs, site).zenithTrueDeg < SET_ZENITH_DEG;
  const { fromUtcMs, toUtcMs } = drive;
  const lit = (piece: DaySegment, day: boolean) => ({ ...piece, otherW: otherW + (day ? 0 : lampW) });
  const startsByDay = isDay(fromUtcMs);
  if (startsByDay === isDay(toUtcMs)) return [lit(drive, startsByDay)];
  let [before, after] = [fromUtcMs, toUtcMs];
  while (after - before > MINUTE_MS) {
    const middle = Math.round((before + after) / 2);
    if (isDay(middle) === startsByDay) before = middle;
    else after = middle;
  }
  const share = (after - fromUtcMs) / (toUtcMs - fromUtcMs);
  return [
    lit({ ...drive, toUtcMs: after, km: drive.km * share }, startsByDay),
    lit({ ...drive, fromUtcMs: after, km: drive.km * (1 - share) }, !startsByDay),
  ].filter((piece) => piece.toUtcMs > piece.fromUtcMs);
}
