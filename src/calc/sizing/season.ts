import type { MonthCause, SizingCase } from "./input.js";
import { daySun, meanSunWh, monthChances } from "./month-sun.js";

/** A month within this share of the year's best one needs no reason. */
const GOOD_SHARE = 0.85;
const CLEAR = [1];

export interface Season {
  readonly causes: readonly MonthCause[];
  readonly sunPerWattWh: readonly number[];
}

/**
 * Names what each month lacks most against the year's best: height and length of the sun (winter), open sky (rains), or clean air
 * (dust). Each is the factor the month's sun loses by it alone: the clear sun in the year's cleanest air, what cloud leaves, what haze leaves.
 */
export function seasonOf(of: SizingCase): Season {
  const cleanest = { linkeTurbidity: Math.min(...of.months.map((month) => month.linkeTurbidity)) };
  const parts = of.months.map((month) => {
    const own = daySun(month.workDay, month, of);
    const clearWh = meanSunWh(own, CLEAR);
    const cleanWh = meanSunWh(daySun(month.workDay, cleanest, of), CLEAR);
    const wh = meanSunWh(own, monthChances(month));
    return { wh, lowSun: cleanWh, dust: cleanWh > 0 ? clearWh / cleanWh : 0, cloud: clearWh > 0 ? wh / clearWh : 0 };
  });
  const best = (pick: (part: (typeof parts)[number]) => number) => Math.max(...parts.map(pick), 1e-9);
  const most = {
    wh: best((p) => p.wh),
    lowSun: best((p) => p.lowSun),
    dust: best((p) => p.dust),
    cloud: best((p) => p.cloud),
  };
  const causes = parts.map((part): MonthCause => {
    if (part.wh >= GOOD_SHARE * most.wh) return null;
    const left = (["lowSun", "cloud", "dust"] as const).map((name) => ({ name, share: part[name] / most[name] }));
    return left.reduce((worst, each) => (each.share < worst.share ? each : worst)).name;
  });
  return { causes, sunPerWattWh: parts.map((part) => part.wh) };
}
