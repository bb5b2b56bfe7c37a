import { acceptanceW, type StoreModel, storedShare } from "../battery/index.js";

/** The set as the day's steps ask it: its curves laid out on even steps of level, so that a look-up needs no search. */
export interface StoreTable extends StoreModel {
  readonly acceptanceByLevelW: Float64Array;
  readonly storedByLevel: Float64Array;
  readonly nodesPerWh: number;
  /** Up to this level the set takes and keeps the same share whatever its level: charging runs straight. */
  readonly straightToWh: number;
}

const NODES = 128;

export function storeTable(store: StoreModel): StoreTable {
  const lay = (value: (share: number) => number) =>
    Float64Array.from({ length: NODES + 2 }, (_, i) => value(Math.min(1, i / NODES)));
  const acceptanceByLevelW = lay((share) => acceptanceW(store, share));
  const storedByLevel = lay((share) => storedShare(store, share));
  let straight = 0;
  while (straight < NODES && sameAfter(acceptanceByLevelW, straight) && sameAfter(storedByLevel, straight)) straight++;
  const nodesPerWh = NODES / store.usableWh;
  return { ...store, acceptanceByLevelW, storedByLevel, nodesPerWh, straightToWh: straight / nodesPerWh };
}

const sameAfter = (table: Float64Array, node: number): boolean => table[node + 1] === table[node];

/** Value of an even table at a level. */
export function atLevel(table: Float64Array, store: StoreTable, levelWh: number): number {
  const place = levelWh * store.nodesPerWh;
  const node = place | 0;
  const low = table[node] as number;
  return low + ((table[node + 1] as number) - low) * (place - node);
}
