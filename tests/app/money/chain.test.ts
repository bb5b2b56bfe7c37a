import "fake-indexeddb/auto";
import { expect, test } from "vitest";
import { lastLink, linksFor, linksOf, sha256, writeSealed } from "../../../src/app/chain.js";
import { checkChain, type Digest } from "../../../src/records/export/money-chain.js";
import { type Entry, fleetOf } from "../../../src/records/index.js";
import { openStore } from "../../../src/store/index.js";
import { importFleet } from "../../../src/store/transfer.js";
import { examples } from "../../records/examples.js";

const digest = sha256 as Digest;
const entry = (n: number, km: number): Entry => ({
  ...examples.entry,
  id: `v1/${n}`,
  date: `2027-02-${String(n).padStart(2, "0")}`,
  km,
});
const bodies = (entries: readonly Entry[]) => entries.map((body) => ({ record: `entry/${body.id}`, body }));

test("every day that is written leaves a link, in one go with the day; the chain finds its end without a count", async () => {
  const store = openStore({ name: "chain-1" });
  for (let n = 1; n <= 21; n++) await writeSealed(store, [{ kind: "entry", put: entry(n, n) }], 1_800_000_000_000 + n);
  const links = await store.list("chainLink");
  const records = await store.list("entry");
  if (!links.ok || !records.ok) throw new Error("not read");
  expect(links.value.records.length).toBe(21);
  expect((await lastLink(store, "v1"))?.number).toBe(21);
  const seen = await checkChain(links.value.records, bodies(records.value.records), digest);
  expect(seen.ok && seen.value.untouched).toBe(21);
  store.close();
});

test("a second window goes on where the first one stopped, and a changed or dropped day is seen", async () => {
  const [one, two] = [openStore({ name: "chain-2" }), openStore({ name: "chain-2" })];
  await writeSealed(
    one,
    [
      { kind: "entry", put: entry(1, 10) },
      { kind: "entry", put: entry(2, 20) },
    ],
    1_800_000_000_000,
  );
  await writeSealed(two, [{ kind: "entry", put: entry(3, 30) }], 1_800_000_000_001);
  await writeSealed(one, [{ kind: "entry", put: entry(1, 11) }], 1_800_000_000_002);
  await writeSealed(one, [{ kind: "entry", drop: "v1/2" }], 1_800_000_000_003);
  const links = await one.list("chainLink");
  if (!links.ok) throw new Error("not read");
  expect(links.value.records.map(({ number }) => number).sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5]);
  const seen = await checkChain(links.value.records, bodies([entry(1, 11), entry(3, 30)]), digest);
  expect(seen.ok && seen.value.changedLater.map(({ record }) => record)).toEqual(["entry/v1/1", "entry/v1/2"]);
  const secret = await checkChain(links.value.records, bodies([entry(1, 99), entry(3, 30)]), digest);
  expect(secret.ok).toBe(false);
  one.close();
  two.close();
});

test("after the records were replaced by those of a file the chain begins anew, with no hole before its first link", async () => {
  const store = openStore({ name: "chain-4" });
  await writeSealed(store, [{ kind: "entry", put: entry(1, 10) }], 1_800_000_000_000);
  await writeSealed(store, [{ kind: "entry", put: entry(2, 20) }], 1_800_000_000_001);
  const { yard, vehicle } = examples;
  const file = fleetOf({ title: "file", invented: false }, { yards: [yard], vehicles: [vehicle] });
  expect((await importFleet(store, file, "replace")).ok).toBe(true);
  await writeSealed(store, [{ kind: "entry", put: entry(3, 30) }], 1_800_000_000_002);
  const links = await store.list("chainLink");
  if (!links.ok) throw new Error("not read");
  expect(links.value.records.map(({ number }) => number)).toEqual([1]);
  expect((await checkChain(links.value.records, bodies([entry(3, 30)]), digest)).ok).toBe(true);
  store.close();
});

test("the links of one vehicle are read by themselves, those of a vehicle whose name begins alike are not among them", async () => {
  const store = openStore({ name: "chain-5" });
  await writeSealed(store, [{ kind: "entry", put: entry(1, 10) }], 1_800_000_000_000);
  await writeSealed(
    store,
    [{ kind: "entry", put: { ...entry(2, 20), vehicleId: "v12", id: "v12/2" } }],
    1_800_000_000_001,
  );
  const links = await linksOf(store, "v1");
  expect(links.ok && links.value.records.map(({ chain, number }) => `${chain} ${number}`)).toEqual(["v1 1"]);
  store.close();
});

test("records without a vehicle or yard, and kinds that are no proof, leave nothing", async () => {
  const store = openStore({ name: "chain-3" });
  const { socket, reading, price } = examples;
  const links = await linksFor(
    store,
    [
      { kind: "socket", put: socket },
      { kind: "reading", put: reading },
      { kind: "price", put: price },
    ],
    1_800_000_000_000,
    digest,
  );
  expect(links.map(({ chain, record }) => `${chain} ${record}`)).toEqual(["y1 price/p1"]);
  store.close();
});
