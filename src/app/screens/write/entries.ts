import { entryId, readingId } from "../../../records/ids.js";
import type { Entry, Vehicle } from "../../../records/index.js";
import type { Listed } from "../../../store/index.js";
import type { Outcome } from "../../../units/outcome.js";
import { book, type Change, holdRecords, keep, listed, ownedBy, storageTrouble } from "../../fleet.js";
import { readSteadily } from "../../shelf.js";
import { here } from "../../state.js";
import { dayWords } from "../../words/day.js";

/** The entry of a day as it stands: an empty one when nothing was written yet. */
export function entryOn(vehicleId: string, date: string): Entry {
  const found = ownedBy(listed(book.value, "entry"), "vehicleId", vehicleId).find((entry) => entry.date === date);
  if (found) return found;
  return {
    id: entryId(vehicleId, date),
    v: 1,
    vehicleId,
    date,
    km: null,
    trips: null,
    odometerKm: null,
    level: null,
    loadClass: null,
    pluggedAt: null,
    gridKwh: null,
    sunKwh: null,
    paidMinor: null,
    wet: null,
    driver: null,
    formerly: [],
  };
}

/** Questions of the four that are answered. */
export const filledIn = (entry: Entry): number =>
  [entry.km, entry.level, entry.loadClass, entry.pluggedAt].filter((value) => value !== null).length;

/** Reads the entry of a day; false when it cannot be read, and then nothing must be written over it. */
export async function loadEntry(vehicleId: string, date: string): Promise<boolean> {
  const found = await readSteadily((from) => from.listEntries(vehicleId, date, date));
  return hold(found, (entry) => entry.vehicleId === vehicleId && entry.date === date);
}

/** All entries of a day, for the slate of a whole yard. */
export async function loadEntries(date: string): Promise<boolean> {
  const found = await readSteadily((from) => from.between("entry", date, date));
  return hold(found, (entry) => entry.date === date);
}

/** What was read takes the place of all that was asked for: one that is gone goes here too. */
function hold(found: Outcome<Listed<"entry">>, isAsked: (entry: Entry) => boolean): boolean {
  if (!found.ok) {
    storageTrouble.value = found.problems[0] ?? null;
    return false;
  }
  const others = listed(book.value, "entry").filter((entry) => !isAsked(entry));
  holdRecords({ entry: [...others, ...found.value.records] });
  return true;
}

const MOST_CORRECTIONS = 200;
export type Field = Exclude<keyof Entry, "id" | "v" | "vehicleId" | "date" | "formerly">;
export type Filled = { readonly [F in Field]?: Entry[F] };

/** A correction keeps what stood there before; a gauge read today is a reading too. */
export async function keepEntry(vehicle: Vehicle, date: string, change: Filled): Promise<boolean> {
  const atUtcMs = Date.now();
  const readings: Change[] = [];
  if (change.level && date === here.value.date) {
    const id = readingId(vehicle.id, atUtcMs);
    readings.push({
      kind: "reading",
      put: { id, v: 1, vehicleId: vehicle.id, atUtcMs, ...change.level, restedMin: null },
    });
  }
  return keep(
    () => [{ kind: "entry", put: corrected(entryOn(vehicle.id, date), change, atUtcMs) }, ...readings],
    dayWords.now().write.keptOne,
  );
}

function corrected(old: Entry, change: Filled, atUtcMs: number): Entry {
  const before = (Object.keys(change) as Field[])
    .filter((field) => old[field] !== null && plainValue(old[field]) !== plainValue(change[field] ?? null))
    .map((field) => ({ atUtcMs, field, value: plainValue(old[field]) }));
  return { ...old, ...change, formerly: [...old.formerly, ...before].slice(-MOST_CORRECTIONS) };
}

export const plainValue = (value: Entry[Field]): string | number | boolean | null =>
  typeof value === "object" && value !== null ? value.value : value;

/** What stood in a field before its last correction; undefined when it never was another. */
export const formerOf = (entry: Entry, field: Field): string | number | boolean | null | undefined =>
  entry.formerly.findLast((each) => each.field === field)?.value;
