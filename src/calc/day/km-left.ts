import { HOUR_MS, interpolate } from "../../units/numbers.js";
import { emptyingW } from "../battery/index.js";
import type { DayInput } from "./input.js";
import type { DayFactors } from "./simulate.js";
import type { DayWalks } from "./walks.js";

export interface KmLeft {
  /** Wh out of the set per km of the shift on the mean day, without sun; 0 where nothing is driven. */
  readonly whPerKm: number;
  /** By drawn day, Wh in the set at the lowest point above the reserve; what an emptied set could not give counts as missing too. */
  readonly spareWh: Float64Array;
  /** The same in km: what is spare carries on without sun, what is missing is kept by leaving out the last km before the lowest point. */
  readonly km: Float64Array;
}

const SOME_KM = 1e-3; // less than a metre is no way to divide by
/** Beyond the way there is, a km takes what it takes without sun: so far at least. */
const FAR_KM = 1e6;

/** What is left, or missing, at the lowest point. `untilUtcMs` ends the way before it; on the mean day `day`. */
export function kmLeftOf(
  walks: DayWalks,
  { segments, reserveShare }: DayInput,
  day: DayFactors,
  untilUtcMs: number,
): KmLeft {
  const { store, draws } = walks;
  const { columns } = walks.steps;
  const outOf = (w: number): number => (w > 0 ? emptyingW(store, w) : w);
  const backKm = [-FAR_KM, 0];
  const keptWh = [0, 0];
  let [km, wh, allKm, setWh, terminalWh] = [0, 0, 0, 0, 0];
  let s = segments.length - 1;
  for (let i = columns.lowestTo - 1; i >= columns.lowestFrom; i--) {
    const fromUtcMs = columns.fromUtcMs[i] as number;
    while ((segments[s]?.fromUtcMs ?? 0) > fromUtcMs) s--;
    const segment = segments[s];
    if (segment?.kind !== "drive") continue;
    const hours = columns.hours[i] as number;
    const row = columns.sunRow[i] as number;
    const stepKm = (segment.km * hours * HOUR_MS) / (segment.toUtcMs - segment.fromUtcMs);
    const drawnW = (columns.driveW[i] as number) * day.drive + (columns.otherW[i] as number) * day.other;
    allKm += stepKm;
    setWh += outOf(drawnW) * hours;
    terminalWh += drawnW * hours;
    if (fromUtcMs >= untilUtcMs) continue;
    km += stepKm;
    wh += outOf(drawnW - (row < 0 ? 0 : (day.sunW[row] as number))) * hours;
    if (wh <= (keptWh.at(-1) as number)) continue; // a leg in so much sun keeps nothing by itself
    backKm.push(km);
    keptWh.push(wh);
  }
  const whPerKm = allKm > SOME_KM ? Math.max(0, setWh / allKm) : 0;
  const missing = terminalWh > 0 ? setWh / terminalWh : 1;
  const spareWh = walks.lowestWh.map(
    (low, d) => low - (walks.missingWh[d] as number) * missing - reserveShare * store.usableWh,
  );
  keptWh[0] = -FAR_KM * whPerKm;
  backKm.push(km + FAR_KM);
  keptWh.push((keptWh.at(-1) as number) + FAR_KM * whPerKm);
  const kmOf = (spare: number, d: number): number =>
    whPerKm > 0 ? -interpolate(keptWh, backKm, (-spare * day.drive) / (draws.drive[d] as number)) : 0;
  return { whPerKm, spareWh, km: spareWh.map(kmOf) };
}
