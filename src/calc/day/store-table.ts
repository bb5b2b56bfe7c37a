import { acceptanceW, type StoreModel, storedShare } from "../battery/index.js";

/** The set as the day's steps ask it: its curves laid out on even steps of level, so that a look-up needs no search. */
export interface StoreTable extends StoreModel {
  readonly acceptanceByLevelW: Float64Array;
  readonly storedByLevel: Float64Array;
  readonly nodesPerWh: number;
}

const NODES = 128;

export function storeTable(store: StoreModel): StoreTable {
  const lay = (value: (share: number) => number) =>
    Float64Array.from({ length: NODES + 2 }, (_, i) => value(Math.min(1, i / NODES)));
  return {
    ...store,
    acceptanceByLevelW: lay((share) => acceptanceW(store, share)),
    storedByLevel: lay((share) => storedShare(store, share)),
    nodesPerWh: NODES / store.usableWh,
  };
}

/** Value of an even table at a level. */
export function atLevel(table: Float64Array, store: StoreTable, levelWh: number): number {
  const place = levelWh * store.nodesPerWh;
  const node = place | 0;
  const low = table[node] as number;
  return low + ((table[node + 1] as number) - low) * (place - node);
}
