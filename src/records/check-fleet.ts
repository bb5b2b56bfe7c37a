import type { Problem } from "../units/outcome.js";
import { checkRecord, type Found } from "./check.js";
import type { Shift } from "./day.js";
import { type FleetLists, listedIn } from "./fleet.js";
import { kindNames, kinds } from "./kinds.js";
import type { Round } from "./round.js";
import type { Vehicle } from "./vehicle.js";

/** Every record by itself, then what they say of each other: ids and plates twice, names of records that are not there. */
export function checkFleet(fleet: FleetLists): Found {
  const each = kindNames.flatMap((kind) =>
    listedIn(fleet, kind).map((record, n) => under(`${kinds[kind].list}.${n}`, checkRecord(kind, record))),
  );
  const known = knownOf(fleet);
  return {
    errors: [...each.flatMap((found) => found.errors), ...doubled(fleet), ...strays(fleet, known)],
    warnings: [...each.flatMap((found) => found.warnings), ...oddShifts(fleet, known), ...plugless(fleet)],
  };
}

function under(at: string, found: Found): Found {
  const move = (problem: Problem): Problem => ({ ...problem, where: `${at}.${problem.where}` });
  return { errors: found.errors.map(move), warnings: found.warnings.map(move) };
}

interface Known {
  readonly yards: ReadonlySet<string>;
  readonly vehicles: ReadonlyMap<string, Vehicle>;
  readonly rounds: ReadonlyMap<string, Round>;
}
const knownOf = (fleet: FleetLists): Known => ({
  yards: new Set(fleet.yards.map((yard) => yard.id)),
  vehicles: new Map(fleet.vehicles.map((vehicle) => [vehicle.id, vehicle])),
  rounds: new Map(fleet.rounds.map((round) => [round.id, round])),
});

/** People read `KA 1` and `ka-1` as one plate. */
const plainPlate = (plate: string): string => plate.toUpperCase().replace(/[\s.-]/g, "");

function doubled(fleet: FleetLists): Problem[] {
  const ids = kindNames.flatMap((kind) =>
    twice(listedIn(fleet, kind), (record) => record.id).map((n) => ({
      code: "doubleId",
      where: `${kinds[kind].list}.${n}.id`,
      figures: { found: listedIn(fleet, kind)[n]?.id ?? "" },
    })),
  );
  const plates = twice(fleet.vehicles, (vehicle) => `${vehicle.yardId} ${plainPlate(vehicle.plate)}`).map((n) => ({
    code: "doublePlate",
    where: `vehicles.${n}.plate`,
    figures: { found: fleet.vehicles[n]?.plate ?? "" },
  }));
  return [...ids, ...plates];
}

/** Places of records whose key was met before. */
function twice<T>(records: readonly T[], keyOf: (record: T) => string): number[] {
  const met = new Set<string>();
  return records.flatMap((record, n) => {
    const key = keyOf(record);
    if (met.has(key)) return [n];
    met.add(key);
    return [];
  });
}

/** Names of yards, vehicles and rounds that the fleet does not hold, whatever kind of record names them. */
function strays(fleet: FleetLists, known: Known): Problem[] {
  return kindNames
    .flatMap((kind) =>
      listedIn(fleet, kind).flatMap((record, n) =>
        namesIn(record).flatMap(({ field, id }) => {
          const held = { yardId: known.yards, vehicleId: known.vehicles, roundId: known.rounds }[field];
          if (held.has(id)) return [];
          return [{ code: STRAY_CODE[field], where: `${kinds[kind].list}.${n}.${field}`, figures: { found: id } }];
        }),
      ),
    )
    .concat(
      fleet.vehicles.flatMap((vehicle, n) => {
        const id = vehicle.usual.roundId;
        if (id === null || known.rounds.has(id)) return [];
        return [{ code: STRAY_CODE.roundId, where: `vehicles.${n}.usual.roundId`, figures: { found: id } }];
      }),
    );
}
const STRAY_CODE = { yardId: "noSuchYard", vehicleId: "noSuchVehicle", roundId: "noSuchRound" } as const;

function namesIn(record: object): { readonly field: keyof typeof STRAY_CODE; readonly id: string }[] {
  const fields = record as Readonly<Record<string, unknown>>;
  return (["yardId", "vehicleId", "roundId"] as const).flatMap((field) => {
    const id = fields[field];
    return typeof id === "string" ? [{ field, id }] : [];
  });
}

function oddShifts(fleet: FleetLists, known: Known): Problem[] {
  return fleet.shifts.flatMap((shift, n) => {
    const vehicle = known.vehicles.get(shift.vehicleId);
    const round = known.rounds.get(shift.roundId);
    if (!vehicle || !round) return [];
    const where = `shifts.${n}`;
    const foreign = vehicle.yardId !== round.yardId ? [{ code: "roundOfOtherYard", where: `${where}.roundId` }] : [];
    return [...foreign, ...loadWarnings(shift, vehicle, round, where)];
  });
}

/** Kilograms on board at the start of a shift: what was typed, else the class of it. */
export const startLoadKg = (shift: Pick<Shift, "loadKg" | "loadClass">, vehicle: Pick<Vehicle, "fullLoadKg">): number =>
  shift.loadKg ?? vehicle.fullLoadKg * { empty: 0, half: 0.5, full: 1 }[shift.loadClass];

function loadWarnings(shift: Shift, vehicle: Vehicle, round: Round, where: string): Problem[] {
  let loadKg = startLoadKg(shift, vehicle);
  let mostKg = loadKg;
  let leastKg = loadKg;
  for (const part of round.parts) {
    if (part.kind !== "stop") continue;
    loadKg += part.payloadChangeKg;
    mostKg = Math.max(mostKg, loadKg);
    leastKg = Math.min(leastKg, loadKg);
  }
  const legalKg = vehicle.legalLoadKg ?? Number.POSITIVE_INFINITY;
  const over = mostKg > legalKg ? [{ code: "overLegalLoad", where, figures: { loadKg: mostKg, legalKg } }] : [];
  const under0 = leastKg < -1 ? [{ code: "unloadsMoreThanThere", where, figures: { loadKg: leastKg } }] : [];
  return [...over, ...under0];
}

/** A vehicle whose plug no socket of its yard takes; a yard without any socket charges elsewhere. */
function plugless(fleet: FleetLists): Problem[] {
  return fleet.vehicles.flatMap((vehicle, n) => {
    const sockets = fleet.sockets.filter((socket) => socket.yardId === vehicle.yardId);
    if (sockets.length === 0 || sockets.some((socket) => socket.plug === vehicle.charger.plug)) return [];
    return [{ code: "noSocketForPlug", where: `vehicles.${n}.charger.plug`, figures: { found: vehicle.charger.plug } }];
  });
}
