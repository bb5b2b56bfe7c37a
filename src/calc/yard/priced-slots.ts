import { Network } from "./flow.js";

/** Charging in whole slots on like sockets at a price per slot; slot t covers [t, t + 1). */
export interface PricedSlots {
  readonly vehicles: readonly {
    readonly arriveSlot: number;
    readonly departSlot: number;
    readonly slotsNeeded: number;
  }[];
  readonly sockets: number;
  readonly pricePerSlot: readonly number[];
}

/** Least money for all to be charged where a vehicle may pause: a flow of least cost; null when they do not fit. A bound on plans without pauses. */
export function leastCostPaused({ vehicles, sockets, pricePerSlot }: PricedSlots): number | null {
  const sink = 1 + vehicles.length + pricePerSlot.length;
  const network = new Network(sink + 1);
  vehicles.forEach(({ arriveSlot, departSlot, slotsNeeded }, v) => {
    network.join(0, 1 + v, { most: slotsNeeded });
    for (let t = Math.max(0, arriveSlot); t < Math.min(departSlot, pricePerSlot.length); t++)
      network.join(1 + v, 1 + vehicles.length + t, { most: 1 });
  });
  pricePerSlot.forEach((cost, t) => {
    network.join(1 + vehicles.length + t, sink, { most: sockets, cost });
  });
  const { flow, cost } = network.fill(0, sink);
  const wanted = vehicles.reduce((all, { slotsNeeded }) => all + slotsNeeded, 0);
  return flow >= wanted - 1e-6 ? cost : null;
}

interface Block {
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

function blocksOf(vehicle: PricedSlots["vehicles"][number], pricePerSlot: readonly number[]): Block[] {
  const { arriveSlot, departSlot, slotsNeeded } = vehicle;
  const last = Math.min(departSlot, pricePerSlot.length) - slotsNeeded;
  const blocks: Block[] = [];
  for (let from = Math.max(0, arriveSlot); from <= last; from++) {
    const to = from + slotsNeeded;
    blocks.push({ from, to, cost: pricePerSlot.slice(from, to).reduce((a, b) => a + b, 0) });
  }
  return blocks.sort((a, b) => a.cost - b.cost);
}

/** Least money where every vehicle takes one unbroken block: branch and bound, exact for some ten vehicles; null when they do not fit. */
export function leastCostUnbroken({ vehicles, sockets, pricePerSlot }: PricedSlots): number | null {
  const choices = vehicles.map((vehicle) => blocksOf(vehicle, pricePerSlot)).sort((a, b) => a.length - b.length);
  // The cheapest blocks of all vehicles not yet placed, as if each were alone.
  const rest = new Array<number>(choices.length + 1).fill(0);
  for (let v = choices.length - 1; v >= 0; v--)
    rest[v] = (rest[v + 1] as number) + (choices[v]?.[0]?.cost ?? Number.POSITIVE_INFINITY);
  const used = pricePerSlot.map(() => 0);
  let best = Number.POSITIVE_INFINITY;
  const put = ({ from, to }: Block, by: number) => {
    for (let t = from; t < to; t++) used[t] = (used[t] as number) + by;
  };
  const go = (v: number, cost: number): void => {
    if (v === choices.length) best = Math.min(best, cost);
    for (const block of choices[v] ?? []) {
      if (cost + block.cost + (rest[v + 1] as number) >= best - 1e-9) return;
      if (used.slice(block.from, block.to).some((count) => count >= sockets)) continue;
      put(block, 1);
      go(v + 1, cost + block.cost);
      put(block, -1);
    }
  };
  go(0, 0);
  return best === Number.POSITIVE_INFINITY ? null : best;
}
