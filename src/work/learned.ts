import { learnedFactors } from "../calc/learn/doubt.js";
import { newPlaceSky } from "../calc/learn/sky.js";
import type { Vehicle } from "../records/index.js";
import { type LearnRecords, learnUntil, startLearning } from "../records/map/learn.js";
import { clamp } from "../units/numbers.js";

export interface LearnAsk {
  readonly records: LearnRecords;
  readonly nowUtcMs: number;
}

/**
 * What a vehicle's own days taught, in the three figures its record keeps: drive energy against the physics, how far days scatter about it,
 * and from how many days. A set that holds less than its plate says counts as more energy for each km: the gauge cannot tell them apart.
 */
export function learnVehicle({ records, nowUtcMs }: LearnAsk): NonNullable<Vehicle["learned"]> {
  const { vehicle } = learnUntil(startLearning(records.vehicle), records, newPlaceSky(records.yard.id), nowUtcMs);
  const usual = { wet: false, load: records.vehicle.usual.loadClass, driver: null };
  const { driveMiddle, driveSdLog, capacity } = learnedFactors(vehicle, usual);
  const rounded = (value: number) => Math.round(value * 1e4) / 1e4;
  return {
    driveFactor: rounded(clamp(driveMiddle / capacity, 0.2, 5)),
    spread: rounded(clamp(driveSdLog, 0, 1)),
    days: Math.min(10_000, vehicle.days),
  };
}
