/** One figure of the bench: `ratio` is the time (or memory) taken over what it is held against. */
export interface BenchRow {
  readonly name: string;
  readonly took: string;
  readonly against: string;
  readonly ratio: number;
}

/** Processor time of this program so far, of all its threads. [us] The wall clock would count what else a shared machine does. */
export function processorUs(): number {
  const { user, system } = process.cpuUsage();
  return user + system;
}

/** Best of several runs, processor time in milliseconds: the shortest is that of the code, with the least of the compiler and collector. */
export function bestMs(runs: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const began = processorUs();
    work();
    best = Math.min(best, (processorUs() - began) / 1000);
  }
  return best;
}

export const againstMs = (name: string, tookMs: number, targetMs: number): BenchRow => ({
  name,
  took: `${tookMs < 10 ? tookMs.toFixed(1) : Math.round(tookMs)} ms`,
  against: `${targetMs} ms wanted`,
  ratio: tookMs / targetMs,
});
