import { clamp } from "../../units/numbers.js";
import { type CivilDate, daysBetween } from "../../units/zone.js";
import { carry, forget, type Sight, varianceAlong } from "./belief.js";
import { grounded } from "./gauge-sight.js";
import { at, DRIFT_VAR, daySdLog, factor, type Part, PRIOR_VAR, placeOf, type VehicleLearned } from "./parts.js";

/** What is special about a day's driving. */
export interface DriveKind {
  readonly wet: boolean;
  readonly load: "empty" | "half" | "full" | null;
  readonly driver: string | null;
}

/** A day's driving in hindsight, in Wh of the set's charge: what the physics says at every factor 1 for the kilometres driven. */
export interface DriveSeen {
  readonly kind: DriveKind;
  readonly km: number;
  /** "no": nobody wrote the day in; "doubtful": its kilometres do not fit. Then the level moves and nothing is learned. */
  readonly written: "yes" | "doubtful" | "no";
  /** Doubt of the kilometres themselves (log), 0 when read off. */
  readonly kmSdLog: number;
  readonly driveWh: number;
  readonly otherWh: number;
  /** Sun that went in, in the open and in built-up places. */
  readonly openSunWh: number;
  readonly shadeSunWh: number;
  readonly sunSdLog: number;
  /** From a plug on the way. */
  readonly plugWh: number;
  /** Of the record: rated x health x temperature. */
  readonly usableWh: number;
  readonly endUtcMs: number;
}

/** Shorter trips say more about the gauge than about the vehicle (anchors A4: 50 % off on trips of 1.6 km). */
export const LEAST_KM = 5;
const OTHER_SD = 0.25;
/** Doubt of a day that nobody wrote in. Common practice, no source. */
const UNWRITTEN_SD = 0.2;

/** Parts that add up to the drive factor of such a day. */
export function driveParts(drivers: VehicleLearned["drivers"], kind: DriveKind): Part[] {
  const parts: Part[] = ["drive"];
  if (kind.wet) parts.push("wet");
  if (kind.load) parts.push(kind.load);
  if (kind.driver !== null && kind.driver === drivers[0]) parts.push("driverA");
  if (kind.driver !== null && kind.driver === drivers[1]) parts.push("driverB");
  return parts;
}

/** Days without news make every part a little less sure; no middle moves. */
export function passDays(learned: VehicleLearned, date: CivilDate): VehicleLearned {
  const days = learned.lastDate === null ? 0 : daysBetween(learned.lastDate, date);
  if (days <= 0) return learned.lastDate === null ? { ...learned, lastDate: date } : learned;
  return { ...learned, lastDate: date, belief: forget(learned.belief, days, DRIFT_VAR, PRIOR_VAR) };
}

/** Gives a driver a place of his own if one is free. */
function seatDriver(learned: VehicleLearned, driver: string | null): VehicleLearned["drivers"] {
  const [a, b] = learned.drivers;
  if (driver === null || driver === a || driver === b) return learned.drivers;
  if (a === null) return [driver, b];
  return b === null ? [a, driver] : learned.drivers;
}

/** The level after a day's driving, as it follows from the level before and all factors. */
export function driveDay(before: VehicleLearned, seen: DriveSeen): VehicleLearned {
  const learned = { ...before, drivers: seatDriver(before, seen.kind.driver) };
  const belief = grounded(learned.belief);
  const parts = driveParts(learned.drivers, seen.kind);
  const usableWh = seen.usableWh * factor(belief, "capacity");
  const drive = (seen.driveWh * Math.exp(parts.reduce((sum, part) => sum + at(belief, part), 0))) / usableWh;
  const shadeSun = (seen.shadeSunWh * factor(belief, "roof") * factor(belief, "shade")) / usableWh;
  const sun = (seen.openSunWh * factor(belief, "roof")) / usableWh + shadeSun;
  const other = seen.otherWh / usableWh;
  const fall = drive + other - sun - seen.plugWh / usableWh;
  const teaches = seen.written === "yes" && seen.km >= LEAST_KM;
  // What a drive that nobody wrote leaves says nothing of the days before it either.
  const isLost = !teaches && seen.km > 0;
  const levelVar = varianceAlong(belief, [[placeOf("level"), 1]]);
  const slow: Sight["slopes"] = [
    ...parts.map((part) => [placeOf(part), -drive] as const),
    [placeOf("roof"), sun],
    [placeOf("shade"), shadeSun],
    [placeOf("capacity"), fall],
  ];
  const daySd = daySdLog(learned);
  const ownVar = (drive * daySd) ** 2;
  const otherVar = (other * OTHER_SD) ** 2 + (sun * seen.sunSdLog) ** 2 + (drive * seen.kmSdLog) ** 2;
  const unwrittenVar = seen.written === "no" ? (drive * UNWRITTEN_SD) ** 2 : 0;
  const next = carry(belief, placeOf("level"), {
    value: clamp(at(belief, "level") - fall, MOST_MISSING, 1),
    slopes: isLost ? [] : [[placeOf("level"), 1], ...(teaches ? slow : [])],
    variance: ownVar + otherVar + unwrittenVar + (isLost ? levelVar : 0),
  });
  const open = learned.levelAtUtcMs === null ? null : isLost ? { drive: 0 } : teaches ? { drive } : null;
  return {
    ...learned,
    belief: next,
    open,
    assumedFull: null,
    levelAtUtcMs: learned.levelAtUtcMs === null ? null : seen.endUtcMs,
  };
}
/** Charge that a day asked for beyond an empty set is held as a level below 0, to here. */
const MOST_MISSING = -0.6;
