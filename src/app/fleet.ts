import { computed, signal } from "@preact/signals";
import { newId as shortId } from "../records/ids.js";
import type { AnyRecord, KindName, Round, Shift, Sky, Vehicle, Yard } from "../records/index.js";
import type { Writing } from "../store/store.js";
import type { Outcome, Problem } from "../units/outcome.js";
import { nowUtcMs } from "./state.js";
import { tellDone } from "./undo.js";

/** Kinds that every screen may ask for; days written in afterwards are read by the screens that show them. */
export type Book = { readonly [K in KindName]?: readonly AnyRecord<K>[] };
/** Order of plates and socket names as people count: 2 before 10. One collator, as making one takes longer than a thousand comparisons. */
export const byNumber = new Intl.Collator(undefined, { numeric: true }).compare;
/** Records of a kind. */
export const listed = <K extends KindName>(of: Book, kind: K): readonly AnyRecord<K>[] =>
  (of[kind] ?? []) as readonly AnyRecord<K>[];

const groups = new WeakMap<readonly object[], Map<unknown, object[]>>();
/** Records of a list that name `id` in a field, always the same one for a list: sorted out once, as a thousand vehicles ask. */
export function ownedBy<R extends object>(list: readonly R[], field: keyof R, id: string): readonly R[] {
  let found = groups.get(list);
  if (!found) {
    found = new Map();
    groups.set(list, found);
    for (const record of list) {
      const its = found.get(record[field]);
      if (its) its.push(record);
      else found.set(record[field], [record]);
    }
  }
  return (found.get(id) ?? []) as R[];
}

export type Change = Writing;
export type Changes = readonly Change[] | ((now: Book) => readonly Change[] | Promise<readonly Change[]>);

/** What was written. */
export interface Written {
  /** With the changes asked for, what comes with them. */
  readonly changes: readonly Change[];
  /** Works out what takes them back, from the records as they then stand. */
  readonly back: () => Promise<readonly Change[]>;
}

/** Where records lie. */
export interface Shelf {
  /** All or nothing; on disk when it is good. */
  readonly write: (changes: readonly Change[]) => Promise<Outcome<Written>>;
}

export const book = signal<Book>({});
/** What the phone said when something could not be kept; the screens leave the value in place. */
export const trouble = signal<Problem | null>(null);

/** Why the records cannot be read at all; the screens then say so instead of showing an empty yard. */
export const storageTrouble = signal<Problem | null>(null);

/** Records that this version cannot read; they stay where they are and can be saved as a file. */
export const setAsideCount = signal(0);

/** What was kept just now: what it teaches is worked out beside. */
export const lastKept = signal<readonly Change[]>([]);

let shelf: Shelf | null = null;
export function useShelf(opened: Shelf, records: Book): void {
  shelf = opened;
  book.value = records;
}

/** Puts lists of records before the screens, in place of those of the same kinds. */
export function holdRecords(records: Book): void {
  book.value = { ...book.value, ...records };
}

/** Only lists that are held: of one that is not, a single record would pass for the whole. */
const changed = (old: Book, change: Change): Book => {
  const { kind } = change;
  const list: readonly { readonly id: string }[] | undefined = old[kind];
  if (!list) return old;
  const id = "put" in change ? change.put.id : change.drop;
  if ("drop" in change) return { ...old, [kind]: list.filter((record) => record.id !== id) };
  const held = list.some((record) => record.id === id); // keeps its place: of two shifts of a day the first stays the first
  return { ...old, [kind]: held ? list.map((one) => (one.id === id ? change.put : one)) : [...list, change.put] };
};

let turn: Promise<unknown> = Promise.resolve();

/**
 * Keeps changes on the phone, and only then shows them; `says` offers to take them back. False when the phone refused. What is typed waits for
 * what was typed before it: a function works its changes out from the records as they then stand, so that none of them is undone.
 */
export const keep = (changes: Changes, says?: string): Promise<boolean> =>
  inTurn(async () => keepNow(typeof changes === "function" ? await changes(book.value) : changes, says));

/** What changes records on its own account takes its turn with what is typed, so that neither writes over the other. */
export function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const done = turn.then(work);
  turn = done.catch(() => undefined);
  return done;
}

async function keepNow(changes: readonly Change[], says: string | undefined): Promise<boolean> {
  if (!shelf) throw new Error("Nothing can be kept before the records are open");
  if (changes.length === 0) return true;
  const outcome = await shelf.write(changes);
  trouble.value = outcome.ok ? null : (outcome.problems[0] ?? null);
  if (!outcome.ok) return false;
  nowUtcMs.value = Date.now(); // what was just seen lies before now
  book.value = outcome.value.changes.reduce(changed, book.value);
  if (says !== undefined) tellDone({ says, undo: async () => void (await keep(outcome.value.back)) });
  lastKept.value = changes;
  return true;
}

export const newId = (): string => shortId(() => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32);

export const yards = computed(() => listed(book.value, "yard"));
/** The vehicle that was handed over with the phone; null while it is in the owner's own hands. */
export const handedOver = signal<string | null>(null);
const listedVehicles = computed(() => listed(book.value, "vehicle"));
/** By number; in other hands the one that was handed over, and no other. */
export const vehicles = computed(() => {
  const all = [...listedVehicles.value].sort((a, b) => byNumber(a.plate, b.plate));
  const only = handedOver.value;
  if (only === null) return all;
  const its = all.filter(({ id }) => id === only);
  return its.length > 0 ? its : all.slice(0, 1);
});
export const yardOf = (vehicle: Vehicle): Yard | undefined =>
  listed(book.value, "yard").find((yard) => yard.id === vehicle.yardId);
export const vehicleOf = (id: string): Vehicle | undefined =>
  listed(book.value, "vehicle").find((vehicle) => vehicle.id === id);
export const roundOf = (id: string | null): Round | undefined =>
  listed(book.value, "round").find((round) => round.id === id);
export const shiftOn = (vehicleId: string, date: string): Shift | undefined =>
  listed(book.value, "shift").find((shift) => shift.vehicleId === vehicleId && shift.date === date);
export const skyOn = (yardId: string, date: string): Sky | undefined =>
  listed(book.value, "sky").find((sky) => sky.yardId === yardId && sky.date === date);
