import { diceOf } from "../../units/dice.js";
import { quantileOfSorted } from "../../units/numbers.js";
import { DAY_MARK, type SizingCase, type SizingCell, type SizingMonthResult, type SizingYear } from "./input.js";
import { type ReadyKit, readyKit } from "./kit.js";
import { type ReadyCase, readyCase } from "./ready.js";
import { seasonOf } from "./season.js";
import { type DrawnYear, drawYear, type KitYear, walkYear } from "./year.js";

export interface SizingWatch {
  /** Hears after each size how far it is, 0..1. */
  readonly onShare?: (share: number) => void;
  /** Asked before each size; true ends the work without an answer. */
  readonly givenUp?: () => boolean;
}

/**
 * How many days of a year each size of roof and set spares the plug. Draws whole years of sky (three words of day with persistence,
 * hours within them, months that stray from their usual), carries the charge from day to day, and plugs in as the evening's own low
 * guess would advise. Null when given up. Pure: the same case gives the same answer.
 */
export function sizeYear(of: SizingCase, watch: SizingWatch = {}): SizingYear | null {
  const dice = diceOf(of.seed);
  const ready = readyCase(of, dice);
  const years = Array.from({ length: of.years }, () => drawYear(ready, dice));
  const cells: SizingCell[] = [];
  const sizes = of.roofW.flatMap((roofW) => of.packWh.map((packWh) => ({ roofW, packWh })));
  for (const size of sizes) {
    if (watch.givenUp?.()) return null;
    const kit = readyKit(ready, size);
    cells.push(cellOf(ready, kit, years));
    watch.onShare?.(cells.length / sizes.length);
  }
  return { cells, ...seasonOf(of) };
}

function cellOf(ready: ReadyCase, kit: ReadyKit, years: readonly DrawnYear[]): SizingCell {
  const walked = years.map((year) => walkYear(ready, kit, year));
  const counts = walked.map((year) => spared(year.marks));
  const sorted = counts.slice().sort((a, b) => a - b);
  const middle = quantileOfSorted(sorted, 0.5);
  const typical = counts.reduce(
    (best, count, i) => (Math.abs(count - middle) < Math.abs((counts[best] ?? 0) - middle) ? i : best),
    0,
  );
  const months = ready.months.map((_, m) => monthOf(ready, walked, m));
  const total = (pick: (month: SizingMonthResult) => number) => months.reduce((sum, month) => sum + pick(month), 0);
  return {
    roofW: kit.roofW,
    packWh: kit.packWh,
    daysWithoutPlug: total((month) => month.daysWithoutPlug),
    poorYear: Math.round(quantileOfSorted(sorted, 0.1)),
    goodYear: Math.round(quantileOfSorted(sorted, 0.9)),
    daysShort: total((month) => month.daysShort),
    gridKwh: total((month) => month.gridKwh),
    months,
    marks: (walked[typical] as KitYear).marks,
  };
}

const isSpared = (mark: number): boolean => mark === DAY_MARK.sun || mark === DAY_MARK.rest;
const spared = (marks: Uint8Array): number => marks.reduce((count, mark) => count + (isSpared(mark) ? 1 : 0), 0);

function monthOf(ready: ReadyCase, walked: readonly KitYear[], m: number): SizingMonthResult {
  const first = ready.of.months.slice(0, m).reduce((sum, month) => sum + month.days, 0);
  const days = (ready.of.months[m] as (typeof ready.of.months)[number]).days;
  const mean = (pick: (year: KitYear) => number) => walked.reduce((sum, year) => sum + pick(year), 0) / walked.length;
  const marksOf = (year: KitYear) => year.marks.subarray(first, first + days);
  return {
    daysWithoutPlug: mean((year) => spared(marksOf(year))),
    daysShort: mean((year) => marksOf(year).filter((mark) => mark === DAY_MARK.short).length),
    gridKwh: mean((year) => (year.gridWh[m] as number) / 1000),
    sunTakenKwh: mean((year) => (year.sunTakenWh[m] as number) / 1000),
    sunSpilledKwh: mean((year) => (year.sunSpilledWh[m] as number) / 1000),
    usedKwh: mean((year) => (year.usedWh[m] as number) / 1000),
  };
}
