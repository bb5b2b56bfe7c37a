import { DRAWS } from "../../src/calc/day/input.js";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { withFace } from "../../src/records/roof-faces.js";
import { utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import { againstMs, type BenchRow, bestMs, processorUs } from "./table.js";

const yard = examples.yard as unknown as Yard;
const date = "2027-02-10";
const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, yard.zone);

/** A vehicle with three faces on a round of six legs, each with its own load, start and gauge. */
function caseOf(i: number, short: boolean): DayCase {
  const known = examples.vehicle as unknown as Vehicle;
  const base = examples.round as unknown as Round;
  const vehicle: Vehicle = {
    ...withFace(known, "flat", "top"),
    id: `v${i}`,
    usual: { ...known.usual, leaveMinute: 360 + (i % 120) },
    battery: { ...known.battery, ratedAh: short ? 90 : 150 + (i % 40) },
  };
  const round: Round = { ...base, parts: [...base.parts, ...base.parts, ...base.parts] };
  const reading = {
    id: `r${i}`,
    v: 1 as const,
    vehicleId: vehicle.id,
    atUtcMs: nowUtcMs - 3_600_000,
    kind: "percent" as const,
  };
  return {
    yard,
    vehicle,
    rounds: [round],
    shifts: [],
    skies: [],
    readings: [{ ...reading, value: 55 + (i % 45), restedMin: 60, perBlock: false }],
    date,
    nowUtcMs,
    draws: DRAWS,
  };
}

export function run(): readonly BenchRow[] {
  const easy = caseOf(40, false);
  const short = caseOf(3, true);
  for (let i = 0; i < 30; i++) planDay(dayInputOf(caseOf(i, i % 2 === 0))); // warm
  const one = bestMs(15, () => void planDay(dayInputOf(easy)));
  const topped = bestMs(15, () => void planDay(dayInputOf(short)));
  const fleet = Array.from({ length: 1000 }, (_, i) => caseOf(i, i % 3 === 0));
  const before = heapMb();
  let most = before;
  const began = processorUs();
  fleet.forEach((each, i) => {
    planDay(dayInputOf(each));
    if (i % 100 === 0) most = Math.max(most, heapMb());
  });
  const tookMs = (processorUs() - began) / 1000;
  return [
    againstMs(`a vehicle-day: 3 faces, ${DRAWS} draws`, one, 10),
    againstMs("a vehicle-day that needs its least top-up", topped, 10),
    againstMs("1,000 vehicles, one third of them short", tookMs, 5000),
    {
      name: "memory while answering 1,000 vehicles",
      took: `${Math.round(most - before)} MB`,
      against: "150 MB wanted",
      ratio: (most - before) / 150,
    },
  ];
}

const heapMb = (): number => process.memoryUsage().heapUsed / 2 ** 20;
