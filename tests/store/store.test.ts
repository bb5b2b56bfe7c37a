import "fake-indexeddb/auto";
import { openDB } from "idb";
import { afterEach, describe, expect, test, vi } from "vitest";
import type { Entry } from "../../src/records/index.js";
import { type Change, openStore, type Store } from "../../src/store/index.js";
import type { Outcome } from "../../src/units/outcome.js";
import { examples } from "../records/examples.js";

let count = 0;
const open: Store[] = [];
const store = (options: Parameters<typeof openStore>[0] = {}): Store => {
  const made = openStore({ name: `store-${count++}`, ...options });
  open.push(made);
  return made;
};
afterEach(() => {
  for (const made of open.splice(0)) made.close();
});
const must = async <T>(outcome: Promise<Outcome<T>>): Promise<T> => {
  const seen = await outcome;
  if (!seen.ok) throw new Error(JSON.stringify(seen.problems));
  return seen.value;
};
const codes = async (outcome: Promise<Outcome<unknown>>): Promise<readonly string[]> => {
  const seen = await outcome;
  return seen.ok ? [] : seen.problems.map((problem) => problem.code);
};
const day = (n: number): string => new Date(Date.UTC(2027, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);
const entry = (vehicleId: string, n: number): Entry => ({
  ...examples.entry,
  id: `${vehicleId}/${day(n)}/1`,
  vehicleId,
  date: day(n),
  km: n % 1000,
});

describe("records on this phone", () => {
  test("come back as they were put, also after closing", async () => {
    const name = `kept-${count++}`;
    const first = store({ name });
    for (const kind of ["yard", "vehicle", "round", "shift", "sky", "reading", "entry", "socket"] as const)
      expect(await first.put(kind, examples[kind])).toEqual({ ok: true, value: null });
    first.close();
    const second = store({ name });
    for (const kind of ["yard", "vehicle", "round", "shift", "sky", "reading", "entry", "socket"] as const) {
      expect(await must(second.get(kind, examples[kind].id))).toEqual(examples[kind]);
      expect(await must(second.list(kind))).toEqual({ records: [examples[kind]], setAside: 0 });
    }
    const many = await must(second.listMany(["vehicle", "round"]));
    expect(many.vehicle.records).toEqual([examples.vehicle]);
    expect(many.round.records).toEqual([examples.round]);
  });

  test("are refused with the places when they are wrong, and nothing is kept", async () => {
    const here = store();
    const wrong = { ...examples.entry, km: Number.NaN };
    expect(await codes(here.put("entry", wrong))).toEqual(["wrongType"]);
    const bars = { ...examples.vehicle, gauge: { kind: "bars", bars: null } } as const;
    expect(await codes(here.put("vehicle", bars))).toEqual(["barsMissing"]);
    expect(
      await codes(
        here.write([
          { kind: "entry", put: examples.entry },
          { kind: "entry", put: wrong },
        ]),
      ),
    ).toEqual(["wrongType"]);
    expect((await must(here.list("entry"))).records).toEqual([]);
  });

  test("can be changed in part, and removed, and put again", async () => {
    const here = store();
    await must(here.put("entry", examples.entry));
    const edited = await must(here.edit("entry", examples.entry.id, { km: 50 }));
    expect(edited).toEqual({ ...examples.entry, km: 50 });
    expect(await codes(here.edit("entry", examples.entry.id, { km: -1 }))).toEqual(["tooSmall"]);
    expect(await must(here.get("entry", examples.entry.id))).toEqual(edited);
    await must(here.remove("entry", examples.entry.id));
    await must(here.remove("entry", examples.entry.id));
    expect(await must(here.get("entry", examples.entry.id))).toBeNull();
    expect(await must(here.listEntries("v1", "2020-01-01", "2030-01-01"))).toEqual({ records: [], setAside: 0 });
    expect(await codes(here.edit("entry", examples.entry.id, { km: 1 }))).toEqual(["gone"]);
    await must(here.put("entry", examples.entry));
    expect(await must(here.get("entry", examples.entry.id))).toEqual(examples.entry);
  });

  test("an optional field can be taken away", async () => {
    const here = store();
    await must(here.put("socket", examples.socket));
    const edited = await must(here.edit("socket", "s1", { breakerA: undefined }));
    expect(edited).not.toHaveProperty("breakerA");
  });

  test("a history is one vehicle's, days included at both ends, oldest first", async () => {
    const here = store();
    const all = ["v1", "v10", "v2"].flatMap((id) =>
      Array.from({ length: 40 }, (_, n) => ({ kind: "entry", put: entry(id, n) }) as const),
    );
    await must(here.write([...all].reverse()));
    const seen = await must(here.listEntries("v1", day(10), day(12)));
    expect(seen.records.map((found) => [found.vehicleId, found.km])).toEqual([
      ["v1", 10],
      ["v1", 11],
      ["v1", 12],
    ]);
    expect(
      (await must(here.between("entry", day(39), day(39)))).records.map((found) => found.vehicleId).sort(),
    ).toEqual(["v1", "v10", "v2"]);
    expect((await must(here.latest("entry", "v2", 2))).records.map((found) => found.km)).toEqual([39, 38]);
    expect((await must(here.latest("entry", "none"))).records).toEqual([]);
    expect((await must(here.list("entry"))).records).toHaveLength(120);
  });

  test("readings are filed by their instant", async () => {
    const here = store();
    const at = (iso: string) => ({ ...examples.reading, id: `v1/${Date.parse(iso)}`, atUtcMs: Date.parse(iso) });
    const times = ["2027-02-09T23:59:59Z", "2027-02-10T00:00:00Z", "2027-02-10T23:59:59Z", "2027-02-11T00:00:00Z"];
    await must(here.write(times.map((iso) => ({ kind: "reading", put: at(iso) }) as const)));
    const seen = await must(here.history("reading", "v1", "2027-02-10", "2027-02-10"));
    expect(seen.records.map((found) => found.atUtcMs)).toEqual([
      Date.parse(times[1] ?? ""),
      Date.parse(times[2] ?? ""),
    ]);
  });
});

describe("two tabs on one phone", () => {
  test("see each other's records and hear of changes", async () => {
    const name = `tabs-${count++}`;
    const [a, b] = [store({ name }), store({ name })];
    const heard: Change[] = [];
    b.subscribe((change) => heard.push(change));
    await must(a.put("entry", examples.entry));
    await expect.poll(() => heard).toEqual([{ kind: "changed", keys: [`entry/${examples.entry.id}`], here: false }]);
    expect(await must(b.get("entry", examples.entry.id))).toEqual(examples.entry);
  });

  test("editing at the same moment lose no field, and no stamp is given out twice", async () => {
    const name = `race-${count++}`;
    const tabs = [
      store({ name, now: () => 1.8e12 }),
      store({ name, now: () => 1.7e12 }),
      store({ name, now: () => 1.9e12 }),
    ];
    const [first] = tabs;
    if (!first) throw new Error("no tab");
    await must(first.put("vehicle", examples.vehicle));
    await Promise.all(
      tabs.flatMap((tab, t) => [
        must(tab.edit("vehicle", "v1", t === 0 ? { plate: "77" } : t === 1 ? { kerbKg: 481 } : { name: "third" })),
        must(tab.put("entry", entry("v1", t))),
      ]),
    );
    expect(await must(first.get("vehicle", "v1"))).toMatchObject({ plate: "77", kerbKg: 481, name: "third" });
    const db = await openDB(name);
    const bodies = (await db.getAll("records")) as { t: string; x?: Record<string, string> }[];
    db.close();
    const stamps = bodies
      .flatMap((body) => [body.t, ...new Set(Object.values(body.x ?? {}))])
      .filter((text) => text !== "");
    expect(stamps.length).toBeGreaterThan(5);
    expect(new Set(stamps).size).toBe(stamps.length);
    expect(new Set(stamps.map((text) => text.slice(12))).size).toBe(1); // one phone
  });
});

describe("a phone whose clock is wrong", () => {
  test("set back by a year, still the last write stands", async () => {
    let nowMs = 1.8e12;
    const here = store({ now: () => nowMs });
    await must(here.put("entry", examples.entry));
    nowMs -= 400 * 86_400_000;
    await must(here.edit("entry", examples.entry.id, { km: 60 }));
    await must(here.remove("entry", examples.entry.id));
    expect(await must(here.get("entry", examples.entry.id))).toBeNull();
    await must(here.put("entry", { ...examples.entry, km: 61 }));
    expect(await must(here.get("entry", examples.entry.id))).toMatchObject({ km: 61 });
  });
});

describe("records that cannot be read", () => {
  test("are set aside, counted and shown, and stay when others are written", async () => {
    const name = `aside-${count++}`;
    const first = store({ name });
    await must(first.put("vehicle", examples.vehicle));
    const db = await openDB(name);
    const t = "00000000000000000000a".slice(0, 13);
    await db.put("records", { key: "vehicle/v9", k: "vehicle", f: { v: 99, wings: 2 }, t });
    await db.put("records", { key: "vehicle/v8", k: "vehicle", f: { v: 1 }, t });
    await db.put("records", { key: "balloon/b1", k: "balloon", f: { v: 1 }, t });
    db.close();
    expect(await must(first.list("vehicle"))).toEqual({ records: [examples.vehicle], setAside: 2 });
    const aside = await must(first.setAside());
    expect(aside.map(({ problems }) => problems[0]?.code).sort()).toEqual(["missing", "newerVersion", "unknownKind"]);
    expect(await codes(first.get("vehicle", "v9"))).toEqual(["newerVersion"]);
    await must(first.put("vehicle", { ...examples.vehicle, plate: "02" }));
    expect(await must(first.setAside())).toEqual(aside);
  });
});

describe("scale", () => {
  test("one vehicle's month out of thirty vehicles' three years reads only that month", async () => {
    const here = store();
    for (let v = 0; v < 30; v++)
      await must(
        here.write(Array.from({ length: 100 }, (_, n) => ({ kind: "entry", put: entry(`v${v}`, n * 11) }) as const)),
      );
    const whole = vi.spyOn(IDBObjectStore.prototype, "getAll");
    const part = vi.spyOn(IDBIndex.prototype, "getAll");
    const seen = await must(here.listEntries("v7", day(0), day(33)));
    expect(seen.records.map((found) => found.date)).toEqual([0, 11, 22, 33].map(day));
    expect(whole).not.toHaveBeenCalled();
    const [request] = part.mock.results.map((result) => result.value as IDBRequest<unknown[]>);
    expect(request?.result).toHaveLength(4); // of 3,000 rows only these left the database
    vi.restoreAllMocks();
  }, 60_000);
});
