import { dayLines } from "../../src/calc/money/index.js";
import { demoFleets } from "../../src/records/demo/index.js";
import { type Entry, readRecord, type Vehicle, type Yard } from "../../src/records/index.js";
import { groundOf, lastDayOf } from "../../src/records/map/money-book.js";
import { plusDays } from "../../src/units/zone.js";

const TODAY = "2027-02-09";
const DAYS = 1095;

interface Timed {
  readonly name: string;
  readonly ms: number;
  readonly limitMs: number | null;
}

function cpuMs(turns: number, work: () => unknown): number {
  let least = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < turns; turn++) {
    const began = process.cpuUsage();
    work();
    least = Math.min(least, process.cpuUsage(began).user / 1000);
  }
  return least;
}

/** Three years of one vehicle, from its records to its day lines: what the sums of a yard are made of, vehicle by vehicle. */
export function run(): readonly Timed[] {
  const fleet = demoFleets.quay(TODAY, Date.parse(`${TODAY}T18:00:00Z`));
  const yard = fleet.yards[0] as Yard;
  const vehicle = fleet.vehicles[0] as Vehicle;
  const day = fleet.entries.at(-1) as Entry;
  const entries = Array.from({ length: DAYS }, (_, i): Entry => {
    const date = plusDays(TODAY, -1 - i);
    return {
      ...day,
      id: `${vehicle.id}/${date}`,
      vehicleId: vehicle.id,
      date,
      km: 30 + (i % 20),
      gridKwh: 4,
      sunKwh: null,
    };
  });
  const own = <R extends { readonly vehicleId: string | null }>(list: readonly R[]) =>
    list.filter(({ vehicleId }) => vehicleId === vehicle.id || vehicleId === null);
  const given = {
    ...fleet,
    yard,
    vehicle,
    vehicleIds: fleet.vehicles.map(({ id }) => id),
    round: fleet.rounds.find(({ id }) => id === vehicle.usual.roundId) ?? null,
    entries,
    standstills: own(fleet.standstills),
    baselines: own(fleet.baselines),
    setCosts: own(fleet.setCosts),
    loans: own(fleet.loans),
    today: TODAY,
  };
  const made = groundOf(given);
  const { logs } = made.days;
  return [
    {
      name: "1,095 entries through the strict door",
      ms: cpuMs(5, () => entries.map((entry) => readRecord("entry", entry))),
      limitMs: null,
    },
    { name: "log and terms of one vehicle, three years", ms: cpuMs(5, () => groundOf(given)), limitMs: null },
    {
      name: "the same with a counter of the sun",
      ms: cpuMs(5, () => groundOf({ ...given, entries: entries.map((e) => ({ ...e, sunKwh: 1 })) })),
      limitMs: null,
    },
    {
      name: "its day lines",
      ms: cpuMs(5, () => dayLines(logs, made.laid.terms, logs[0]?.date ?? TODAY, lastDayOf(logs, TODAY))),
      limitMs: null,
    },
  ];
}
