import { charge } from "../../calc/learn/charge.js";
import { passDays } from "../../calc/learn/learn-day.js";
import type { VehicleLearned } from "../../calc/learn/parts.js";
import { readGauge } from "../../calc/learn/read-gauge.js";
import type { PlaceSky } from "../../calc/learn/sky.js";
import { civilDate, utcMsAt } from "../../units/zone.js";
import { drove, type Lesson } from "./learn-drive.js";
import { eventsBetween, type LearnEvent, type LearnRecords } from "./learn-events.js";
import { type Ground, groundOf, stood } from "./learn-look-back.js";
import { chargedOver } from "./learn-night.js";
import type { SunSeen } from "./learn-place.js";

export { newPlaceSky } from "../../calc/learn/sky.js";
export type { Lesson } from "./learn-drive.js";
export type { LearnRecords } from "./learn-events.js";
export { learnPlace, type SunSeen } from "./learn-place.js";
export { startLearning } from "./learn-start.js";

/**
 * Takes in everything on record after what was taken in before, up to `untilUtcMs`. Readings, driving and charging follow each other in time,
 * and the level held likely goes with them. Pure: the same records in the same steps give the same state.
 */
export function learnUntil(before: VehicleLearned, records: LearnRecords, place: PlaceSky, untilUtcMs: number): Lesson {
  const from = before.throughUtcMs ?? firstUtcMs(records, untilUtcMs);
  const ground = groundOf(records, place);
  let vehicle = before;
  const suns: SunSeen[] = [];
  for (const event of eventsBetween(ground, from, untilUtcMs)) {
    vehicle = passDays(vehicle, civilDate(event.atUtcMs, records.yard.zone));
    const lesson = takeIn(vehicle, event, ground);
    vehicle = lesson.vehicle;
    suns.push(...lesson.suns);
  }
  return { vehicle: { ...vehicle, throughUtcMs: Math.max(from, untilUtcMs) }, suns };
}

function firstUtcMs({ readings, entries, yard }: LearnRecords, untilUtcMs: number): number {
  const dates = entries.map((entry) => utcMsAt(entry.date, 0, yard.zone));
  return Math.min(untilUtcMs, ...readings.map((reading) => reading.atUtcMs - 1), ...dates);
}

function takeIn(before: VehicleLearned, event: LearnEvent, ground: Ground): Lesson {
  switch (event.kind) {
    case "lost":
      return { vehicle: charge(before, { kind: "unknown" }), suns: [] };
    case "gauge":
      return { vehicle: readGauge(stood(before, event.atUtcMs, ground), event.seen), suns: [] };
    case "drive":
      return drove(before, event.day, event.atUtcMs, event.last, ground);
    case "charge":
      return { vehicle: chargedOver(before, event.night, event.atUtcMs, ground), suns: [] };
  }
}
