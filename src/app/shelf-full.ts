import type { KindName } from "../records/index.js";
import { askToKeep, openStore, type Store, type Writing } from "../store/index.js";
import { formerOf, takingBack } from "../store/take-back.js";
import { good, type Outcome } from "../units/outcome.js";
import { writeSealed } from "./chain.js";
import { type Book, book, holdRecords, listed, newId, setAsideCount, storageTrouble, type Written } from "./fleet.js";
import { pastPrices } from "./price-history.js";
import { set, settings } from "./settings.js";
import "./settings-follow.js";
import { BY_DAY, databaseName, nearDays, WHOLE } from "./shelf-lists.js";
import { nowUtcMs } from "./state.js";

let store: Store | null = null;
let opened = "";

/** The store that is open: the person's own records, or those of the yard that is not real. */
export function openedStore(): Store {
  const name = databaseName();
  if (store && opened === name) return store;
  store?.close();
  const fresh = openStore({ name });
  store = fresh;
  opened = name;
  fresh.subscribe((change) => {
    if (change.kind === "changed" && !change.here && !change.keys?.every(isForecast)) {
      nowUtcMs.value = Date.now(); // what another window has just seen lies before now
      void settle();
    }
    if (change.kind === "gaveWay") location.reload();
    if (change.kind === "blocked") storageTrouble.value = { code: "storageBlocked", where: "" };
  });
  return fresh;
}

export function closeStore(): void {
  store?.close();
  store = null;
}

/** Forecasts are read by the screens that show them. */
const isForecast = (key: string): boolean => key.startsWith("forecast/");

let written = 0;

/**
 * What is read while something is typed may lack it: then it is read again, as an older list must not take the place of a newer one on the
 * screen. The same where the records were changed for those of another yard meanwhile.
 */
export async function readSteadily<T>(read: (from: Store) => Promise<T>): Promise<T> {
  const from = openedStore();
  const before = written;
  const got = await read(from);
  return from === openedStore() && before === written ? got : readSteadily(read);
}

/** Everything through the strict door; records that did not change stay the same objects, so that nothing is worked out twice. */
export async function settle(): Promise<void> {
  const read = await readSteadily(readAll);
  if (!read.ok) {
    storageTrouble.value = read.problems[0] ?? null;
    return;
  }
  storageTrouble.value = null;
  setAsideCount.value = read.value.setAside;
  const now = read.value.book;
  holdRecords(Object.fromEntries(Object.keys(now).map((kind) => [kind, sameOnes(kind as keyof Book, now)])));
  const { demo } = settings.value;
  if (!demo || listed(now, "yard").length > 0) return;
  set({ demo: null, ...demo }); // a demo that never came whole, or was cleared away: the own records are there still
  await settle();
}

function sameOnes(kind: keyof Book, now: Book): readonly { readonly id: string }[] {
  const known = new Map(listed(book.value, kind).map((record) => [record.id, record]));
  const fresh: readonly { readonly id: string }[] = listed(now, kind);
  return fresh.map((record) => {
    const old = known.get(record.id);
    return old && text(old) === text(record) ? old : record;
  });
}
/** Fields in one order: the database and the door may give them in different ones. */
const text = (value: unknown): string =>
  JSON.stringify(value, (_, part: unknown) =>
    typeof part === "object" && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );

interface Read {
  readonly book: Book;
  readonly setAside: number;
}

/** All that the screens hold: what each of them needs, and what one of them has asked for since. */
async function readAll(from: Store): Promise<Outcome<Read>> {
  const known: ReadonlySet<string> = new Set([...WHOLE, ...BY_DAY, "entry"]);
  const asked = (Object.keys(book.value) as KindName[]).filter((kind) => !known.has(kind));
  const whole = await from.listMany([...WHOLE, ...asked]);
  if (!whole.ok) return whole;
  const lists: Record<string, { readonly records: readonly unknown[]; readonly setAside: number }> = { ...whole.value };
  for (const kind of BY_DAY) {
    const near = await from.between(kind, ...nearDays());
    if (!near.ok) return near;
    lists[kind] = near.value;
  }
  const days = listed(book.value, "entry")
    .map(({ date }) => date)
    .sort();
  if (days[0] !== undefined) {
    const held = await from.between("entry", days[0], days.at(-1) ?? days[0]);
    if (!held.ok) return held;
    lists.entry = held.value;
  }
  return good({
    book: Object.fromEntries(Object.entries(lists).map(([kind, list]) => [kind, list.records])),
    setAside: Object.values(lists).reduce((total, list) => total + list.setAside, 0),
  });
}

/** What can be worked out again: no links of the chain, no undo. */
export async function writeWorkedOut(changes: readonly Writing[]): Promise<Outcome<null>> {
  const done = await openedStore().write(changes);
  written++;
  return done;
}

let asked = false;

export async function write(changes: readonly Writing[]): Promise<Outcome<Written>> {
  const to = openedStore();
  const former = await formerOf(to, changes);
  if (!former.ok) return former;
  const nowUtcMs = Date.now();
  const all = [...changes, ...(await pastPrices(to, changes, nowUtcMs))];
  const done = await writeSealed(to, all, nowUtcMs);
  written++;
  if (!done.ok) return done;
  if (!asked && !settings.value.demo) {
    asked = true;
    void askToKeep(); // after the first thing typed, as browsers want to be asked
  }
  const back = () => takingBack(openedStore(), former.value, { nowUtcMs: Date.now(), newId });
  return good({ changes: all, back });
}
