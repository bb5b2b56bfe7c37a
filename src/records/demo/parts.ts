import type { LegPart, RoundPart, StopPart } from "../round.js";

type Surface = LegPart["surface"];
type Surroundings = LegPart["surroundings"];

/** A leg of an invented round: km, minutes, then what differs from a flat town street. */
export const leg = (
  km: number,
  minutes: number,
  more: {
    climbM?: number;
    dropM?: number;
    on?: Surface;
    by?: Surroundings;
    stopsPerKm?: number;
    headingDeg?: number;
    name?: string;
  } = {},
): LegPart => ({
  kind: "leg",
  ...(more.name ? { name: more.name } : {}),
  km,
  minutes,
  climbM: more.climbM ?? 4 * km,
  dropM: more.dropM ?? 4 * km,
  surface: more.on ?? "asphalt",
  surroundings: more.by ?? "town",
  stopsPerKm: more.stopsPerKm ?? 1.5,
  headingDeg: more.headingDeg ?? null,
});

/** A stop of an invented round. */
export const stop = (
  name: string,
  minutes: number,
  more: {
    shade?: StopPart["shade"];
    loadKg?: number;
    sideDeg?: number;
    socketKw?: number;
    uses?: readonly ("lamp" | "fridge" | "grinder" | "fan")[];
  } = {},
): StopPart => ({
  kind: "stop",
  name,
  minutes,
  shade: more.shade ?? "part",
  sideDeg: more.sideDeg ?? null,
  payloadChangeKg: more.loadKg ?? 0,
  lampOn: more.uses?.includes("lamp") ?? false,
  fridgeOn: more.uses?.includes("fridge") ?? false,
  grinderOn: more.uses?.includes("grinder") ?? false,
  fanOn: more.uses?.includes("fan") ?? false,
  socketKw: more.socketKw ?? null,
});

/** There and back `times` over: a shuttle between two stands. */
export const shuttle = (times: number, there: readonly RoundPart[]): RoundPart[] =>
  Array.from({ length: times }, () => there).flat();
