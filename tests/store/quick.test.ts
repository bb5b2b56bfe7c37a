import "fake-indexeddb/auto";
import { expect, test } from "vitest";
import { standFleet } from "../../src/records/demo/stand.js";
import { kindNames, kinds } from "../../src/records/kinds.js";
import { openStore } from "../../src/store/index.js";
import { NEWEST_VERSION, readQuickly } from "../../src/store/quick.js";

const YARD = ["yard", "socket", "vehicle", "round"] as const;
let count = 0;
const newName = (): string => `quick-${++count}`;

async function filled(name: string) {
  const store = openStore({ name });
  const fleet = standFleet("2027-02-10");
  const puts = [
    ...fleet.yards.map((put) => ({ kind: "yard", put }) as const),
    ...fleet.vehicles.map((put) => ({ kind: "vehicle", put }) as const),
    ...fleet.rounds.map((put) => ({ kind: "round", put }) as const),
    ...fleet.readings.map((put) => ({ kind: "reading", put }) as const),
  ];
  expect((await store.write(puts)).ok).toBe(true);
  return { store, fleet };
}

test("the versions of the quick reader are those of the kinds", () => {
  const read = kindNames.filter((kind) => NEWEST_VERSION[kind] !== undefined);
  expect(read).toEqual(
    expect.arrayContaining([...YARD, "shift", "sky", "reading", "night", "learned", "placeLearned"]),
  );
  for (const kind of read) expect(NEWEST_VERSION[kind], kind).toBe(kinds[kind].version);
});

test("without a database there is nothing to read, and none is left behind", async () => {
  const name = newName();
  expect(await readQuickly(name, [{ kind: "yard" }])).toBeNull();
  expect((await indexedDB.databases()).map((one) => one.name)).not.toContain(name);
});

test("the quick reader gives what the store gives", async () => {
  const { store } = await filled(newName());
  const name = `quick-${count}`;
  const wanted = YARD.map((kind) => ({ kind }));
  const slow = await store.listMany(YARD);
  if (!slow.ok) throw new Error("The store cannot be read");
  const quick = await readQuickly(name, wanted);
  for (const kind of YARD) {
    const byId = (a: { id: string }, b: { id: string }) => (a.id < b.id ? -1 : 1);
    expect([...(quick?.[kind] ?? [])].sort(byId)).toEqual([...slow.value[kind].records].sort(byId));
  }
});

test("near days only, by the day of the reading", async () => {
  const { store, fleet } = await filled(newName());
  const day = new Date(fleet.readings[0]?.atUtcMs ?? 0).toISOString().slice(0, 10);
  const slow = await store.between("reading", day, day);
  const quick = await readQuickly(`quick-${count}`, [{ kind: "reading", days: [day, day] }]);
  expect(slow.ok && slow.value.records.length).toBeGreaterThan(0);
  expect(quick?.reading.length).toBe(slow.ok ? slow.value.records.length : -1);
});

test("a removed record is gone, one written again after it is back", async () => {
  const { store, fleet } = await filled(newName());
  const vehicle = fleet.vehicles[0];
  if (!vehicle) throw new Error("The stand has no vehicle");
  const ids = async () =>
    (await readQuickly(`quick-${count}`, [{ kind: "vehicle" }]))?.vehicle.map((one) => one.id) ?? [];
  await store.remove("vehicle", vehicle.id);
  expect(await ids()).not.toContain(vehicle.id);
  await store.put("vehicle", { ...vehicle, name: "Again" });
  expect(await ids()).toContain(vehicle.id);
});
