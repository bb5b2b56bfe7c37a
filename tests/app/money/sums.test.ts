import "fake-indexeddb/auto";
import { beforeEach, describe, expect, test } from "vitest";
import { twoDays } from "../../../src/app/screens/money/day-model.js";
import { monthsOfBooks, rowsOfMonths } from "../../../src/app/screens/money/month-model.js";
import { bringUpToDate } from "../../../src/app/screens/money/sums/build.js";
import { fleetLines } from "../../../src/app/screens/money/sums/lines.js";
import { isFresh, readFresh, standing } from "../../../src/app/screens/money/sums/rows.js";
import type { MoneyRow } from "../../../src/calc/money/index.js";
import { demoFleets } from "../../../src/records/demo/index.js";
import type { Entry, PriceRecord, Vehicle, Yard } from "../../../src/records/index.js";
import { type MoneyBook, moneyBookOf } from "../../../src/records/map/money-book.js";
import { writeBackup } from "../../../src/store/backup.js";
import { openStore, type Store, type Writing } from "../../../src/store/index.js";
import { exportFleet, importFleet } from "../../../src/store/transfer.js";
import { diceOf } from "../../../src/units/dice.js";
import { plusDays } from "../../../src/units/zone.js";
import { examples } from "../../records/examples.js";

const TODAY = "2027-02-09";
const fleet = demoFleets.quay(TODAY, Date.parse(`${TODAY}T18:00:00Z`));
const yard = fleet.yards[0] as Yard;
const [one, two] = fleet.vehicles as readonly [Vehicle, Vehicle];

const aDay = fleet.entries.filter(({ vehicleId }) => vehicleId === one.id).at(-2) as Entry;

let store: Store;
let count = 0;
beforeEach(async () => {
  store?.close();
  store = openStore({ name: `sums-${count++}` });
  expect((await importFleet(store, fleet, "replace")).ok).toBe(true);
});

const write = async (...changes: readonly Writing[]) => expect((await store.write(changes)).ok).toBe(true);
const fresh = async (today = TODAY) => {
  const at = await standing(store);
  return at.ok && isFresh(at.value, today);
};
const sumsOn = async (today = TODAY) => {
  const done = await bringUpToDate(store, today, () => undefined);
  expect(done).toEqual({ ok: true, value: true });
  const sums = await readFresh(store, today);
  if (!sums) throw new Error("not fresh");
  return sums;
};

/** Every day of every vehicle read and worked out, as the screen of one vehicle does. */
async function booksOn(today: string): Promise<readonly MoneyBook[]> {
  const got = await exportFleet(store, { title: "all", invented: true });
  if (!got.ok) throw new Error("not read");
  const all = got.value.fleet;
  return all.vehicles.map((vehicle) =>
    moneyBookOf({
      ...all,
      yard: all.yards.find(({ id }) => id === vehicle.yardId) as Yard,
      vehicle,
      vehicleIds: all.vehicles.filter(({ yardId }) => yardId === vehicle.yardId).map(({ id }) => id),
      round: all.rounds.find(({ id }) => id === vehicle.usual.roundId) ?? null,
      today,
      fill: false,
    }),
  );
}
const byKey = (rows: readonly MoneyRow[]) =>
  [...rows].sort((a, b) => (`${a.key}${a.currency}` < `${b.key}${b.currency}` ? -1 : 1));

async function expectSame(today = TODAY) {
  const sums = await sumsOn(today);
  const books = await booksOn(today);
  expect(byKey(rowsOfMonths(sums.months))).toEqual(byKey(monthsOfBooks(books)));
  for (const { id, days } of sums.list) {
    const book = books.find(({ vehicle }) => vehicle.id === id);
    expect(days).toEqual(book && twoDays(book, today));
  }
}
const entry = (vehicle: Vehicle, date: string, more: Partial<Entry> = {}): Writing => ({
  kind: "entry",
  put: {
    ...(fleet.entries[0] as Entry),
    id: `${vehicle.id}/${date}`,
    vehicleId: vehicle.id,
    date,
    km: 31,
    gridKwh: 3,
    odometerKm: null,
    ...more,
  },
});
const dearer = (from: string): PriceRecord => ({
  ...examples.price,
  id: `fuel/${from}`,
  from,
  currency: yard.currency,
  yardId: yard.id,
  vehicleId: null,
  of: { kind: "fuel", fuel: "diesel", perUnitMinor: 30_000 },
});

describe("sums made beforehand", () => {
  test("are those of the day lines, to the last coin, and stay fresh until something is written", async () => {
    await expectSame();
    expect(await fresh()).toBe(true);
    expect(await fresh(plusDays(TODAY, 1))).toBe(false);
  });

  const changes: readonly (readonly [string, readonly Writing[]])[] = [
    ["a day of today", [entry(one, TODAY)]],
    ["a day of long ago, before the first", [entry(two, "2026-03-05", { odometerKm: 900 })]],
    ["a day written anew", [entry(one, plusDays(TODAY, -3), { km: 99, gridKwh: 9 })]],
    ["a day to come", [entry(one, plusDays(TODAY, 1))]],
    ["a day removed", [{ kind: "entry", drop: aDay.id }]],
    ["a price of fuel from last month on", [{ kind: "price", put: dearer("2027-01-10") }]],
    ["a price of fuel from tomorrow on", [{ kind: "price", put: dearer(plusDays(TODAY, 1)) }]],
    [
      "a rent that the vehicles of the yard share",
      [
        {
          kind: "fixedCost",
          put: {
            ...examples.fixedCost,
            id: "rent",
            from: "2026-12-03",
            currency: yard.currency,
            yardId: yard.id,
            vehicleId: null,
            cost: "rent",
            amountMinor: 1_000_003,
            every: "month",
            to: null,
          },
        },
      ],
    ],
    [
      "a repair without an end",
      [
        {
          kind: "standstill",
          put: { ...examples.standstill, id: "s", vehicleId: one.id, from: "2027-01-20", to: null, why: "repair" },
        },
      ],
    ],
    ["another charger", [{ kind: "vehicle", put: { ...one, charger: { ...one.charger, efficiency: 0.7 } } }]],
    [
      "a vehicle more",
      [{ kind: "vehicle", put: { ...two, id: "new", plate: "99" } }, entry({ ...two, id: "new" }, TODAY)],
    ],
    ["a tariff", [{ kind: "yard", put: { ...yard, tariff: { ...yard.tariff, otherwisePerKwhMinor: 7777 } } }]],
    ["a sky", [{ kind: "sky", put: { ...examples.sky, id: "sky", yardId: yard.id, date: plusDays(TODAY, -1) } }]],
  ];
  test.each(changes)("after %s they are old, and then again those of the day lines", async (_, written) => {
    await sumsOn();
    await write(...written);
    expect(await fresh()).toBe(false);
    expect(await readFresh(store, TODAY)).toBeNull();
    await expectSame();
    await expectSame(plusDays(TODAY, 1));
  });

  test("run on through days that nobody writes, over the end of a month", async () => {
    await sumsOn();
    await expectSame(plusDays(TODAY, 1));
    await expectSame(plusDays(TODAY, 45));
    await write(entry(one, plusDays(TODAY, 40)));
    await expectSame(plusDays(TODAY, 45));
  });

  test("a plate, a cut or what was learned of the drive touches no sum", async () => {
    await sumsOn();
    await write(
      { kind: "vehicle", put: { ...one, plate: "X", learned: { driveFactor: 1.4, spread: 0.1, days: 20 } } },
      { kind: "yard", put: { ...yard, cuts: [{ fromUtcMs: 1_802_000_000_000, toUtcMs: 1_802_003_600_000 }] } },
    );
    expect(await fresh()).toBe(true);
    await expectSame();
  });

  test("a file brought in makes all of them old; an older version of the app that writes does so too", async () => {
    await sumsOn();
    const file = {
      ...fleet,
      entries: [...fleet.entries, { ...fleet.entries[0], id: "z", date: "2026-01-01" } as Entry],
    };
    await importFleet(store, file, "merge");
    expect(await fresh()).toBe(false);
    await expectSame();
    await store.inside.database.change("relaxed", async (records) => {
      const clock = await records.get("~clock");
      if (clock) await records.put({ ...clock, f: { device: clock.f.device, last: clock.f.last } });
    });
    expect(await fresh()).toBe(false);
    await expectSame();
  });

  test("what is written while they are made is taken in", async () => {
    let done: Promise<unknown> | null = null;
    const made = await bringUpToDate(store, TODAY, () => {
      done ??= write(entry(one, TODAY, { km: 77 }));
    });
    await done;
    expect(made.ok).toBe(true);
    await expectSame();
  });

  test("go into no copy", async () => {
    await sumsOn();
    const copy = await writeBackup(store, 1_802_000_000_000);
    expect(copy.ok && copy.value.includes("~")).toBe(false);
    const aside = await store.setAside();
    expect(aside.ok && aside.value).toEqual([]);
  });

  test("random histories: many changes, days and looks in any order, always the sums of the day lines", async () => {
    const dice = diceOf(7);
    const pick = <T>(list: readonly T[]): T => list[Math.floor(dice() * list.length)] as T;
    let today = TODAY;
    for (let turn = 0; turn < 25; turn++) {
      const date = plusDays(today, -Math.floor(dice() * 60));
      const change = pick<Writing>([
        entry(pick(fleet.vehicles), date, { km: Math.floor(dice() * 90), odometerKm: pick([null, 500]) }),
        entry(pick(fleet.vehicles), today, {
          km: pick([null, 12]),
          gridKwh: pick([null, 4]),
          paidMinor: pick([null, 9_000]),
        }),
        { kind: "price", put: { ...dearer(date), id: `p${turn}`, writtenUtcMs: 1_802_000_000_000 + turn } },
        { kind: "entry", drop: `${pick(fleet.vehicles).id}/${date}` },
      ]);
      await store.write([change]);
      if (dice() < 0.3) today = plusDays(today, 1);
      if (dice() < 0.5) await expectSame(today);
    }
    await expectSame(today);
  });

  test("the days of a month for a table are those of the books", async () => {
    await sumsOn();
    const books = await booksOn(TODAY);
    for (const { plate, lines } of await fleetLines(store, TODAY, "2027-01")) {
      const book = books.find(({ vehicle }) => vehicle.plate === plate);
      expect(lines).toEqual(book?.lines.filter(({ date }) => date.startsWith("2027-01")));
    }
  });
});
