import type { Vehicle } from "../../../records/index.js";
import { roundOf } from "../../fleet.js";
import { kmOf } from "../round-km.js";

const NO_ROUND_KM = 40;

/** Km of the usual round, or a day's middle of the trade where there is none. */
export const usualKm = (vehicle: Vehicle): number => {
  const round = roundOf(vehicle.usual.roundId);
  return round ? Math.round(kmOf(round)) : NO_ROUND_KM;
};
