import type { Leg, RoadVehicle } from "../../calc/road/index.js";
import type { RoundPart, Vehicle } from "../index.js";

export function roadVehicleOf(vehicle: Vehicle): RoadVehicle {
  const { kerbKg, driverKg, cdaM2, crr, tyres, drive, battery } = vehicle;
  return { kerbKg, driverKg, cdaM2, crr, softTyres: tyres === "soft", nominalV: battery.nominalV, ...drive };
}

type LegRecord = Extract<RoundPart, { kind: "leg" }>;

export function legOf(part: LegRecord, on: Pick<Leg, "payloadKg" | "wet" | "airDensityKgM3">): Leg {
  const { km, minutes, climbM, dropM, surface, stopsPerKm } = part;
  return { km, minutes, climbM, dropM, surface, stopsPerKm, ...on };
}
