import type { PriceRecord, Yard } from "../records/index.js";
import { tariffChange } from "../records/map/money.js";
import type { Store, Writing } from "../store/index.js";
import { civilDate } from "../units/zone.js";

/**
 * The price records that keep the past as it was when a yard's tariff or currency is changed, whichever screen changes it: the old tariff up
 * to today, the new one from today on.
 */
export async function pastPrices(
  store: Store,
  changes: readonly Writing[],
  nowUtcMs: number,
): Promise<readonly Writing[]> {
  const kept: PriceRecord[] = [];
  for (const change of changes) {
    if (change.kind !== "yard" || !("put" in change)) continue;
    const before = await store.get("yard", change.put.id);
    if (!before.ok || !before.value) continue;
    kept.push(...(await changed(store, before.value, change.put, nowUtcMs)));
  }
  return kept.map((put) => ({ kind: "price" as const, put }));
}

async function changed(store: Store, before: Yard, after: Yard, nowUtcMs: number): Promise<readonly PriceRecord[]> {
  const at = { date: civilDate(nowUtcMs, after.zone), nowUtcMs };
  if (tariffChange(before, after, { ...at, hasDated: true }).length === 0) return [];
  const prices = await store.list("price");
  const hasDated =
    prices.ok && prices.value.records.some(({ yardId, of }) => yardId === after.id && of.kind === "power");
  return tariffChange(before, after, { ...at, hasDated });
}
