import { effect } from "@preact/signals";
import type { Vehicle, Yard } from "../records/index.js";
import { DAY_MS } from "../units/numbers.js";
import { civilDate } from "../units/zone.js";
import { askDay } from "../work/ask-day.js";
import { book, daysWritten, keep, listed, vehicleOf, vehicles, yardOf } from "./fleet.js";
import { openedStore } from "./shelf.js";

/** Older days say little about a vehicle of today: what is learned is forgotten slowly anyway. */
const LOOKS_BACK_DAYS = 90;
/** A change of the factor that nobody could see in an answer is not worth writing. */
const TOO_SMALL = 0.003;

let turn: Promise<void> = Promise.resolve();

/** Learns from the log of the vehicles named, or of all, one after the other, and keeps what is new on their records. */
export function learnFromLog(ids?: readonly string[]): Promise<void> {
  const wanted = ids ?? vehicles.value.map(({ id }) => id);
  turn = turn
    .then(async () => {
      for (const id of wanted) await learnOf(id);
    })
    .catch(() => undefined); // the part that learns has not come over the network yet: the next start tries again
  return turn;
}

/** Learns from the whole log now, for days that came in by file or copy, and from then on after each day that is written in. */
export function keepLearning(): void {
  void learnFromLog();
  effect(() => {
    if (daysWritten.value.length > 0) void learnFromLog(daysWritten.value);
  });
}

async function learnOf(id: string): Promise<void> {
  const vehicle = vehicleOf(id);
  const yard = vehicle && yardOf(vehicle);
  if (!vehicle || !yard || vehicle.status !== "working") return;
  const nowUtcMs = Date.now();
  const records = await historyOf(vehicle, yard, nowUtcMs);
  if (records.entries.length === 0) return;
  const learned = await askDay("learn", { records, nowUtcMs });
  const now = vehicleOf(id); // it may have been edited meanwhile
  if (now && isNews(now.learned, learned)) await keep([{ kind: "vehicle", put: { ...now, learned } }]);
}

const isNews = (had: Vehicle["learned"], has: NonNullable<Vehicle["learned"]>): boolean =>
  had === null ||
  had.days !== has.days ||
  Math.abs(had.driveFactor - has.driveFactor) > TOO_SMALL ||
  Math.abs(had.spread - has.spread) > TOO_SMALL;

async function historyOf(vehicle: Vehicle, yard: Yard, nowUtcMs: number) {
  const store = await openedStore();
  const from = civilDate(nowUtcMs - LOOKS_BACK_DAYS * DAY_MS, "UTC");
  const to = civilDate(nowUtcMs + DAY_MS, "UTC");
  const [entries, readings, shifts, skies] = await Promise.all([
    store.listEntries(vehicle.id, from, to),
    store.history("reading", vehicle.id, from, to),
    store.history("shift", vehicle.id, from, to),
    store.history("sky", yard.id, from, to),
  ]);
  return {
    yard,
    vehicle,
    rounds: listed(book.value, "round"),
    entries: entries.ok ? entries.value.records : [],
    readings: readings.ok ? readings.value.records : [],
    shifts: shifts.ok ? shifts.value.records : [],
    skies: skies.ok ? skies.value.records : [],
  };
}
