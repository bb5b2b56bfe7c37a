import { quayFleet } from "../../src/records/demo/quay.js";
import type { Learned, Vehicle, Yard } from "../../src/records/index.js";
import { plusDays, utcMsAt } from "../../src/units/zone.js";
import { type LearnAsk, type LearnerAsk, learnYard } from "../../src/work/learned.js";
import { againstMs, type BenchRow, bestMs } from "./table.js";

const TODAY = "2027-02-10";
const VEHICLES = 1000;
const DAY_BACK = 17;

/** What the worker is asked each day: a thousand vehicles, each from its settled state through yesterday and today. */
export function run(): readonly BenchRow[] {
  const fleet = quayFleet(TODAY);
  const yard = fleet.yards[0] as Yard;
  const working = fleet.vehicles.filter(({ status }) => status === "working");
  const own = <R extends { readonly vehicleId: string }>(list: readonly R[], { id }: Vehicle) =>
    list.filter((record) => record.vehicleId === id);
  const askOf = (vehicles: readonly LearnerAsk[], date: string): LearnAsk => ({
    yard,
    place: null,
    rounds: fleet.rounds,
    skies: fleet.skies,
    vehicles,
    nowUtcMs: utcMsAt(date, 21 * 60, yard.zone),
  });
  const learner = (vehicle: Vehicle, held: Learned | null, from: string): LearnerAsk => ({
    vehicle,
    held,
    shifts: [],
    readings: own(fleet.readings, vehicle),
    entries: own(fleet.entries, vehicle).filter(({ date }) => date >= from),
    forecasts: [],
  });
  const first = askOf(
    working.map((vehicle) => learner(vehicle, null, "2000-01-01")),
    plusDays(TODAY, -1),
  );
  const { vehicles, place } = learnYard(first);
  const kept = vehicles.map(({ record }, i) => learner(working[i] as Vehicle, record, plusDays(TODAY, -DAY_BACK)));
  const many = Array.from({ length: VEHICLES }, (_, n) => kept[n % kept.length] as LearnerAsk);
  const daily = { ...askOf(many, TODAY), place };
  return [
    againstMs(
      `learning of ${VEHICLES} vehicles, a day further`,
      bestMs(3, () => void learnYard(daily)),
      2000,
    ),
    againstMs(
      "the whole log of 11 vehicles, 28 days, learned anew",
      bestMs(3, () => void learnYard(first)),
      2000,
    ),
  ];
}
