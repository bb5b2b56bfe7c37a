import "fake-indexeddb/auto";
import { beforeAll, expect, test, vi } from "vitest";
import type { Book, Change } from "../../src/app/fleet.js";
import type { KindName } from "../../src/records/index.js";
import { openStore } from "../../src/store/index.js";
import { examples } from "../records/examples.js";

type Shelf = typeof import("../../src/app/shelf-full.js");
type Fleet = typeof import("../../src/app/fleet.js");
let shelf: Shelf;
let fleet: Fleet;
const WAIT = { timeout: 20_000 };

beforeAll(async () => {
  vi.stubGlobal("navigator", { languages: ["en"] });
  vi.stubGlobal("document", { documentElement: { dataset: {} } });
  vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
  shelf = await import("../../src/app/shelf-full.js");
  fleet = await import("../../src/app/fleet.js");
});

const inStore = async <K extends KindName>(kind: K, id: string) => {
  const found = await shelf.openedStore().get(kind, id);
  return found.ok ? found.value : null;
};
/** Before the screens as the phone has it. */
const show = async (book: Book) => {
  for (const [kind, list] of Object.entries(book)) for (const put of list) await shelf.write([{ kind, put } as Change]);
  fleet.useShelf({ write: shelf.write }, book);
};
const undo = async () => {
  const { takeBack } = await import("../../src/app/undo.js");
  await takeBack();
};

test("what is typed while the records are read again stays before the screens", async () => {
  let reads = 0;
  const ids = await shelf.readSteadily(async (from) => {
    const list = await from.list("yard");
    // The list is old by the time it arrives: the write is on disk, and its screen has shown it.
    if (reads++ === 0) expect((await shelf.write([{ kind: "yard", put: examples.yard }])).ok).toBe(true);
    return list.ok ? list.value.records.map(({ id }) => id) : [];
  });
  expect(reads).toBe(2);
  expect(ids).toEqual([examples.yard.id]);
});

test("a list of another yard's records is not shown in this one", async () => {
  const { set } = await import("../../src/app/settings.js");
  let reads = 0;
  const ids = await shelf.readSteadily(async (from) => {
    const list = await from.list("yard");
    if (reads++ === 0) set({ demo: { vehicleId: null, role: "driver" } });
    return list.ok ? list.value.records.map(({ id }) => id) : [];
  });
  expect(reads).toBe(2);
  expect(ids).toEqual([]);
});

test("a day that no screen holds comes back as it stood in the store", async () => {
  const { set } = await import("../../src/app/settings.js");
  set({ demo: null });
  const { entry } = examples;
  await show({ entry: [entry] });
  fleet.useShelf({ write: shelf.write }, {});
  const empty = { ...entry, km: 42, paidMinor: null };
  expect(await fleet.keep([{ kind: "entry", put: empty }], "Kept.")).toBe(true);
  await undo();
  expect(await inStore("entry", entry.id)).toEqual(entry);
});

test("taking back one thing leaves what was typed since", async () => {
  const { vehicle } = examples;
  await show({ vehicle: [vehicle] });
  await fleet.keep([{ kind: "vehicle", put: { ...vehicle, plate: "99", kerbKg: 480 } }], "Kept.");
  const since = fleet.vehicleOf(vehicle.id);
  await fleet.keep([{ kind: "vehicle", put: { ...vehicle, ...since, kerbKg: 490, name: "Later" } }]);
  await undo();
  expect(await inStore("vehicle", vehicle.id)).toEqual({ ...vehicle, kerbKg: 490, name: "Later" });
});

test("taking back a line of an account strikes it out; a correction falls back to what it corrected", async () => {
  const { driverAccounts } = await import("../../src/calc/money/driver.js");
  const line = { ...examples.accountLine, id: "l1", corrects: null, amountMinor: 5000, about: "rent" as const };
  const owed = async () => {
    const all = await shelf.openedStore().list("accountLine");
    const lines = all.ok ? all.value.records : [];
    const { accounts } = driverAccounts(lines.map(({ about, ...each }) => ({ ...each, kind: about })));
    return [lines.length, accounts[0]?.owedMinor];
  };
  await show({ accountLine: [line] });
  const correction = { ...line, id: "l2", amountMinor: 7000, corrects: "l1", writtenUtcMs: line.writtenUtcMs + 1 };
  await fleet.keep([{ kind: "accountLine", put: correction }], "Kept.");
  expect(await owed()).toEqual([2, 7000]);
  await undo();
  expect(await owed()).toEqual([3, 5000]);
  await fleet.keep([{ kind: "accountLine", put: { ...line, id: "l3", amountMinor: 900 } }], "Kept.");
  expect(await owed()).toEqual([4, 5900]);
  await undo();
  expect(await owed()).toEqual([5, 5000]);
});

test("what another window writes of a day, a line or a price comes before the screens that hold it", async () => {
  const { entry, accountLine, price } = examples;
  await show({ entry: [entry], accountLine: [accountLine], price: [price] });
  await shelf.settle();
  const other = openStore({ name: "noonplug" });
  const changes = [
    { kind: "entry", put: { ...entry, km: 77 } },
    { kind: "accountLine", put: { ...accountLine, id: "other" } },
    { kind: "price", put: { ...price, note: "other" } },
  ] as const;
  expect((await other.write(changes)).ok).toBe(true);
  other.close();
  const shown = () => fleet.book.value;
  await vi.waitFor(() => expect(shown().entry?.find(({ id }) => id === entry.id)?.km).toBe(77), WAIT);
  expect(shown().accountLine?.map(({ id }) => id)).toContain("other");
  expect(shown().price?.find(({ id }) => id === price.id)?.note).toBe("other");
});

test("prices that keep the past as it was come before the screens with the tariff that was changed", async () => {
  const yard = { ...examples.yard, id: "priced" };
  await show({ yard: [yard], price: [] });
  const tariff = { ...yard.tariff, otherwisePerKwhMinor: 5000 };
  await fleet.keep([{ kind: "yard", put: { ...yard, tariff } }]);
  expect(fleet.listed(fleet.book.value, "price").filter(({ yardId }) => yardId === "priced")).toHaveLength(2);
});

test("of hundreds of vehicles the list comes first, and what their answers need follows", async () => {
  const { set } = await import("../../src/app/settings.js");
  const { openRecords } = await import("../../src/app/shelf.js");
  const { DEMO_DATABASE } = await import("../../src/app/shelf-lists.js");
  set({ demo: { vehicleId: null, role: "driver" } });
  const store = openStore({ name: DEMO_DATABASE });
  const vehicles = Array.from({ length: 260 }, (_, n) => ({ ...examples.vehicle, id: `v${n}`, plate: `${n}` }));
  const readings = vehicles.map(({ id }) => ({
    ...examples.reading,
    id: `${id}/1`,
    vehicleId: id,
    atUtcMs: Date.now() - 3_600_000,
  }));
  const kept = await store.write([
    { kind: "yard", put: examples.yard } as Change,
    ...vehicles.map((put) => ({ kind: "vehicle", put }) as Change),
    ...readings.map((put) => ({ kind: "reading", put }) as Change),
  ]);
  expect(kept.ok).toBe(true);
  fleet.book.value = {};
  await openRecords();
  expect(fleet.listed(fleet.book.value, "vehicle")).toHaveLength(vehicles.length);
  await vi.waitFor(() => expect(fleet.listed(fleet.book.value, "reading")).toHaveLength(readings.length), WAIT);
  store.close();
  set({ demo: null });
}, 60_000);
