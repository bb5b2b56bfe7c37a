import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { NightPlanner, planNight } from "../../src/calc/yard/plan-night.js";
import { inventNight } from "../calc/yard/nights.js";
import { againstMs, type BenchRow, bestMs } from "./table.js";

/** A night with a socket for two of three and power for one and a half times the need. */
const nightOf = (vehicles: number) =>
  inventNight({ seed: 41, vehicles, sockets: Math.round(0.65 * vehicles), power: 1.6 });
/** Stops at once after the first plan. */
const FIRST = { seed: 1, clockMs: () => 0, budgetMs: 0 };

/** The bound of 100 rounds, as it stands when the search begins. */
function boundOf(vehicles: number): void {
  const planner = new NightPlanner(nightOf(vehicles), { seed: 1, clockMs: () => 0, budgetMs: 1, steps: 50 });
  while (planner.advance());
  const { bounds } = planner.answer();
  if (bounds.money === null) throw new Error("there is no bound");
}

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;
const usedMb = (): number => {
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 2 ** 20;
};

/** What a planner holds in the middle of its search. */
function heldMb(vehicles: number): number {
  const before = usedMb();
  const planner = new NightPlanner(nightOf(vehicles), { seed: 1, clockMs: () => 0, budgetMs: 1, steps: 2000 });
  while (planner.advance());
  const held = usedMb() - before;
  return planner.answer().plan.sessions.length > 0 ? held : Number.NaN;
}

export function run(): readonly BenchRow[] {
  const [few, many, most] = [nightOf(40), nightOf(1000), nightOf(2000)];
  const cold = bestMs(1, () => void planNight(few, FIRST));
  const warm = bestMs(8, () => void planNight(few, FIRST));
  const thousands = bestMs(2, () => void planNight(many, FIRST));
  const held = heldMb(2000);
  return [
    againstMs("first plan of a night, 40 vehicles, first call", cold, 100),
    againstMs("first plan of a night, 40 vehicles, warm", warm, 50),
    againstMs("first plan of a night, 1,000 vehicles", thousands, 500),
    againstMs(
      "first plan of a night, 2,000 vehicles",
      bestMs(2, () => void planNight(most, FIRST)),
      1000,
    ),
    againstMs(
      "first plan and bound of a night, 1,000 vehicles",
      bestMs(2, () => boundOf(1000)),
      1500,
    ),
    {
      name: "memory while planning 2,000 vehicles",
      took: `${Math.round(held)} MB`,
      against: "120 MB wanted",
      ratio: held / 120,
    },
  ];
}
