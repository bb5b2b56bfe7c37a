interface Edge {
  readonly to: number;
  left: number;
  readonly cost: number;
  /** Place of the edge that gives the flow back. */
  readonly back: number;
}

/** A small network for exact checks: flow of least cost by cheapest extra paths. Source: Ahuja, Magnanti, Orlin, Network Flows (1993), section 9.7. */
export class Network {
  readonly #from: Edge[][];

  constructor(nodes: number) {
    this.#from = Array.from({ length: nodes }, () => []);
  }

  join(from: number, to: number, { most, cost = 0 }: { readonly most: number; readonly cost?: number }): void {
    const out = this.#from[from] as Edge[];
    const home = this.#from[to] as Edge[];
    out.push({ to, left: most, cost, back: home.length });
    home.push({ to: from, left: 0, cost: -cost, back: out.length - 1 });
  }

  /** Most that flows from `source` to `sink`, and the least it costs. */
  fill(source: number, sink: number): { readonly flow: number; readonly cost: number } {
    let flow = 0;
    let cost = 0;
    for (;;) {
      const path = this.#cheapest(source, sink);
      if (!path) return { flow, cost };
      const most = Math.min(...path.map((edge) => edge.left));
      for (const edge of path) {
        edge.left -= most;
        (this.#from[edge.to]?.[edge.back] as Edge).left += most;
        cost += most * edge.cost;
      }
      flow += most;
    }
  }

  /** Bellman and Ford: costs may be below zero. */
  #cheapest(source: number, sink: number): Edge[] | null {
    const cost = this.#from.map(() => Number.POSITIVE_INFINITY);
    const by: ({ readonly node: number; readonly edge: Edge } | null)[] = this.#from.map(() => null);
    cost[source] = 0;
    for (let round = 0, changed = true; changed && round < this.#from.length; round++) {
      changed = false;
      this.#from.forEach((edges, node) => {
        for (const edge of edges) {
          const reached = (cost[node] as number) + edge.cost;
          if (edge.left < 1e-9 || reached >= (cost[edge.to] as number) - 1e-12) continue;
          cost[edge.to] = reached;
          by[edge.to] = { node, edge };
          changed = true;
        }
      });
    }
    if (cost[sink] === Number.POSITIVE_INFINITY) return null;
    const path: Edge[] = [];
    for (let at = sink, step = by[at]; at !== source && step; at = step.node, step = by[at]) path.push(step.edge);
    return path;
  }
}
