import { checkRecord } from "../records/check.js";
import { type AnyRecord, type HistoryKind, type KindName, kindOf, readRecord } from "../records/index.js";
import { bad, good, type Outcome, type Problem } from "../units/outcome.js";
import { type Body, bodyOf, deletedBody, isDeleted, isKind, keyOf, recordOf } from "./body.js";
import { type Change, openChanges } from "./changes.js";
import { DATABASE_NAME, type Database, type Durability, openDatabase, type RecordsStore } from "./database.js";
import { isOwnRow } from "./marks.js";
import { randomDevice, type Ticking, ticking } from "./writing.js";

/** Records that were read, and how many could not be and are set aside where they are. */
export interface Listed<K extends KindName> {
  readonly records: readonly AnyRecord<K>[];
  readonly setAside: number;
}
export type ListedKinds<K extends KindName> = { readonly [N in K]: Listed<N> };

/** One thing to write: a new or whole record, or one to drop. */
export type Writing =
  | { readonly [K in KindName]: { readonly kind: K; readonly put: AnyRecord<K> } }[KindName]
  | { readonly kind: KindName; readonly drop: string };

/** A record that this version cannot read, as it stands. */
export interface SetAside {
  readonly body: unknown;
  readonly problems: readonly Problem[];
}

/**
 * The records kept on this phone. Nothing throws but bugs: storage that is full, refused or newer comes back as a problem
 * (`storageFull`, `storageRefused`, `storageNewer`, `storageFailed`), a record out of its ranges with the places. A save resolves when it is kept.
 */
export interface Store {
  get<K extends KindName>(kind: K, id: string): Promise<Outcome<AnyRecord<K> | null>>;
  list<K extends KindName>(kind: K): Promise<Outcome<Listed<K>>>;
  /** Records whose id begins with these letters; the others of the kind are not read. */
  under<K extends KindName>(kind: K, idStart: string): Promise<Outcome<Listed<K>>>;
  /** Several kinds as they stood at one moment. */
  listMany<K extends KindName>(of: readonly K[]): Promise<Outcome<ListedKinds<K>>>;
  /** Of one vehicle (skies: of one yard), days from-to both included, oldest first. Readings are filed under UTC days. */
  history<K extends HistoryKind>(kind: K, ownerId: string, fromDay: string, toDay: string): Promise<Outcome<Listed<K>>>;
  /** Of all, days from-to both included. */
  between<K extends HistoryKind>(kind: K, fromDay: string, toDay: string): Promise<Outcome<Listed<K>>>;
  /** The newest `count` of one vehicle or yard, newest first. */
  latest<K extends HistoryKind>(kind: K, ownerId: string, count?: number): Promise<Outcome<Listed<K>>>;
  listEntries(vehicleId: string, fromDate: string, toDate: string): Promise<Outcome<Listed<"entry">>>;
  /** New or whole; fields that did not change keep their stamps. */
  put<K extends KindName>(kind: K, record: AnyRecord<K>): Promise<Outcome<null>>;
  /** All or none; places of problems begin with the number of the change in the list. */
  write(changes: readonly Writing[]): Promise<Outcome<null>>;
  /** Some fields of a record that is there; `undefined` takes an optional field away. */
  edit<K extends KindName>(kind: K, id: string, change: Changing<K>): Promise<Outcome<AnyRecord<K>>>;
  remove(kind: KindName, id: string): Promise<Outcome<null>>;
  /** Everything that cannot be read, to be shown and exported; none of it is ever dropped. */
  setAside(): Promise<Outcome<readonly SetAside[]>>;
  subscribe(listener: (change: Change) => void): () => void;
  close(): void;
  /** For the other modules of this room. */
  readonly inside: Inside;
}

export type Changing<K extends KindName> = {
  readonly [F in Exclude<keyof AnyRecord<K>, "id" | "v">]?: AnyRecord<K>[F] | undefined;
};

export interface Inside {
  readonly database: Database;
  readonly write: <T>(durability: Durability, work: Work<T>) => Promise<Outcome<T>>;
}
export type Work<T> = (records: RecordsStore<"readwrite">, clock: Ticking) => Promise<Written<T>>;
export interface Written<T> {
  readonly outcome: Outcome<T>;
  readonly keys: readonly string[];
}

export interface StoreOptions {
  readonly name?: string;
  readonly now?: () => number;
  readonly newDevice?: () => string;
}

export function openStore(options: StoreOptions = {}): Store {
  const name = options.name ?? DATABASE_NAME;
  const at = { now: options.now ?? Date.now, newDevice: options.newDevice ?? randomDevice };
  const changes = openChanges(name);
  const database = openDatabase(name, {
    blocked: () => changes.tell({ kind: "blocked" }),
    gaveWay: () => changes.tell({ kind: "gaveWay" }),
  });
  const write: Inside["write"] = async (durability, work) => {
    const done = await database.change(durability, async (records) => {
      const clock = await ticking(records, at);
      const written = await work(records, clock);
      if (written.keys.length > 0) await clock.keep(written.keys);
      return written;
    });
    if (!done.ok) return done;
    changes.changed(done.value.keys);
    return done.value.outcome;
  };
  const inside: Inside = { database, write };
  return {
    ...reading(database),
    ...changing(write),
    subscribe: changes.listen,
    close: () => {
      changes.close();
      database.close();
    },
    inside,
  };
}

type Reads = Pick<
  Store,
  "get" | "list" | "under" | "listMany" | "history" | "between" | "latest" | "listEntries" | "setAside"
>;

function reading(database: Database): Reads {
  const history: Reads["history"] = async (kind, ownerId, fromDay, toDay) => {
    const bodies = await database.run((records) =>
      records.index("history").getAll(IDBKeyRange.bound([kind, ownerId, fromDay], [kind, ownerId, `${toDay}\uffff`])),
    );
    return bodies.ok ? good(listed(kind, bodies.value)) : bodies;
  };
  const listMany = async <K extends KindName>(of: readonly K[]): Promise<Outcome<ListedKinds<K>>> => {
    const all = await database.run((records) =>
      Promise.all(of.map(async (kind) => [kind, listed(kind, await records.getAll(rangeOf(kind)))] as const)),
    );
    return all.ok ? good(Object.fromEntries(all.value) as unknown as ListedKinds<K>) : all;
  };
  return {
    get: async (kind, id) => {
      const body = await database.run((records) => records.get(keyOf(kind, id)));
      if (!body.ok) return body;
      return body.value && !isDeleted(body.value) ? recordOf(kind, body.value) : good(null);
    },
    list: async (kind) => {
      const all = await database.run((records) => records.getAll(rangeOf(kind)));
      return all.ok ? good(listed(kind, all.value)) : all;
    },
    under: async (kind, idStart) => {
      const start = keyOf(kind, idStart);
      const some = await database.run((records) => records.getAll(IDBKeyRange.bound(start, `${start}\uffff`)));
      return some.ok ? good(listed(kind, some.value)) : some;
    },
    listMany,
    history,
    listEntries: (vehicleId, fromDate, toDate) => history("entry", vehicleId, fromDate, toDate),
    between: async (kind, fromDay, toDay) => {
      const bodies = await database.run((records) =>
        records.index("day").getAll(IDBKeyRange.bound([kind, fromDay], [kind, `${toDay}\uffff`])),
      );
      return bodies.ok ? good(listed(kind, bodies.value)) : bodies;
    },
    latest: async (kind, ownerId, count = 1) => {
      const bodies = await database.run((records) =>
        newest(records, IDBKeyRange.bound([kind, ownerId], [kind, ownerId, "\uffff"]), count),
      );
      return bodies.ok ? good(listed(kind, bodies.value)) : bodies;
    },
    setAside: () => database.run(unreadable),
  };
}

/** Keys of a kind are `kind/...`, and `0` follows `/`. */
const rangeOf = (kind: string): IDBKeyRange => IDBKeyRange.bound(`${kind}/`, `${kind}0`, false, true);

function listed<K extends KindName>(kind: K, bodies: readonly Body[]): Listed<K> {
  const records: AnyRecord<K>[] = [];
  let setAside = 0;
  for (const body of bodies) {
    if (isDeleted(body)) continue;
    const seen = recordOf(kind, body);
    if (seen.ok) records.push(seen.value);
    else setAside++;
  }
  return { records, setAside };
}

async function newest(records: RecordsStore<"readonly">, range: IDBKeyRange, count: number): Promise<Body[]> {
  const found: Body[] = [];
  let cursor = await records.index("history").openCursor(range, "prev");
  while (cursor && found.length < count) {
    found.push(cursor.value);
    cursor = await cursor.continue();
  }
  return found;
}

async function unreadable(records: RecordsStore<"readonly">): Promise<readonly SetAside[]> {
  const found: SetAside[] = [];
  for (let cursor = await records.openCursor(); cursor; cursor = await cursor.continue()) {
    const body = cursor.value;
    if (isOwnRow(body.key)) continue;
    const problems = problemsOfBody(body);
    if (problems.length > 0) found.push({ body, problems });
  }
  return found;
}

/** Why a body cannot be read: of an unknown kind (a newer app wrote it), or broken. */
export function problemsOfBody(body: Body): readonly Problem[] {
  if (!isKind(body.k)) return [{ code: "unknownKind", where: body.key, figures: { found: String(body.k) } }];
  if (isDeleted(body)) return [];
  const seen = recordOf(body.k, body);
  return seen.ok ? [] : seen.problems;
}

function changing(write: Inside["write"]): Pick<Store, "put" | "write" | "edit" | "remove"> {
  const save = (changes: readonly Writing[]): Promise<Outcome<null>> =>
    write(durabilityOf(changes.map(({ kind }) => kind)), async (records, clock) => {
      const keys: string[] = [];
      for (const change of changes) {
        const key = keyOf(change.kind, "put" in change ? change.put.id : change.drop);
        const old = await records.get(key);
        const gone = !old || isDeleted(old);
        if ("drop" in change && gone) continue;
        const stamp = clock.stamp();
        const body = "put" in change ? bodyOf(change.kind, change.put, stamp, old) : old && deletedBody(old, stamp);
        if (body) await records.put(body);
        keys.push(key);
      }
      return { outcome: good(null), keys };
    });
  return {
    put: async (kind, record) => {
      const problems = problemsOfRecord(kind, record);
      return problems.length > 0 ? bad(...problems) : save([{ kind, put: record } as Writing]);
    },
    write: async (changes) => {
      const problems = changes.flatMap((change, n) =>
        "put" in change
          ? problemsOfRecord(change.kind, change.put).map((found) => ({ ...found, where: `${n}.${found.where}` }))
          : [],
      );
      return problems.length > 0 ? bad(...problems) : save(changes);
    },
    remove: (kind, id) => save([{ kind, drop: id }]),
    edit: (kind, id, change) =>
      write(durabilityOf([kind]), async (records, clock) => {
        const key = keyOf(kind, id);
        const old = await records.get(key);
        if (!old || isDeleted(old)) return { outcome: bad({ code: "gone", where: key }), keys: [] };
        const next = readRecord(kind, { ...withChange(old.f, change), id });
        if (!next.ok) return { outcome: next, keys: [] };
        const { errors } = checkRecord(kind, next.value);
        if (errors.length > 0) return { outcome: bad(...errors), keys: [] };
        await records.put(bodyOf(kind, next.value, clock.stamp(), old));
        return { outcome: next, keys: [key] };
      }),
  };
}

function withChange(fields: Readonly<Record<string, unknown>>, change: object): Record<string, unknown> {
  const all: Record<string, unknown> = { ...fields, ...change };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

function problemsOfRecord<K extends KindName>(kind: K, record: AnyRecord<K>): readonly Problem[] {
  const seen = readRecord(kind, record);
  return seen.ok ? checkRecord(kind, seen.value).errors : seen.problems;
}

/** What a person typed waits for the disk; what can be worked out again does not. */
const durabilityOf = (of: readonly KindName[]): Durability =>
  of.every((kind) => kindOf(kind).recomputable) ? "relaxed" : "strict";
