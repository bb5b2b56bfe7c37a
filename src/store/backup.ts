import { kinds } from "../records/index.js";
import { bad, good, type Outcome, type Problem } from "../units/outcome.js";
import {
  type Body,
  emptied,
  idOf,
  indexed,
  isBody,
  isDeleted,
  isKind,
  mergedBody,
  newestField,
  recordOf,
  sameValue,
} from "./body.js";
import { msOfStamp, type Stamp } from "./clock.js";
import { isOwnRow } from "./marks.js";
import type { Store } from "./store.js";

const BACKUP_FORMAT = "noonplug-backup";
const BACKUP_VERSION = 1;
const DAY_MS = 86_400_000;

/** Everything a phone holds, with the stamps that let it be merged: deleted and unreadable records too. */
export interface Backup {
  readonly madeUtcMs: number;
  readonly records: readonly Body[];
}

/** What restoring would do, in keys. Records that are newer here stay as they are. */
export interface RestorePreview {
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly removed: readonly string[];
  /** Alive in the copy, removed here since: they stay away unless they are asked back. */
  readonly gone: readonly string[];
  readonly same: number;
}

/** Text of a backup of everything on this phone. */
export async function writeBackup(store: Store, nowUtcMs: number): Promise<Outcome<string>> {
  const bodies = await store.inside.database.run((records) => records.getAll());
  if (!bodies.ok) return bodies;
  const kept = bodies.value.filter((body) => !isOwnRow(body.key)).map(({ w: _w, y: _y, ...body }) => body);
  return good(JSON.stringify({ format: BACKUP_FORMAT, version: BACKUP_VERSION, madeUtcMs: nowUtcMs, records: kept }));
}

/** A backup out of its text; one broken row and nothing is taken. Rows of kinds this version does not know are kept for one that does. */
export function readBackup(text: string): Outcome<Backup> {
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    return bad({ code: "notJson", where: "" });
  }
  if (typeof file !== "object" || file === null) return bad({ code: "notABackup", where: "" });
  const { format, version, madeUtcMs, records } = file as Readonly<Record<string, unknown>>;
  if (format !== BACKUP_FORMAT) return bad({ code: "notABackup", where: "format" });
  if (version !== BACKUP_VERSION) return bad({ code: "newerVersion", where: "version" });
  if (typeof madeUtcMs !== "number" || !Array.isArray(records)) return bad({ code: "wrongType", where: "records" });
  const problems = problemsOfRows(records);
  return problems.length > 0 ? bad(...problems) : good({ madeUtcMs, records: records as readonly Body[] });
}

function problemsOfRows(rows: readonly unknown[]): Problem[] {
  const met = new Set<string>();
  return rows.flatMap((row, n) => {
    if (!isBody(row)) return [{ code: "brokenRow", where: `records.${n}` }];
    if (met.has(row.key)) return [{ code: "doubleId", where: `records.${n}.key`, figures: { found: row.key } }];
    met.add(row.key);
    return [];
  });
}

export async function previewRestore(store: Store, backup: Backup): Promise<Outcome<RestorePreview>> {
  return store.inside.database.run(async (records) => {
    const lists = { added: [] as string[], changed: [] as string[], removed: [] as string[], gone: [] as string[] };
    const found = { ...lists, same: 0 };
    for (const row of backup.records) {
      const old = await records.get(row.key);
      const next = mergedRow(row, old);
      const [was, is] = [old !== undefined && !isDeleted(old), !isDeleted(next)];
      if (!was && is) found.added.push(row.key);
      else if (was && !is) found.removed.push(row.key);
      else if (was && !sameValue(old?.f, next.f)) found.changed.push(row.key);
      else if (isGone(row, next)) found.gone.push(row.key);
      else found.same++;
    }
    return found;
  });
}

/**
 * Merges a backup in, whole or not at all: nothing doubles, the later write of each field wins, and doing it again changes nothing. What was
 * removed here since stays away; `withGone` writes it anew as it stands in the copy.
 */
export async function restoreBackup(store: Store, backup: Backup, withGone = false): Promise<Outcome<null>> {
  return store.inside.write("strict", async (records, clock) => {
    const keys: string[] = [];
    for (const row of backup.records) {
      const old = await records.get(row.key);
      const merged = mergedRow(row, old);
      clock.saw(newestOf(merged));
      const next = withGone && isGone(row, merged) ? anew(row, merged, clock.stamp()) : merged;
      if (old && sameValue(old, next)) continue;
      await records.put(next);
      keys.push(row.key);
    }
    return { outcome: good(null), keys };
  });
}

const mergedRow = (row: Body, old: Body | undefined): Body =>
  old ? mergedBody(climbed(old), climbed(row)) : indexed(climbed(row));

const isGone = (row: Body, merged: Body): boolean => !isDeleted(row) && isDeleted(merged);
/** The record of a row under a stamp later than its removal. */
function anew(row: Body, { d }: Body, t: Stamp): Body {
  const { key, k, f } = climbed(row);
  return indexed({ key, k, f, t, ...(d === undefined ? {} : { d }) });
}

/** Rows of an older version climb before they merge, or fields of two versions would meet in one record. */
function climbed(body: Body): Body {
  if (!isKind(body.k) || body.f.v === kinds[body.k].version) return body;
  const seen = recordOf(body.k, body);
  if (!seen.ok || seen.value.id !== idOf(body)) return body;
  const { id: _id, ...f } = seen.value as { readonly id: string } & Record<string, unknown>;
  return { ...body, f };
}

const newestOf = (body: Body): Stamp => [newestField(body), body.d ?? ""].sort().at(-1) ?? "";

/** Empties records deleted more than `days` ago (by the clock of the phone that deleted them); returns how many. */
export async function emptyDeleted(store: Store, nowUtcMs: number, days = 30): Promise<Outcome<number>> {
  return store.inside.write("relaxed", async (records) => {
    let count = 0;
    for (let at = await records.openCursor(); at; at = await at.continue()) {
      const body = at.value;
      const old = body.d !== undefined && msOfStamp(body.d) < nowUtcMs - days * DAY_MS;
      if (isOwnRow(body.key) || !old || !isDeleted(body) || Object.keys(body.f).length === 0) continue;
      await at.update(emptied(body));
      count++;
    }
    return { outcome: good(count), keys: [] };
  });
}
