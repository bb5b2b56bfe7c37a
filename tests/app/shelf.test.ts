import "fake-indexeddb/auto";
import { beforeAll, expect, test, vi } from "vitest";
import { examples } from "../records/examples.js";

type Shelf = typeof import("../../src/app/shelf-full.js");
let shelf: Shelf;

beforeAll(async () => {
  vi.stubGlobal("navigator", { languages: ["en"] });
  vi.stubGlobal("document", { documentElement: { dataset: {} } });
  vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
  shelf = await import("../../src/app/shelf-full.js");
});

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
