export interface LaunchRun {
  readonly startAccelerationMs2: number;
  readonly dragPerM: number;
  /** Up to here the motor gives full torque. */
  readonly criticalSpeedMs: number;
  readonly aboveConstantMs2: number;
  readonly abovePerSpeedPerS: number;
  readonly abovePowerM2S3: number;
}
const STEP_S = 0.01;

/**
 * Speed and distance at rising times after a full-throttle start from rest, fourth-order Runge-Kutta.
 * dv/dt = start acceleration - drag v2 below the critical speed, constant - slope v + power/v - drag v2 from it on.
 * Source: J. Larminie, J. Lowry, Electric Vehicle Technology Explained, ch. 7.
 */
export function launchRun(run: LaunchRun, timesS: readonly number[]): { speedMs: number[]; distanceM: number[] } {
  const slope = (v: number): number =>
    v < run.criticalSpeedMs
      ? run.startAccelerationMs2 - run.dragPerM * v * v
      : run.aboveConstantMs2 - run.abovePerSpeedPerS * v + run.abovePowerM2S3 / v - run.dragPerM * v * v;
  const speedMs: number[] = [];
  const distanceM: number[] = [];
  let t = 0;
  let v = 0;
  let s = 0;
  for (const goal of timesS) {
    const steps = Math.max(0, Math.ceil((goal - t) / STEP_S - 1e-9));
    const h = steps > 0 ? (goal - t) / steps : 0;
    for (let i = 0; i < steps; i++) {
      const k1 = slope(v);
      const k2 = slope(v + (h * k1) / 2);
      const k3 = slope(v + (h * k2) / 2);
      const k4 = slope(v + h * k3);
      s += h * (v + (h * (k1 + k2 + k3)) / 6);
      v += (h * (k1 + 2 * k2 + 2 * k3 + k4)) / 6;
    }
    t = goal;
    speedMs.push(v);
    distanceM.push(s);
  }
  return { speedMs, distanceM };
}
