import { type AnyRecord, type KindName, readRecord } from "../records/index.js";
import { good, type Outcome } from "../units/outcome.js";
import { isDeleted, keyOf, recordOf, sameValue } from "./body.js";
import type { Store, Writing } from "./store.js";

/** A change, and the record as it stood before; null where there was none that could be read. */
export interface Former {
  readonly change: Writing;
  readonly was: AnyRecord | null;
}

const idIn = (change: Writing): string => ("put" in change ? change.put.id : change.drop);

/** What changes are about to replace, as it stands in the store: also records that no screen holds. */
export async function formerOf(store: Store, changes: readonly Writing[]): Promise<Outcome<readonly Former[]>> {
  const bodies = await store.inside.database.run((records) =>
    Promise.all(changes.map((change) => records.get(keyOf(change.kind, idIn(change))))),
  );
  if (!bodies.ok) return bodies;
  return good(
    changes.map((change, n) => {
      const body = bodies.value[n];
      const seen = body && !isDeleted(body) ? recordOf(change.kind, body) : null;
      return { change, was: seen?.ok ? seen.value : null };
    }),
  );
}

/** Changes that take changes back, from the records as they now stand: what was changed since by others stays as it is. */
export async function takingBack(
  store: Store,
  former: readonly Former[],
  at: { readonly nowUtcMs: number; readonly newId: () => string },
): Promise<readonly Writing[]> {
  const stand = await formerOf(
    store,
    former.map(({ change }) => change),
  );
  if (!stand.ok) return former.flatMap(({ change, was }) => (was ? [putOf(change.kind, was)] : []));
  const back = former.map(({ change, was }, n) => {
    const now = stand.value[n]?.was ?? null;
    const isLine = change.kind === "accountLine" && "put" in change && was === null;
    return isLine ? struckOut(store, change.put as AnyRecord<"accountLine">, at) : oneBack(change, was, now);
  });
  return (await Promise.all(back)).filter((change) => change !== null);
}

const putOf = (kind: KindName, put: AnyRecord): Writing => ({ kind, put }) as Writing;

function oneBack(change: Writing, was: AnyRecord | null, now: AnyRecord | null): Writing | null {
  if ("drop" in change) return was && !now ? putOf(change.kind, was) : null;
  if (!now) return null; // removed since
  const read = readRecord(change.kind, change.put);
  const became = read.ok ? read.value : change.put;
  if (!was) return sameValue(became, now) ? { kind: change.kind, drop: now.id } : null;
  const next = withoutChange(was, became, now) as AnyRecord;
  return sameValue(next, now) ? null : putOf(change.kind, next);
}

/** A line of an account is never rubbed out: one more line says what counted before it, 0 where it was the first. */
async function struckOut(
  store: Store,
  line: AnyRecord<"accountLine">,
  { nowUtcMs, newId }: { readonly nowUtcMs: number; readonly newId: () => string },
): Promise<Writing> {
  const all = await store.list("accountLine");
  const lines = all.ok ? all.value.records.filter(({ id }) => id !== line.id) : [];
  const about = new Set([line.corrects]);
  for (let size = 0; size !== about.size; ) {
    size = about.size;
    for (const { id, corrects } of lines) if (about.has(id) || about.has(corrects ?? "")) about.add(id).add(corrects);
  }
  about.delete(null);
  const before = lines.filter(({ id }) => about.has(id)).sort((a, b) => a.writtenUtcMs - b.writtenUtcMs);
  return {
    kind: "accountLine",
    put: {
      ...line,
      id: newId(),
      amountMinor: before.at(-1)?.amountMinor ?? 0,
      corrects: line.id,
      writtenUtcMs: Math.max(nowUtcMs, line.writtenUtcMs + 1),
    },
  };
}

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** A value with the step from `was` to `became` taken back; where something else stands there by now, that stays. */
export function withoutChange(was: unknown, became: unknown, now: unknown): unknown {
  if (sameValue(became, now)) return was;
  if (sameValue(was, became)) return now;
  if (isFields(was) && isFields(became) && isFields(now)) {
    const names = [...new Set([...Object.keys(now), ...Object.keys(was)])];
    const fields = names.map((name) => [name, withoutChange(was[name], became[name], now[name])] as const);
    return Object.fromEntries(fields.filter(([, value]) => value !== undefined));
  }
  return Array.isArray(was) && Array.isArray(became) && Array.isArray(now) ? listBack(was, became, now) : now;
}

/** Of lists of one length each item; else what the change added goes, and what it took comes back where it was. */
function listBack(was: readonly unknown[], became: readonly unknown[], now: readonly unknown[]): readonly unknown[] {
  if (was.length === became.length && was.length === now.length)
    return now.map((item, n) => withoutChange(was[n], became[n], item));
  const has = (list: readonly unknown[], item: unknown) => list.some((one) => sameValue(one, item));
  const left = now.filter((item) => has(was, item) || !has(became, item));
  for (const [n, item] of was.entries()) if (!has(became, item) && !has(left, item)) left.splice(n, 0, item);
  return left;
}
