import type { LegPart, Round, RoundPart, StopPart } from "../../../records/index.js";

/** Metres of climb a km that the words stand for; common practice, no source. */
export const CLIMB_PER_KM = { flat: 0, some: 10, hills: 25 } as const;
export type HillWord = keyof typeof CLIMB_PER_KM;
/** Full stops a km that the words stand for; common practice, no source. */
export const STOPS_PER_KM = { few: 0.5, some: 2, many: 5 } as const;
export type StopWord = keyof typeof STOPS_PER_KM;

const FIRST_WAY: LegPart = {
  kind: "leg",
  km: 5,
  minutes: 20,
  climbM: 0,
  dropM: 0,
  surface: "asphalt",
  surroundings: "town",
  stopsPerKm: 2,
  headingDeg: null,
};
const FIRST_STOP = {
  kind: "stop",
  minutes: 10,
  shade: "part",
  sideDeg: null,
  payloadChangeKg: 0,
  socketKw: null,
} as const;

/** A way like the last one: the same road is the likeliest guess. */
export function newWay(parts: readonly RoundPart[]): LegPart {
  const last = parts.findLast((part) => part.kind === "leg");
  if (!last) return FIRST_WAY;
  const { name: _name, ...road } = last;
  return { ...road, climbM: last.dropM, dropM: last.climbM, headingDeg: backOf(last.headingDeg) };
}
const backOf = (deg: number | null): number | null => (deg === null ? null : (deg + 180) % 360);

export const newStop = (name: string): StopPart => ({ ...FIRST_STOP, name });

/** Out, a stop, and back. */
export const newRound = (of: { id: string; yardId: string; name: string; stop: string }): Round => ({
  id: of.id,
  v: 1,
  yardId: of.yardId,
  name: of.name,
  parts: [FIRST_WAY, newStop(of.stop), FIRST_WAY],
});

/** A way of another length: its climb, drop and, where nobody typed them, its minutes go with it. */
export function withKm(leg: LegPart, km: number, keepMinutes: boolean): LegPart {
  const times = leg.km > 0 ? km / leg.km : 1;
  return {
    ...leg,
    km,
    climbM: Math.round(leg.climbM * times),
    dropM: Math.round(leg.dropM * times),
    minutes: keepMinutes ? leg.minutes : Math.max(1, Math.round(leg.minutes * times)),
  };
}

export const withHills = (leg: LegPart, word: HillWord): LegPart => {
  const metres = Math.round(leg.km * CLIMB_PER_KM[word]);
  return { ...leg, climbM: metres, dropM: metres };
};

/** The word nearest to a climb, when it is one of the three. */
export const hillWordOf = (leg: LegPart): HillWord | null =>
  (Object.keys(CLIMB_PER_KM) as HillWord[]).find((word) => {
    const metres = Math.round(leg.km * CLIMB_PER_KM[word]);
    return leg.climbM === metres && leg.dropM === metres;
  }) ?? null;

export const moved = (parts: readonly RoundPart[], from: number, by: -1 | 1): readonly RoundPart[] => {
  const to = from + by;
  const part = parts[from];
  if (!part || to < 0 || to >= parts.length) return parts;
  const rest = parts.filter((_, n) => n !== from);
  return [...rest.slice(0, to), part, ...rest.slice(to)];
};

/** Kg on board after each part, from a load at the start, and how much more was taken off there than was on it. */
export function loadsAfter(
  parts: readonly RoundPart[],
  startKg: number,
): readonly { readonly kg: number; readonly missingKg: number }[] {
  let kg = startKg;
  return parts.map((part) => {
    const after = part.kind === "stop" ? kg + part.payloadChangeKg : kg;
    kg = Math.max(0, after);
    return { kg, missingKg: Math.max(0, -after) };
  });
}
