import "fake-indexeddb/auto";
import { beforeAll, expect, test, vi } from "vitest";
import { demoFleets } from "../../../src/records/demo/index.js";
import type { Entry, PriceRecord, Vehicle, Yard } from "../../../src/records/index.js";
import { plusDays } from "../../../src/units/zone.js";

const TODAY = "2027-02-09";
const fleet = demoFleets.quay(TODAY, Date.parse(`${TODAY}T18:00:00Z`));
const yard = fleet.yards[0] as Yard;
const vehicle = fleet.vehicles[0] as Vehicle;

async function load() {
  const [books, shelf, full, { set }, fleetOf, { nowUtcMs, zone }, { importFleet }] = await Promise.all([
    import("../../../src/app/screens/money/books.js"),
    import("../../../src/app/shelf.js"),
    import("../../../src/app/shelf-full.js"),
    import("../../../src/app/settings.js"),
    import("../../../src/app/fleet.js"),
    import("../../../src/app/state.js"),
    import("../../../src/store/transfer.js"),
  ]);
  return { books, shelf, full, set, fleetOf, nowUtcMs, zone, importFleet };
}
let app: Awaited<ReturnType<typeof load>>;

const read = async () => {
  await app.books.readBooks([vehicle]);
  return app.books.heldBooks([vehicle], false)[0];
};
const open = async (demo: boolean) => {
  app.set({ demo: demo ? { vehicleId: null, role: "owner" } : null });
  await app.shelf.openRecords();
};

beforeAll(async () => {
  vi.stubGlobal("navigator", { languages: ["en"] });
  vi.stubGlobal("document", { documentElement: { dataset: {} } });
  vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
  app = await load();
  app.nowUtcMs.value = Date.parse(`${TODAY}T18:00:00Z`);
  app.zone.value = yard.zone;
  expect((await app.importFleet(app.full.openedStore(), fleet, "replace")).ok).toBe(true);
  await open(false);
});

test("another yard's records and back again: prices and loans are read each time, not once for ever", async () => {
  const before = await read();
  expect(before?.kit.length).toBeGreaterThan(0);
  await open(true);
  expect(app.books.heldBooks([vehicle], false)).toEqual([]);
  await app.books.readBooks([vehicle]);
  await open(false);
  expect(app.books.heldBooks([vehicle], false)).toEqual([]);
  expect(await read()).toEqual(before);
});

test("a tariff changed on the yard's own screen does not reprice the days before", async () => {
  const before = await read();
  expect(before?.lines.some(({ sums }) => sums.power > 0)).toBe(true);
  const dear = { ...yard.tariff, otherwisePerKwhMinor: 90_000, bands: [] };
  vi.setSystemTime(Date.parse(`${TODAY}T18:00:00Z`));
  expect(await app.fleetOf.keep([{ kind: "yard", put: { ...yard, tariff: dear } }])).toBe(true);
  vi.useRealTimers();
  app.nowUtcMs.value = Date.parse(`${TODAY}T18:00:00Z`);
  const after = await read();
  const powerOf = (of: typeof before) => of?.lines.filter(({ date }) => date < TODAY).map(({ sums }) => sums.power);
  expect(powerOf(after)).toEqual(powerOf(before));
  const prices: readonly PriceRecord[] = app.fleetOf.listed(app.fleetOf.book.value, "price");
  expect(prices.some(({ from, of }) => from === TODAY && of.kind === "power")).toBe(true);
});

test("a file that was brought in is seen at once, days of long ago too, for one vehicle as for all", async () => {
  await read();
  const old: Entry = {
    ...(fleet.entries[0] as Entry),
    id: `${vehicle.id}/2025-03-04`,
    vehicleId: vehicle.id,
    date: "2025-03-04",
  };
  expect((await app.importFleet(app.full.openedStore(), { ...fleet, entries: [old] }, "merge")).ok).toBe(true);
  expect(app.books.heldBooks([vehicle], false)).toEqual([]);
  expect((await read())?.lines[0]?.date).toBe(old.date);
  await app.books.readBooks(fleet.vehicles);
  const all = app.books.heldBooks(fleet.vehicles, false);
  expect(all.length).toBe(fleet.vehicles.length);
  expect(all[0]?.lines[0]?.date).toBe(old.date);
});

test("days are filled where it is asked for, and stay missing everywhere else", async () => {
  await read();
  const [filled] = app.books.heldBooks([vehicle], true);
  expect(filled?.lines.some(({ sums }) => sums.filledDays > 0)).toBe(true);
  const [plain] = app.books.heldBooks([vehicle], false);
  expect(plain?.lines.some(({ sums }) => sums.filledDays > 0)).toBe(false);
  expect(plain?.lines.some(({ date, state }) => state === "missing" && date === plusDays("2025-03-04", 1))).toBe(true);
});

test("a slow read does not take the place of a later one", async () => {
  const slow = app.books.readBooks(fleet.vehicles);
  const quick = app.books.readBooks([vehicle]);
  await Promise.all([slow, quick]);
  expect(app.books.heldBooks([vehicle], false).length).toBe(1);
});
