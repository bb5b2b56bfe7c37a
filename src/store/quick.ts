import type { AnyRecord, KindName } from "../records/index.js";

// The first screen reads with nothing but this file: no schema, no library. Every record went through the strict door when it was written, and
// goes through it again when the store itself is loaded, right after the first paint; what is broken is set aside then.

/** Newest version of the kinds that the first screen reads; a test holds it to the table of kinds. Others wait for the strict door. */
export const NEWEST_VERSION: { readonly [K in KindName]?: number } = {
  yard: 1,
  socket: 1,
  vehicle: 1,
  round: 1,
  shift: 1,
  sky: 1,
  reading: 1,
  night: 1,
  learned: 1,
  placeLearned: 1,
};

/** A kind of which all is wanted, or only its days from-to, both included. */
export type Wanted<K extends KindName> = { readonly kind: K; readonly days?: readonly [from: string, to: string] };

interface Kept {
  readonly key: string;
  readonly k: string;
  readonly f: Readonly<Record<string, unknown>>;
  readonly t: string;
  readonly x?: Readonly<Record<string, string>>;
  readonly d?: string;
}

/**
 * Records as they lie in the database, by kind; null when they cannot be read this way (no database yet that is of this layout, no storage, a
 * record of another version): then the store has to be asked.
 */
export async function readQuickly<K extends KindName>(
  name: string,
  wanted: readonly Wanted<K>[],
): Promise<{ readonly [N in K]: readonly AnyRecord<N>[] } | null> {
  let database: IDBDatabase | null = null;
  try {
    database = await open(name);
    const records = database.transaction("records").objectStore("records");
    const lists = await Promise.all(wanted.map(async (one) => [one.kind, alive(one.kind, await rows(records, one))]));
    return Object.fromEntries(lists) as { readonly [N in K]: readonly AnyRecord<N>[] };
  } catch {
    return null;
  } finally {
    database?.close();
  }
}

/** The database as it is; where there is none, the attempt is taken back, so that nothing half made is left behind. */
function open(name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onupgradeneeded = () => request.transaction?.abort();
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("blocked"));
  });
}

function rows(records: IDBObjectStore, { kind, days }: Wanted<KindName>): Promise<Kept[]> {
  const request = days
    ? records.index("day").getAll(IDBKeyRange.bound([kind, days[0]], [kind, `${days[1]}\uffff`]))
    : records.getAll(IDBKeyRange.bound(`${kind}/`, `${kind}0`, false, true)); // `0` follows `/`
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result as Kept[]);
    request.onerror = () => reject(request.error);
  });
}

function alive(kind: KindName, kept: readonly Kept[]): unknown[] {
  return kept.filter(isAlive).map(({ key, f }) => {
    if (f.v !== NEWEST_VERSION[kind]) throw new Error(`${key} is of version ${String(f.v)}`);
    return { ...f, id: key.slice(kind.length + 1) };
  });
}

/** Deleted while the deletion is later than the last write of every field. */
function isAlive({ f, t, x, d }: Kept): boolean {
  if (d === undefined) return true;
  const fields = [...new Set([...Object.keys(f), ...Object.keys(x ?? {})])];
  const last =
    fields
      .map((field) => x?.[field] ?? t)
      .sort()
      .at(-1) ?? t;
  return d <= last;
}
