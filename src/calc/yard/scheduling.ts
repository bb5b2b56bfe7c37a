import { Network } from "./flow.js";

/** Charging seen as plain jobs on like sockets: what no plan can beat, and the small questions whose exact answer is known. */

/** Hours of every job, when it is there and when it has to be done. */
export interface TimedJobs {
  readonly jobHours: readonly number[];
  readonly readyH: readonly number[];
  readonly dueH: readonly number[];
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const EPS = 1e-9;

/** Shortest time in h to charge all where a job may stop and go on at another socket. Source: McNaughton (1959). */
export const splitMakespanH = (jobHours: readonly number[], sockets: number): number =>
  Math.max(0, ...jobHours, sum(jobHours) / sockets);

/** Whether all can be done in time where a job may stop and go on at another socket. Source: Horn (1974), as a flow from jobs to the spans between times. */
export function fitsSplit({ jobHours, readyH, dueH }: TimedJobs, sockets: number): boolean {
  const times = [...new Set([...readyH, ...dueH])].sort((a, b) => a - b);
  const jobs = jobHours.length;
  const sink = 1 + jobs + times.length;
  const network = new Network(sink + 1);
  jobHours.forEach((hours, job) => {
    network.join(0, 1 + job, { most: hours });
  });
  for (let i = 0; i + 1 < times.length; i++) {
    const [from, to] = [times[i] as number, times[i + 1] as number];
    network.join(1 + jobs + i, sink, { most: sockets * (to - from) });
    for (let job = 0; job < jobs; job++)
      if ((readyH[job] as number) <= from + EPS && (dueH[job] as number) >= to - EPS)
        network.join(1 + job, 1 + jobs + i, { most: to - from });
  }
  return network.fill(0, sink).flow >= sum(jobHours) - 1e-6;
}

/** Fewest jobs late on one socket, all ready at 0. Source: Moore (1968), Hodgson: when one would be late, drop the longest taken so far. */
export function fewestLate(jobHours: readonly number[], dueH: readonly number[]): number {
  const order = jobHours.map((_, i) => i).sort((a, b) => (dueH[a] as number) - (dueH[b] as number));
  const taken: number[] = [];
  let clockH = 0;
  for (const job of order) {
    taken.push(jobHours[job] as number);
    clockH += jobHours[job] as number;
    if (clockH <= (dueH[job] as number) + EPS) continue;
    const longest = Math.max(...taken);
    taken.splice(taken.indexOf(longest), 1);
    clockH -= longest;
  }
  return jobHours.length - taken.length;
}

/** Lateness in h of the best schedule of the rest where jobs may be split: earliest due first. No unsplit schedule beats it. */
function splitLatenessH({ jobHours, readyH, dueH }: TimedJobs, rest: readonly number[], fromH: number): number {
  const left = new Map(rest.map((job) => [job, jobHours[job] as number]));
  let clockH = fromH;
  let worst = Number.NEGATIVE_INFINITY;
  while (left.size > 0) {
    const ready = [...left.keys()].filter((job) => (readyH[job] as number) <= clockH + EPS);
    const next = Math.min(...[...left.keys()].map((job) => readyH[job] as number).filter((at) => at > clockH + EPS));
    if (ready.length === 0) {
      clockH = next;
      continue;
    }
    const job = ready.reduce((a, b) => ((dueH[b] as number) < (dueH[a] as number) ? b : a));
    const run = Math.min(left.get(job) as number, next - clockH);
    clockH += run;
    const remains = (left.get(job) as number) - run;
    if (remains > EPS) left.set(job, remains);
    else {
      left.delete(job);
      worst = Math.max(worst, clockH - (dueH[job] as number));
    }
  }
  return worst;
}

/** Least greatest lateness in h on one socket with ready times, jobs not split: branch and bound. Source: Pinedo, Scheduling, section 3.2. */
export function leastMaxLatenessH(jobs: TimedJobs): number {
  const { jobHours, readyH, dueH } = jobs;
  let best = Number.POSITIVE_INFINITY;
  const go = (rest: readonly number[], clockH: number, worst: number): void => {
    if (rest.length === 0) best = Math.min(best, worst);
    if (rest.length === 0 || Math.max(worst, splitLatenessH(jobs, rest, clockH)) >= best - EPS) return;
    const starts = (job: number) => Math.max(clockH, readyH[job] as number);
    const first = Math.min(...rest.map((job) => starts(job) + (jobHours[job] as number)));
    // A job that could only start after another one has ended never comes first.
    const next = rest.filter((job) => starts(job) < first - EPS || jobHours[job] === 0);
    for (const job of next.sort((a, b) => (dueH[a] as number) - (dueH[b] as number))) {
      const endH = starts(job) + (jobHours[job] as number);
      go(
        rest.filter((other) => other !== job),
        endH,
        Math.max(worst, endH - (dueH[job] as number)),
      );
    }
  };
  go(
    jobHours.map((_, i) => i),
    Math.min(0, ...readyH),
    Number.NEGATIVE_INFINITY,
  );
  return best;
}

/** Time in h until all are charged, unsplit: the longest remaining job to the socket that is free first. At most 4/3 - 1/(3 sockets) of the best. Source: Graham (1969). */
export function longestFirstH(jobHours: readonly number[], sockets: number): number {
  const busyH = new Array<number>(sockets).fill(0);
  for (const hours of [...jobHours].sort((a, b) => b - a)) {
    const free = busyH.indexOf(Math.min(...busyH));
    busyH[free] = (busyH[free] as number) + hours;
  }
  return Math.max(0, ...busyH);
}

/** Shortest time in h until all are charged, unsplit: branch and bound from the longest-first schedule down to the split one. For some twenty jobs. */
export function shortestMakespanH(jobHours: readonly number[], sockets: number): number {
  const jobs = [...jobHours].sort((a, b) => b - a);
  const least = splitMakespanH(jobs, sockets);
  const busyH = new Array<number>(sockets).fill(0);
  let best = longestFirstH(jobs, sockets);
  const go = (job: number): void => {
    if (best <= least + EPS) return;
    if (job === jobs.length) {
      best = Math.min(best, Math.max(...busyH));
      return;
    }
    const hours = jobs[job] as number;
    const tried = new Set<number>(); // sockets that are busy equally long are alike
    for (let i = 0; i < sockets; i++) {
      const before = busyH[i] as number;
      if (tried.has(before) || before + hours >= best - EPS) continue;
      tried.add(before);
      busyH[i] = before + hours;
      go(job + 1);
      busyH[i] = before;
    }
  };
  go(0);
  return best;
}

/** Charging that comes round: work and period in the same unit, due at the end of each period. */
export interface PeriodicTask {
  readonly work: number;
  readonly period: number;
}

/**
 * Whether repeated charges fit on one socket, served by due time or in the fixed order of their periods.
 * Source: Liu and Layland (1973) for both; the fixed order by the response-time test of Joseph and Pandya (1986), which is exact.
 */
export function periodicFit(tasks: readonly PeriodicTask[]): {
  readonly utilisation: number;
  readonly earliestDueFirstFits: boolean;
  readonly shortestPeriodFirstFits: boolean;
} {
  const utilisation = sum(tasks.map(({ work, period }) => work / period));
  const order = [...tasks].sort((a, b) => a.period - b.period);
  return {
    utilisation,
    earliestDueFirstFits: utilisation <= 1 + EPS,
    shortestPeriodFirstFits: order.every((_, i) => respondsInTime(order, i)),
  };
}

function respondsInTime(order: readonly PeriodicTask[], i: number): boolean {
  const task = order[i] as PeriodicTask;
  for (let response = task.work; ; ) {
    if (response > task.period + EPS) return false;
    const before = order.slice(0, i);
    const next = task.work + sum(before.map(({ work, period }) => work * Math.ceil(response / period - EPS)));
    if (next <= response + EPS) return true;
    response = next;
  }
}
