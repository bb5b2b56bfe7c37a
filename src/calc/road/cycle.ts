import { type RoadLoadInput, roadLoad } from "./load.js";

/** A prescribed drive: speed straight between points whose times rise. */
export interface Trace {
  readonly timesS: readonly number[];
  readonly speedsKmh: readonly number[];
}
export const traceOfPoints = (points: readonly (readonly [timeS: number, speedKmh: number])[]): Trace => ({
  timesS: points.map(([timeS]) => timeS),
  speedsKmh: points.map(([, speedKmh]) => speedKmh),
});
/** A trace of one value a second from 0 s. */
export const traceOfSeconds = (speedsKmh: readonly number[]): Trace => ({
  timesS: speedsKmh.map((_, second) => second),
  speedsKmh,
});

export interface CycleSummary {
  readonly distanceM: number;
  readonly durationS: number;
  readonly maxKmh: number;
  /** Seconds between two points that are both at rest. */
  readonly stoppedS: number;
}

export function cycleSummary({ timesS, speedsKmh }: Trace): CycleSummary {
  let distanceM = 0;
  let stoppedS = 0;
  for (let i = 1; i < timesS.length; i++) {
    const seconds = (timesS[i] as number) - (timesS[i - 1] as number);
    const twoSpeeds = (speedsKmh[i] as number) + (speedsKmh[i - 1] as number);
    distanceM += (twoSpeeds / 7.2) * seconds;
    if (twoSpeeds === 0) stoppedS += seconds;
  }
  const durationS = (timesS.at(-1) ?? 0) - (timesS[0] ?? 0);
  return { distanceM, durationS, maxKmh: Math.max(...speedsKmh), stoppedS };
}

export interface CycleCar extends RoadLoadInput {
  /** Apparent mass over mass while the speed changes. */
  readonly rotatingFactor: number;
}
export interface CycleWork {
  readonly distanceM: number;
  readonly durationS: number;
  /** Positive work at the wheel. */
  readonly driveWh: number;
  /** Work the brakes or the motor take at the wheel. */
  readonly brakeWh: number;
  readonly peakW: number;
}

/**
 * Work at the wheel over a trace, in mid-point steps of `stepS`; `capKmh` clips the trace and the distance shrinks with it.
 * Source: road load of Gillespie (1992) ch. 4 with rotatingFactor x mass x acceleration.
 */
export function cycleWork(
  trace: Trace,
  car: CycleCar,
  how: { readonly capKmh: number | null; readonly stepS: number },
): CycleWork {
  const capMs = (how.capKmh ?? Number.POSITIVE_INFINITY) / 3.6;
  const inertiaKg = car.massKg * car.rotatingFactor;
  const startS = trace.timesS[0] ?? 0;
  const durationS = (trace.timesS.at(-1) ?? 0) - startS;
  const steps = Math.round(durationS / how.stepS);
  const speedAt = follow(trace);
  let before = Math.min(capMs, speedAt(startS));
  let distanceM = 0;
  let driveWs = 0;
  let brakeWs = 0;
  let peakW = 0;
  for (let i = 1; i <= steps; i++) {
    const after = Math.min(capMs, speedAt(startS + i * how.stepS));
    const middle = (before + after) / 2;
    const speedingN = (inertiaKg * (after - before)) / how.stepS;
    const powerW = (roadLoad(car, middle).totalN + speedingN) * middle;
    const fastest = Math.max(before, after);
    distanceM += middle * how.stepS;
    if (powerW > 0) driveWs += powerW * how.stepS;
    else brakeWs -= powerW * how.stepS;
    peakW = Math.max(peakW, (roadLoad(car, fastest).totalN + speedingN) * fastest); // at the faster end of the step
    before = after;
  }
  return { distanceM, durationS, driveWh: driveWs / 3600, brakeWh: brakeWs / 3600, peakW };
}

/** Reads a trace in order of time, m/s. */
function follow({ timesS, speedsKmh }: Trace): (timeS: number) => number {
  let i = 1;
  return (timeS) => {
    while (i < timesS.length - 1 && timeS > (timesS[i] as number)) i++;
    const t0 = timesS[i - 1] as number;
    const v0 = speedsKmh[i - 1] as number;
    const share = Math.min(1, (timeS - t0) / ((timesS[i] as number) - t0));
    return (v0 + ((speedsKmh[i] as number) - v0) * share) / 3.6;
  };
}

/**
 * Energy from the set for a work at the wheel with one drive efficiency, Wh. Auxiliaries run the whole time, standing included; recovered energy
 * passes the same efficiency a second time.
 */
export function cycleBatteryWh(
  work: CycleWork,
  line: { readonly driveEfficiency: number; readonly auxiliaryW: number; readonly regenShare: number },
): number {
  const recoveredWh = line.regenShare * line.driveEfficiency * work.brakeWh;
  return work.driveWh / line.driveEfficiency + (line.auxiliaryW * work.durationS) / 3600 - recoveredWh;
}
