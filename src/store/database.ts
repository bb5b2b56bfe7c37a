import { type DBSchema, type IDBPDatabase, type IDBPObjectStore, type OpenDBCallbacks, openDB } from "idb";
import { bad, good, type Outcome } from "../units/outcome.js";
import { type Body, indexed } from "./body.js";
import { isDeadHandle, storageProblem } from "./problems.js";

export const DATABASE_NAME = "noonplug";
/** Climbs, never drops: a step for each version stays here for ever. */
export const DATABASE_VERSION = 2;

interface Schema extends DBSchema {
  records: {
    key: string;
    value: Body;
    indexes: {
      /** Kind, whose, day: one vehicle's history without touching another's. */
      history: [string, string, string];
      /** Kind, day: one day of the whole fleet. */
      day: [string, string];
    };
  };
}
export type Mode = "readonly" | "readwrite";
export type RecordsStore<M extends Mode | "versionchange" = Mode> = IDBPObjectStore<Schema, ["records"], "records", M>;
export type Durability = "strict" | "relaxed";

/** What happens to the database besides what is asked of it. */
export interface DatabaseEvents {
  /** An older tab holds the database while this one wants to climb: ask to close the others. */
  readonly blocked: () => void;
  /** A newer tab wants to climb: this one has let go and should be reloaded. */
  readonly gaveWay: () => void;
}

/** One connection that heals: a handle found dead is dropped, reopened, and the work is done once more. */
export interface Database {
  run<T>(work: (records: RecordsStore<"readonly">) => Promise<T>): Promise<Outcome<T>>;
  /** Resolves when the transaction is done, not when the request is. `strict` waits for the disk. */
  change<T>(durability: Durability, work: (records: RecordsStore<"readwrite">) => Promise<T>): Promise<Outcome<T>>;
  close(): void;
}

type Handle = IDBPDatabase<Schema>;
type Upgrade = NonNullable<OpenDBCallbacks<Schema>["upgrade"]>;

export function openDatabase(name: string, events: DatabaseEvents): Database {
  let opening: Promise<Handle> | null = null;
  let open: Handle | null = null;
  let closed = false;
  const drop = () => {
    open?.close();
    open = null;
    opening = null;
  };
  const handle = (): Promise<Handle> => {
    if (closed) return Promise.reject(named("NoStorageError", "the store is closed"));
    opening ??= connect(name, events, drop).then(
      (db) => {
        open = db;
        return db;
      },
      (why: unknown) => {
        opening = null; // a failed opening must not stick
        throw why;
      },
    );
    return opening;
  };
  const twice = async <T>(once: () => Promise<T>): Promise<Outcome<T>> => {
    try {
      return good(await once());
    } catch (why) {
      if (!isDeadHandle(why)) return bad(storageProblem(why));
    }
    drop();
    try {
      return good(await once());
    } catch (why) {
      return bad(storageProblem(why));
    }
  };
  return {
    run: (work) => twice(async () => inTransaction(await handle(), "readonly", "relaxed", work)),
    change: (durability, work) => twice(async () => inTransaction(await handle(), "readwrite", durability, work)),
    close: () => {
      closed = true;
      drop();
    },
  };
}

const named = (name: string, message: string): Error => Object.assign(new Error(message), { name });

async function connect(name: string, events: DatabaseEvents, drop: () => void): Promise<Handle> {
  if (typeof indexedDB === "undefined") throw named("NoStorageError", "no IndexedDB here");
  return openDB<Schema>(name, DATABASE_VERSION, {
    upgrade: climb,
    blocked: events.blocked,
    blocking: () => {
      drop();
      events.gaveWay();
    },
    terminated: drop,
  });
}

const climb: Upgrade = async (db, from, _to, tx) => {
  // an opening that broke off may have left a database without its store
  if (!db.objectStoreNames.contains("records")) db.createObjectStore("records", { keyPath: "key" });
  if (from < 2) {
    const records = tx.objectStore("records");
    records.createIndex("history", ["k", "w", "y"]);
    records.createIndex("day", ["k", "y"]);
    // version 1, the draft, kept no index fields
    if (from === 1)
      for (let at = await records.openCursor(); at; at = await at.continue()) await at.update(indexed(at.value));
  }
};

async function inTransaction<T, M extends Mode>(
  db: Handle,
  mode: M,
  durability: Durability,
  work: (records: RecordsStore<M>) => Promise<T>,
): Promise<T> {
  const tx = db.transaction("records", mode, { durability });
  const done = tx.done.then(
    () => null,
    (why: unknown) => ({ why }),
  );
  try {
    const value = await work(tx.store);
    const failed = await done;
    if (failed) throw failed.why;
    return value;
  } catch (why) {
    try {
      tx.abort();
    } catch {
      // already over: then `done` knows why
    }
    const failed = await done;
    // a request of an aborted transaction says only that: the reason is the transaction's
    throw isDeadHandle(why) && failed ? failed.why : why;
  }
}
