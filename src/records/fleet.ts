import { type AnyRecord, type KindName, type Kinds, kindNames, kinds } from "./kinds.js";

export const FLEET_FORMAT = "noonplug-fleet";
export const FLEET_VERSION = 1;

/** The records of a fleet, listed by kind. */
export type FleetLists = { readonly [N in KindName as Kinds[N]["list"]]: readonly AnyRecord<N>[] };

/** Everything a fleet file holds; `invented` marks examples that no real fleet drove. */
export interface Fleet extends FleetLists {
  readonly format: typeof FLEET_FORMAT;
  readonly version: typeof FLEET_VERSION;
  readonly title: string;
  readonly invented: boolean;
}

/** A fleet of the lists given; those not given are empty. */
export function fleetOf(
  head: { readonly title: string; readonly invented: boolean },
  lists: Partial<FleetLists>,
): Fleet {
  const empty = Object.fromEntries(kindNames.map((kind) => [kinds[kind].list, []])) as unknown as FleetLists;
  return { format: FLEET_FORMAT, version: FLEET_VERSION, ...head, ...empty, ...lists };
}

/** The records of one kind in a fleet. */
export const listedIn = <K extends KindName>(fleet: FleetLists, kind: K): readonly AnyRecord<K>[] =>
  fleet[kinds[kind].list] as unknown as readonly AnyRecord<K>[];
