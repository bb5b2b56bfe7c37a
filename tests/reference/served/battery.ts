import * as battery from "../../../src/calc/battery/index.js";
import type { Served } from "./index.js";

type Pairs = readonly (readonly [number, number])[];
type Peukert = battery.PeukertRating;

const ccCv = (of: Omit<battery.CcCv, "startShare"> & { startSocPct: number; chargerEfficiency: number }) => {
  const { switchShare, endShare, ...rest } = battery.ccCvCharge({ ...of, startShare: of.startSocPct / 100 });
  return {
    ...rest,
    switchSocPct: switchShare * 100,
    endSocPct: endShare * 100,
    gridWh: rest.terminalWh / of.chargerEfficiency,
  };
};

function rainflowCounts({ series }: { series: number[] }) {
  const cycles = battery.rainflow(series);
  return {
    counts: battery.countsByRange(cycles).map(({ range, count }) => [range, count]),
    cycles: cycles.map(({ range, mean, count }) => [range, mean, count]),
    equivalentFullCycles: battery.fullCycles(cycles, 100),
  };
}

export const served = {
  peukertExponent: (of: Parameters<typeof battery.peukertFromTwo>[0]) => ({ ...battery.peukertFromTwo(of) }),
  peukertRuntime: (of: Peukert & { currentA: number }) => {
    const runtimeH = battery.peukertRuntimeH(of, of.currentA);
    return { runtimeH, deliveredAh: runtimeH * of.currentA, peukertCapacity: battery.peukertCapacity(of) };
  },
  peukertProfile: (of: Peukert & { stepsAMin: Pairs }) => ({ ...battery.peukertProfile(of, of.stepsAMin) }),
  voltageSag: (of: Parameters<typeof battery.powerSag>[0]) => ({ ...battery.powerSag(of) }),
  startCurrentSag: (of: Parameters<typeof battery.startSag>[0]) => ({ ...battery.startSag(of) }),
  chargeTimeCcCv: ccCv,
  chargeRefillEnergy: (of: Parameters<typeof battery.refillGridWh>[0]) => ({ gridWh: battery.refillGridWh(of) }),
  leadAcidBodeVoltage: ({ molalityMolKg }: { molalityMolKg: number }) => ({ ...battery.bodeV(molalityMolKg) }),
  leadAcidRestedVoltage: ({ socPct }: { socPct: number }) => {
    const cellV = battery.cellVAt(battery.LEAD_DEEP_CYCLE, socPct / 100);
    return { cellV, blockV: 6 * cellV };
  },
  lfpRestedVoltage: ({ socPct }: { socPct: number }) => ({ cellV: battery.cellVAt(battery.LFP_RESTED, socPct / 100) }),
  lfpAgeingPrismatic: (of: Omit<battery.LfpUse, "meanShare"> & { years: number; meanSoc: number }) => ({
    ...battery.lfpPrismaticLoss({ ...of, meanShare: of.meanSoc }, of.years * 365),
  }),
  lfpAgeingWang: (of: Parameters<typeof battery.lfpWangLossPct>[0]) => ({ lossPct: battery.lfpWangLossPct(of) }),
  minerDamage: (of: { curveDepthPctCycles: Pairs; usedDepthPctCycles: Pairs }) => {
    const minerSum = battery.minerSum(of.curveDepthPctCycles, of.usedDepthPctCycles);
    return {
      cyclesAtDepth: of.usedDepthPctCycles.map(([depth]) => battery.cyclesAtDepth(of.curveDepthPctCycles, depth)),
      minerSum,
      remainingFraction: 1 - minerSum,
    };
  },
  rainflowCounts,
} satisfies Served;
