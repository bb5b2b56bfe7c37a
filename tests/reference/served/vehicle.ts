import * as road from "../../../src/calc/road/index.js";
import type { Context } from "../table.js";
import type { Served } from "./index.js";

interface Car {
  readonly massKg: number;
  readonly crr: number;
  readonly cdaM2: number;
  readonly airDensityKgM3: number;
  readonly grade: number;
}
interface CycleIn extends Car {
  readonly cycle: string;
  readonly capKmh: number | null;
  readonly rotatingFactor: number;
}
type Points = readonly (readonly [number, number])[];

export function traceNamed(name: string, context: Context): road.Trace {
  const data = context.data.find((each) => each.data.name === name)?.data;
  if (data?.breakpoints) return road.traceOfPoints(data.breakpoints as Points);
  if (data?.speedKmh) return road.traceOfSeconds((data.speedKmh as (number | number[])[]).flat());
  throw new Error(`The tables hold no cycle called ${name}.`);
}

/** The tables interpolate their cycles to this. */
const TRACE_STEP_S = 0.1;

function cycleWheelEnergy(of: CycleIn, context: Context) {
  const trace = traceNamed(of.cycle, context);
  const work = road.cycleWork(trace, of, { capKmh: of.capKmh, stepS: TRACE_STEP_S });
  const coarse = road.cycleWork(trace, of, { capKmh: of.capKmh, stepS: 1 });
  const km = work.distanceM / 1000;
  return {
    ...work,
    driveWhPerKm: work.driveWh / km,
    brakeWhPerKm: work.brakeWh / km,
    netWhPerKm: (work.driveWh - work.brakeWh) / km,
    peakKw: work.peakW / 1000,
    driveWhPerKmOneSecondSteps: (coarse.driveWh * 1000) / coarse.distanceM,
  };
}

export const served = {
  airDensityStandard: ({ altitudeM }: { altitudeM: number }) => ({
    ...road.airStandard(altitudeM),
    densityIfGeometricKgM3: road.airStandard(road.geopotentialM(altitudeM)).densityKgM3,
  }),
  moistAirDensity: (of: { pressurePa: number; airC: number; relativeHumidity: number }) => ({
    densityKgM3: road.moistAirDensityKgM3(of),
  }),
  roadLoadSteady: (of: Car & { speedKmh: number }) => {
    const load = road.roadLoad(of, of.speedKmh / 3.6);
    return { ...load, wheelW: (load.totalN * of.speedKmh) / 3.6, wheelWhPerKm: load.totalN / 3.6 };
  },
  powerLimitedSpeed: (of: Car & { wheelW: number }) => ({ speedKmh: road.powerLimitedSpeedMs(of, of.wheelW) * 3.6 }),
  gearTractiveForce: (of: road.GearInput & Omit<Car, "grade">) => {
    const force = road.gearForce(of);
    const grade = road.gradeability(force.tractiveForceN, of, force.speedMs);
    return {
      ...force,
      speedKmh: force.speedMs * 3.6,
      spareForceLevelN: road.spareForceN(force.tractiveForceN, of, force.speedMs),
      gradeabilityPct: grade === null ? null : grade * 100,
    };
  },
  gearForHill: (of: Parameters<typeof road.gearsForHill>[0] & Car) => {
    const gears = road.gearsForHill(of, of);
    return { ...gears, speedKmh: gears.speedMs === null ? null : gears.speedMs * 3.6 };
  },
  launchRun: (of: road.LaunchRun & { timesS: number[] }) => road.launchRun(of, of.timesS),
  motorRatedEfficiency: (of: { ratedKw: number; efficiencyClass: road.EfficiencyClass }) => ({
    efficiencyPct: road.motorRatedEfficiencyPct(of.ratedKw, of.efficiencyClass),
  }),
  driveCycleSummary: ({ cycle }: { cycle: string }, context: Context) => ({
    ...road.cycleSummary(traceNamed(cycle, context)),
  }),
  cycleWheelEnergy,
  cycleBatteryEnergy: (
    of: CycleIn & { driveEfficiency: number; auxiliaryW: number; regenShare: number },
    context: Context,
  ) => {
    const work = road.cycleWork(traceNamed(of.cycle, context), of, { capKmh: of.capKmh, stepS: TRACE_STEP_S });
    const km = work.distanceM / 1000;
    return { driveWhPerKm: work.driveWh / km, batteryWhPerKm: road.cycleBatteryWh(work, of) / km };
  },
} satisfies Served;
