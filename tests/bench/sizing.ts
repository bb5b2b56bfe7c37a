import { type SizingCase, sizeYear } from "../../src/calc/sizing/index.js";
import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import { sizingCaseOf } from "../../src/records/map/sizing.js";
import { examples } from "../records/examples.js";
import { againstMs, type BenchRow, bestMs } from "./table.js";

export function run(): readonly BenchRow[] {
  const laid = sizingCaseOf({
    yard: examples.yard as unknown as Yard,
    vehicle: examples.vehicle as unknown as Vehicle,
    round: examples.round as unknown as Round,
    workDaysPerWeek: 7,
    plugTo: "need",
    years: 12,
  });
  if (!laid.ok) throw new Error(JSON.stringify(laid.problems));
  const of: SizingCase = laid.value;
  const one = bestMs(2, () => void sizeYear({ ...of, years: 1 }));
  const twelve = bestMs(2, () => void sizeYear(of));
  return [
    againstMs("a year of 365 days for 30 kits", one, 5000),
    againstMs("twelve years of weather for 30 kits", twelve, 5000),
  ];
}
