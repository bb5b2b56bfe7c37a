import { breakerFor, type CableRun, cableDrop, continuousLimitA } from "../../../src/calc/yard/circuit.js";
import { type GassingSet, ventilation } from "../../../src/calc/yard/gas.js";
import { leastCostPaused, leastCostUnbroken, type PricedSlots } from "../../../src/calc/yard/priced-slots.js";
import {
  fewestLate,
  fitsSplit,
  leastMaxLatenessH,
  longestFirstH,
  periodicFit,
  shortestMakespanH,
  splitMakespanH,
  type TimedJobs,
} from "../../../src/calc/yard/scheduling.js";
import { calendarText, foldedLine, octetsOf } from "../../../src/records/export/ical.js";

interface Jobs {
  readonly jobHours: readonly number[];
  readonly sockets: number;
}

export const served = {
  breakerContinuousLimit: (given: { breakerA: number }) => ({ maxContinuousA: continuousLimitA(given.breakerA) }),
  continuousLoadBreaker: (given: { continuousA: readonly number[]; ratingsA: readonly number[] }) => ({
    ...breakerFor(given.continuousA, given.ratingsA),
  }),
  voltageDrop: (given: CableRun) => ({ ...cableDrop(given) }),
  hydrogenVentilation: (given: GassingSet) => ({ ...ventilation([given]) }),
  calendarEscape: (given: { text: string }) => ({ escaped: calendarText(given.text) }),
  calendarFold: (given: { line: string }) => ({
    octets: octetsOf(given.line),
    physicalLines: foldedLine(given.line),
  }),
  chargingFeasible: (given: TimedJobs & Jobs) => ({ feasible: fitsSplit(given, given.sockets) }),
  fewestLate: (given: TimedJobs) => ({ late: fewestLate(given.jobHours, given.dueH) }),
  leastMaxLateness: (given: TimedJobs) => ({ maxLatenessH: leastMaxLatenessH(given) }),
  longestFirstMakespan: ({ jobHours, sockets }: Jobs) => ({
    longestFirstH: longestFirstH(jobHours, sockets),
    bestH: shortestMakespanH(jobHours, sockets),
  }),
  mcnaughtonMakespan: ({ jobHours, sockets }: Jobs) => ({ makespanH: splitMakespanH(jobHours, sockets) }),
  periodicTasksFit: (given: { tasksWorkPeriod: readonly (readonly [number, number])[] }) => ({
    ...periodicFit(given.tasksWorkPeriod.map(([work, period]) => ({ work, period }))),
  }),
  pricedSlots: (given: PricedSlots & { contiguous: boolean }) => ({
    leastCost: given.contiguous ? leastCostUnbroken(given) : leastCostPaused(given),
  }),
};
