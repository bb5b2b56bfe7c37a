/** One figure of the bench: `ratio` is the time (or memory) taken over what it is held against. */
export interface BenchRow {
  readonly name: string;
  readonly took: string;
  readonly against: string;
  readonly ratio: number;
}

/** Best of several runs in milliseconds: the machine is shared, and only the shortest time is that of the code. */
export function bestMs(runs: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const began = performance.now();
    work();
    best = Math.min(best, performance.now() - began);
  }
  return best;
}

export const againstMs = (name: string, tookMs: number, targetMs: number): BenchRow => ({
  name,
  took: `${tookMs < 10 ? tookMs.toFixed(1) : Math.round(tookMs)} ms`,
  against: `${targetMs} ms wanted`,
  ratio: tookMs / targetMs,
});
