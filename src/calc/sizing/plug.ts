import { type Charger, chargeW, type StoreModel, storedShare } from "../battery/index.js";

const NODES = 100;
/** Stands for never, where a cold set takes nothing; finite, so that differences stay numbers. [h] */
const NEVER_H = 1e6;

/** Charging a set from the plug, laid out by level: hours and Wh at the meter from empty up to each node. */
export interface PlugTable {
  readonly hours: Float64Array;
  readonly gridWh: Float64Array;
}

export function plugTable(store: StoreModel, charger: Charger): PlugTable {
  const hours = new Float64Array(NODES + 1);
  const gridWh = new Float64Array(NODES + 1);
  for (let i = 1; i <= NODES; i++) {
    const share = (i - 0.5) / NODES;
    const intoWh = store.usableWh / NODES / storedShare(store, share);
    const w = chargeW(store, charger, share);
    hours[i] = (hours[i - 1] as number) + (w > 0 ? intoWh / w : NEVER_H);
    gridWh[i] = (gridWh[i - 1] as number) + intoWh / charger.efficiency;
  }
  return { hours, gridWh };
}

const at = (table: Float64Array, share: number): number => {
  const place = Math.min(1, Math.max(0, share)) * NODES;
  const node = Math.min(NODES - 1, place | 0);
  const low = table[node] as number;
  return place === node ? low : low + ((table[node + 1] as number) - low) * (place - node);
};

/** Level reached from `from` towards `to` within `hours`; a set that takes nothing stays where it is. */
export function reached(table: PlugTable, from: number, to: number, hours: number): number {
  if (to <= from) return from;
  const most = at(table.hours, from) + hours;
  if (at(table.hours, to) <= most) return to;
  let low = from;
  let high = to;
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (at(table.hours, middle) <= most) low = middle;
    else high = middle;
  }
  return low;
}

export const gridBetween = (table: PlugTable, from: number, to: number): number =>
  to > from ? at(table.gridWh, to) - at(table.gridWh, from) : 0;
