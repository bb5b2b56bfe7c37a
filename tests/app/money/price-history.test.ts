import "fake-indexeddb/auto";
import { expect, test } from "vitest";
import { pastPrices } from "../../../src/app/price-history.js";
import { openStore } from "../../../src/store/index.js";
import { examples } from "../../records/examples.js";

const { yard } = examples;
const dearer = { ...yard, tariff: { ...yard.tariff, otherwisePerKwhMinor: 5000 } };
const NOW = Date.UTC(2027, 1, 9, 20); // 02:00 of the 10th in Dhaka

test("the first change of a tariff keeps the old one from the beginning and the new one from today, by the yard's own day", async () => {
  const store = openStore({ name: "prices-1" });
  await store.put("yard", yard);
  const kept = await pastPrices(store, [{ kind: "yard", put: dearer }], NOW);
  expect(
    kept.map((each) =>
      "put" in each && each.kind === "price"
        ? [each.put.from, each.put.of.kind === "power" && each.put.of.otherwisePerKwhMinor]
        : null,
    ),
  ).toEqual([
    ["2000-01-01", 1000],
    ["2027-02-10", 5000],
  ]);
  await store.write(kept);
  await store.put("yard", dearer);
  const again = await pastPrices(store, [{ kind: "yard", put: yard }], NOW + 1);
  expect(again.length).toBe(1);
  store.close();
});

test("a new yard, and a yard whose name alone changes, leave no prices", async () => {
  const store = openStore({ name: "prices-2" });
  expect(await pastPrices(store, [{ kind: "yard", put: yard }], NOW)).toEqual([]);
  await store.put("yard", yard);
  expect(await pastPrices(store, [{ kind: "yard", put: { ...yard, name: "New name" } }], NOW)).toEqual([]);
  store.close();
});
