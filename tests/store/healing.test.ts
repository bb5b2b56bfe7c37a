import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { openDB } from "idb";
import { afterEach, describe, expect, test, vi } from "vitest";
import { DATABASE_VERSION } from "../../src/store/database.js";
import { type Change, openStore, type Store } from "../../src/store/index.js";
import { examples } from "../records/examples.js";

let count = 0;
const open: Store[] = [];
const store = (name = `heal-${count++}`): Store => {
  const made = openStore({ name });
  open.push(made);
  return made;
};
afterEach(() => {
  for (const made of open.splice(0)) made.close();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});
const codeOf = (outcome: { readonly ok: boolean; readonly problems?: readonly { readonly code: string }[] }) =>
  outcome.ok ? "ok" : outcome.problems?.[0]?.code;
const named = (name: string, message = "") => new DOMException(message, name);

describe("a connection killed behind our back", () => {
  // The three ways browsers report it: w3c/IndexedDB#133, WebKit's lost connection, an abort nobody asked for
  test.each([
    ["a closed database", named("InvalidStateError", "The database connection is closing.")],
    [
      "a lost server",
      named("UnknownError", "Connection to Indexed Database server lost. Refresh the page to try again"),
    ],
    ["an abort", named("AbortError")],
  ])("heals on the same tap: %s", async (_, why) => {
    const here = store();
    expect(await here.put("entry", examples.entry)).toEqual({ ok: true, value: null });
    const original = IDBDatabase.prototype.transaction;
    let failures = 1;
    const spy = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (
      this: IDBDatabase,
      ...args
    ) {
      if (failures-- > 0) throw why;
      return original.apply(this, args);
    });
    expect(await here.put("entry", { ...examples.entry, km: 77 })).toEqual({ ok: true, value: null });
    expect(spy).toHaveBeenCalledTimes(2);
    expect(await here.get("entry", examples.entry.id)).toMatchObject({ value: { km: 77 } });
  });

  test("really closed, not only said to be", async () => {
    const here = store();
    await here.put("entry", examples.entry);
    const handles: IDBDatabase[] = [];
    const original = IDBDatabase.prototype.transaction;
    vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, ...args) {
      handles.push(this);
      return original.apply(this, args);
    });
    await here.get("entry", examples.entry.id);
    handles[0]?.close();
    expect(await here.put("entry", { ...examples.entry, km: 78 })).toEqual({ ok: true, value: null });
    expect(new Set(handles).size).toBe(2);
    expect(await here.get("entry", examples.entry.id)).toMatchObject({ value: { km: 78 } });
  });

  test("that stays dead is a problem, after one more try and no five", async () => {
    const here = store();
    await here.put("entry", examples.entry);
    const spy = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(() => {
      throw named("UnknownError");
    });
    expect(codeOf(await here.put("entry", examples.entry))).toBe("storageFailed");
    expect(spy).toHaveBeenCalledTimes(2);
    spy.mockRestore();
    expect(codeOf(await here.put("entry", examples.entry))).toBe("ok");
  });
});

describe("a transaction killed midway", () => {
  test("keeps all or nothing", async () => {
    const here = store();
    await here.put("entry", examples.entry);
    const original = IDBObjectStore.prototype.put;
    let puts = 0;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, ...args) {
      const request = original.apply(this, args);
      if (++puts === 2) this.transaction.abort();
      return request;
    });
    const many = [1, 2, 3].map(
      (n) => ({ kind: "entry", put: { ...examples.entry, id: `e${n}`, date: `2027-03-0${n}` } }) as const,
    );
    // killed once: the second try keeps all three
    expect(codeOf(await here.write(many))).toBe("ok");
    expect(puts).toBeGreaterThan(4);
    puts = -1000;
    expect(await here.listEntries("v1", "2027-03-01", "2027-03-31")).toMatchObject({
      value: { records: [{}, {}, {}] },
    });
  });

  test("for lack of room says so, and keeps what was there", async () => {
    const here = store();
    await here.put("entry", examples.entry);
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw named("QuotaExceededError");
    });
    expect(codeOf(await here.edit("entry", examples.entry.id, { km: 90 }))).toBe("storageFull");
    vi.restoreAllMocks();
    expect(await here.get("entry", examples.entry.id)).toMatchObject({ value: { km: examples.entry.km } });
  });

  test("by a bug of ours throws, it is no storage problem", async () => {
    const here = store();
    vi.spyOn(IDBObjectStore.prototype, "get").mockImplementation(() => {
      throw new TypeError("a bug");
    });
    await expect(here.get("entry", "x")).rejects.toThrow("a bug");
  });
});

describe("storage that is not to be had", () => {
  test("none at all", async () => {
    vi.stubGlobal("indexedDB", undefined);
    expect(codeOf(await store().list("entry"))).toBe("storageRefused");
    expect(codeOf(await store().listEntries("v1", "2027-01-01", "2027-02-01"))).toBe("storageRefused");
    expect(codeOf(await store().put("entry", examples.entry))).toBe("storageRefused");
  });
  test("refused at first, then allowed: the failed opening does not stick", async () => {
    const spy = vi.spyOn(IDBFactory.prototype, "open").mockImplementation(() => {
      throw named("SecurityError");
    });
    const here = store();
    expect(codeOf(await here.put("entry", examples.entry))).toBe("storageRefused");
    spy.mockRestore();
    expect(codeOf(await here.put("entry", examples.entry))).toBe("ok");
  });
  test("closed by ourselves", async () => {
    const here = store();
    await here.put("entry", examples.entry);
    here.close();
    expect(codeOf(await here.get("entry", examples.entry.id))).toBe("storageRefused");
  });
});

describe("versions of the database", () => {
  test("the draft version climbs and gives its records back, by history too", async () => {
    const name = `old-${count++}`;
    const old = await openDB(name, 1, { upgrade: (db) => void db.createObjectStore("records", { keyPath: "key" }) });
    const { id, ...f } = examples.entry;
    await old.put("records", { key: `entry/${id}`, k: "entry", f, t: "0mxxxxxxx001phone1" });
    const { id: vehicleId, ...vehicle } = examples.vehicle;
    await old.put("records", { key: `vehicle/${vehicleId}`, k: "vehicle", f: vehicle, t: "0mxxxxxxx000phone1" });
    old.close();
    const here = store(name);
    expect(await here.listEntries("v1", "2027-02-09", "2027-02-09")).toEqual({
      ok: true,
      value: { records: [examples.entry], setAside: 0 },
    });
    expect(await here.get("vehicle", "v1")).toEqual({ ok: true, value: examples.vehicle });
  });

  test("an empty database of the draft version is made whole", async () => {
    const name = `empty-${count++}`;
    (await openDB(name, 1)).close();
    const here = store(name);
    expect(codeOf(await here.put("entry", examples.entry))).toBe("ok");
    expect(await here.listEntries("v1", "2027-02-09", "2027-02-09")).toMatchObject({
      value: { records: [examples.entry] },
    });
  });

  test("a newer tab gets its way, and this one says so", async () => {
    const name = `newer-${count++}`;
    const here = store(name);
    const heard: Change[] = [];
    here.subscribe((change) => heard.push(change));
    await here.put("entry", examples.entry);
    const newer = await openDB(name, DATABASE_VERSION + 1);
    expect(heard.at(-1)).toEqual({ kind: "gaveWay" });
    expect(codeOf(await here.put("entry", examples.entry))).toBe("storageNewer");
    expect(await newer.count("records")).toBe(2); // the entry and the clock
    newer.close();
  });

  test("an older tab that does not let go is reported, and the work goes on once it does", async () => {
    const name = `blocked-${count++}`;
    const old = await openDB(name, 1, { upgrade: (db) => void db.createObjectStore("records", { keyPath: "key" }) });
    const here = store(name);
    const heard: Change[] = [];
    here.subscribe((change) => heard.push(change));
    const saving = here.put("entry", examples.entry);
    await expect.poll(() => heard).toEqual([{ kind: "blocked" }]);
    old.close();
    expect(codeOf(await saving)).toBe("ok");
  });
});

test("what a person typed waits for the disk", async () => {
  const here = store();
  await here.get("entry", "none");
  const original = IDBDatabase.prototype.transaction;
  const asked: unknown[] = [];
  vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, names, mode, options) {
    asked.push([mode, options?.durability]);
    return original.call(this, names, mode, options);
  });
  await here.put("entry", examples.entry);
  await here.edit("entry", examples.entry.id, { km: 3 });
  await here.remove("entry", examples.entry.id);
  expect(asked).toEqual(Array(3).fill(["readwrite", "strict"]));
});
