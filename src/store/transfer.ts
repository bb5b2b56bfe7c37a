import { checkFleet } from "../records/check-fleet.js";
import { type AnyRecord, type Fleet, fleetOf, type KindName, kindNames, kinds, listedIn } from "../records/index.js";
import { good, type Outcome, type Problem } from "../units/outcome.js";
import { type Body, bodyOf, deletedBody, isDeleted, isKind, keyOf, recordOf, sameValue } from "./body.js";
import type { Store } from "./store.js";

/** What an import would do, by kind and in keys, so that a person can be asked before anything is replaced. */
export interface Preview {
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly same: number;
  /** On this phone and not in the file; `replace` would remove them. */
  readonly onlyHere: readonly string[];
}

export type ImportMode = "merge" | "replace";

export async function previewImport(store: Store, fleet: Fleet): Promise<Outcome<Preview>> {
  return store.inside.database.run(async (records) => {
    const here = liveOf(await records.getAll());
    const found = { added: [] as string[], changed: [] as string[], same: 0 };
    const inFile = new Set<string>();
    for (const { kind, record } of recordsIn(fleet)) {
      const key = keyOf(kind, record.id);
      inFile.add(key);
      const body = here.get(key);
      if (!body) found.added.push(key);
      else if (sameRecord(kind, body, record)) found.same++;
      else found.changed.push(key);
    }
    return { ...found, onlyHere: [...here.keys()].filter((key) => !inFile.has(key)) };
  });
}

/** A checked fleet into the store, whole or not at all; `replace` also removes what the file does not hold. Ask before (`previewImport`). */
export async function importFleet(store: Store, fleet: Fleet, mode: ImportMode): Promise<Outcome<null>> {
  return store.inside.write("strict", async (records, clock) => {
    const keys: string[] = [];
    const inFile = new Set<string>();
    for (const { kind, record } of recordsIn(fleet)) {
      const key = keyOf(kind, record.id);
      inFile.add(key);
      const old = await records.get(key);
      if (old && !isDeleted(old) && sameRecord(kind, old, record)) continue;
      await records.put(bodyOf(kind, record, clock.stamp(), old));
      keys.push(key);
    }
    if (mode === "replace")
      for (const [key, body] of liveOf(await records.getAll())) {
        if (inFile.has(key)) continue;
        await records.put(deletedBody(body, clock.stamp()));
        keys.push(key);
      }
    return { outcome: good(null), keys };
  });
}

export interface Exported {
  readonly fleet: Fleet;
  /** Records that a fleet file cannot carry: broken ones, and history of vehicles that are gone. A backup carries them. */
  readonly leftOut: readonly Problem[];
}

/** Everything on this phone as a fleet that `readFleetFile` takes. */
export async function exportFleet(
  store: Store,
  head: { readonly title: string; readonly invented: boolean },
): Promise<Outcome<Exported>> {
  const all = await store.listMany(kindNames);
  if (!all.ok) return all;
  const lists = Object.fromEntries(kindNames.map((kind) => [kinds[kind].list, all.value[kind].records]));
  const broken = kindNames.flatMap((kind) =>
    all.value[kind].setAside > 0
      ? [{ code: "setAside", where: kinds[kind].list, figures: { records: all.value[kind].setAside } }]
      : [],
  );
  const whole = withoutStrays(fleetOf(head, lists));
  return good({ fleet: whole.fleet, leftOut: [...broken, ...whole.leftOut] });
}

/** Leaves out what points at nothing, again and again until nothing does: a shift may go because its round went. */
function withoutStrays(fleet: Fleet): Exported {
  let at = fleet;
  const leftOut: Problem[] = [];
  for (;;) {
    const { errors } = checkFleet(at);
    if (errors.length === 0) return { fleet: at, leftOut };
    leftOut.push(...errors);
    const gone = new Set(errors.map(({ where }) => where.split(".").slice(0, 2).join(".")));
    const lists = kindNames.map((kind) => {
      const list = kinds[kind].list;
      return [list, listedIn(at, kind).filter((_, n) => !gone.has(`${list}.${n}`))];
    });
    at = { ...at, ...Object.fromEntries(lists) };
  }
}

type Listed = { readonly [K in KindName]: { readonly kind: K; readonly record: AnyRecord<K> } }[KindName];
const recordsIn = (fleet: Fleet): readonly Listed[] =>
  kindNames.flatMap((kind) => listedIn(fleet, kind).map((record) => ({ kind, record }) as Listed));

const liveOf = (bodies: readonly Body[]): Map<string, Body> =>
  new Map(bodies.filter((body) => isKind(body.k) && !isDeleted(body)).map((body) => [body.key, body]));

function sameRecord<K extends KindName>(kind: K, body: Body, record: AnyRecord<K>): boolean {
  const seen = recordOf(kind, body);
  return seen.ok && sameValue(seen.value, record);
}
