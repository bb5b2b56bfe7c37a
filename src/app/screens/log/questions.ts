import { storeModel } from "../../../calc/battery/index.js";
import { checkEntry, type EntryPast, type EntryTyped, type Question } from "../../../calc/learn/check.js";
import type { Entry, Forecast, Vehicle } from "../../../records/index.js";
import { batteryOf } from "../../../records/map/battery.js";
import { gaugeOf } from "../../../records/map/learn-events.js";
import { book, listed } from "../../fleet.js";
import { openedStore } from "../../shelf.js";
import { here } from "../../state.js";
import { entryOn, type Filled } from "../write/entries.js";
import { usualKm } from "../write/usual.js";

/** Days whose middle is the usual one. */
const USUAL_DAYS = 14;
/** Nominal volts of the block that people call a battery: 6 cells of lead, 4 of lithium. */
const BLOCK_V = 12.4;
const ROOM_C = 25;

/** What is odd about something just typed of a day, held against what is on record before it. */
export async function questionsAbout(vehicle: Vehicle, date: string, typed: Filled): Promise<readonly Question[]> {
  const store = await openedStore();
  const [entries, forecast] = await Promise.all([
    store.latest("entry", vehicle.id, USUAL_DAYS + 1),
    store.get("forecast", `${vehicle.id}/${date}`),
  ]);
  const others = (entries.ok ? entries.value.records : []).filter((entry) => entry.date !== date);
  const past = pastOf(vehicle, date, typed, others, forecast.ok ? forecast.value : null);
  return checkEntry(typedOf(vehicle, date, typed), past).filter(
    ({ field }) => field === "date" || Object.hasOwn(typed, field),
  );
}

function typedOf(vehicle: Vehicle, date: string, typed: Filled): EntryTyped {
  const entry = { ...entryOn(vehicle.id, date), ...typed };
  const { level } = entry;
  return {
    date,
    enteredUtcMs: Date.now(),
    km: entry.km,
    odometerKm: entry.odometerKm,
    gauge: level && { ...level, perBlock: level.perBlock ?? false },
    gridKwh: entry.gridKwh,
    sunKwh: entry.sunKwh,
  };
}

function pastOf(
  vehicle: Vehicle,
  date: string,
  typed: Filled,
  others: readonly Entry[],
  forecast: Forecast | null,
): EntryPast {
  const { battery, gauge, roof } = vehicle;
  const kms = others.flatMap(({ km }) => (km ? [km] : []));
  const odometers = others.filter((entry) => entry.odometerKm !== null && entry.date < date);
  const last = odometers.reduce<Entry | null>((late, one) => (late && late.date >= one.date ? late : one), null);
  const said = forecast?.first ?? forecast?.evening ?? null;
  const read = typed.level ? gaugeOf(vehicle, { ...typed.level, restedMin: 30, atUtcMs: Date.now() }) : null;
  const home = said?.home;
  return {
    today: here.value.date,
    usualKm: kms.length > 0 ? middle(kms) : usualKm(vehicle),
    lastOdometer: last && { date: last.date, km: last.odometerKm ?? 0 },
    alreadyWritten: false, // a correction is no second entry: the form asks when another sitting wrote it
    lastEnteredUtcMs: lastKnownUtcMs(),
    bars: gauge.bars,
    setNominalV: battery.nominalV,
    blocks: Math.max(1, Math.round(battery.nominalV / BLOCK_V)),
    usableWh: storeModel(batteryOf(vehicle), ROOM_C).usableWh,
    roofRatedW: roof.faces.reduce((total, face) => total + face.ratedW, 0),
    expectedLevel: home
      ? { share: home[2] as number, sdShare: ((home[3] as number) - (home[1] as number)) / NORMAL_80 }
      : null,
    typedLevel: read?.share ?? null,
  };
}
/** Width of the middle 80 % of a normal distribution in standard deviations. */
const NORMAL_80 = 2.563;

/** The latest moment that anything on this phone says it was written at. */
function lastKnownUtcMs(): number | null {
  const times = [
    ...listed(book.value, "reading").map(({ atUtcMs }) => atUtcMs),
    ...listed(book.value, "placeLearned").map(({ atUtcMs }) => atUtcMs),
  ];
  return times.length > 0 ? times.reduce((late, at) => Math.max(late, at)) : null;
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] as number;
}
