/** Cycles to the end of life by depth: depths (any unit) rise. */
export type LifeCurve = readonly (readonly [depth: number, cycles: number])[];

/**
 * Cycles to the end of life at a depth above 0: straight in log(depth) against log(cycles), also beyond the ends; a curve of one point holds its
 * through-put.
 */
export function cyclesAtDepth(curve: LifeCurve, depth: number): number {
  const [d0, n0] = curve[0] as readonly [number, number];
  if (curve.length === 1) return (n0 * d0) / depth;
  let i = 1;
  while (i < curve.length - 1 && depth > (curve[i] as readonly [number, number])[0]) i++;
  const [a, b] = [curve[i - 1], curve[i]] as [readonly [number, number], readonly [number, number]];
  const slope = Math.log(b[1] / a[1]) / Math.log(b[0] / a[0]);
  return a[1] * (depth / a[0]) ** slope;
}

/** Share of a life used by cycles of given depths. Source: Palmgren and Miner, linear damage. */
export const minerSum = (curve: LifeCurve, used: readonly (readonly [depth: number, cycles: number])[]): number =>
  used.reduce((all, [depth, cycles]) => (depth > 0 ? all + cycles / cyclesAtDepth(curve, depth) : all), 0);

const KELVIN = 273.15;

/** How a lithium iron phosphate cell is kept and worked. */
export interface LfpUse {
  /** 10..45 C */
  readonly cellC: number;
  readonly meanShare: number;
  /** Depth of a cycle, fitted for 0.8..1. */
  readonly depth: number;
  /** Charging current over capacity, 1/h, below 0.65. */
  readonly cRate: number;
  /** Each of that depth. */
  readonly cyclesPerDay: number;
}
export interface LfpLoss {
  readonly calendarLoss: number;
  readonly cycleLoss: number;
  readonly totalLoss: number;
}

/** Potential of graphite at a lithiation, V. Source: M. Safari, C. Delacourt (2011), as used in the model below. */
function graphiteV(x: number): number {
  return (
    0.6379 +
    0.5416 * Math.exp(-305.5309 * x) +
    0.044 * Math.tanh(-(x - 0.1958) / 0.1088) -
    0.1978 * Math.tanh((x - 1.0571) / 0.0854) -
    0.6875 * Math.tanh((x + 0.0117) / 0.0529) -
    0.0175 * Math.tanh((x - 0.5692) / 0.0875)
  );
}

/**
 * Share of the capacity a large prismatic LFP cell loses in `days`; a plausible estimate lies within a factor of 2.
 * Source: cell data of J. Energy Storage 2023, doi 10.1016/j.est.2023.109042, fit of NREL's battery-lifetime models (lfp_gr_250AhPrismatic_2019).
 */
export function lfpPrismaticLoss(use: LfpUse, days: number): LfpLoss {
  const kelvin = use.cellC + KELVIN;
  const anodeV = graphiteV(0.0085 + 0.7715 * use.meanShare);
  const calendar = 8.37e4 * Math.exp(-5.21e3 / kelvin) * Math.exp((-3.56e3 * anodeV) / kelvin);
  const warm = Math.exp(2.19e3 / kelvin) + Math.exp(-1.55e5 / kelvin);
  const cycling = (4.38e-8 + 1.55e-8 * use.depth + 1.68e-7 * use.cRate) * warm;
  const calendarLoss = calendar * days ** 0.526;
  const cycleLoss = cycling * (use.depth * use.cyclesPerDay * days) ** 0.828;
  return { calendarLoss, cycleLoss, totalLoss: calendarLoss + cycleLoss };
}

/**
 * Loss of a 2.2 Ah LFP cell in % by through-put: a second opinion, within a factor of 2.
 * Source: Wang et al., J. Power Sources 196 (2011) 3942.
 */
export const lfpWangLossPct = (of: {
  readonly prefactor: number;
  /** 1/h */
  readonly cRate: number;
  readonly cellC: number;
  readonly throughputAh: number;
}): number =>
  of.prefactor * Math.exp((-31_700 + 370.3 * of.cRate) / (8.314 * (of.cellC + KELVIN))) * of.throughputAh ** 0.55;
