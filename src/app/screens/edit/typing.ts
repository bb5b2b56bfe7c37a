import { signal } from "@preact/signals";
import { checkRecord } from "../../../records/check.js";
import { typeInto } from "../../../records/guesses.js";
import type { AnyRecord } from "../../../records/index.js";
import type { Problem } from "../../../units/outcome.js";
import { edited } from "../../edited.js";
import { keep, trouble } from "../../fleet.js";

/** Kinds of record that know which of their figures nobody typed. */
export type Typed = "vehicle" | "yard";

/** Something typed that could not be kept yet: it does not go with another figure, or the phone did not take it. */
export interface Held {
  readonly path: string;
  /** Absent: the field is to be left out. */
  readonly value?: unknown;
}
type AllHeld = Readonly<Record<string, readonly Held[]>>;

const KEY = "noonplug-held";
/** Held apart from the records, so that a phone that dies in between does not lose it. */
const all = signal<AllHeld>(read());

function read(): AllHeld {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return typeof found === "object" && found !== null ? (found as AllHeld) : {};
  } catch {
    return {}; // not ours, or a locked-down browser
  }
}

function hold(id: string, list: readonly Held[]): void {
  const { [id]: _old, ...others } = all.value;
  all.value = list.length > 0 ? { ...others, [id]: list } : others;
  try {
    localStorage.setItem(KEY, JSON.stringify(all.value));
  } catch {
    // no room or no right: it is held as long as the page
  }
}

const keyOf = (kind: Typed, id: string): string => `${kind}/${id}`;
export const heldOf = (kind: Typed, id: string): readonly Held[] => all.value[keyOf(kind, id)] ?? [];

/** The record with everything typed into it, or the first place where the record refuses. */
function withTyped<K extends Typed>(kind: K, record: AnyRecord<K>, typed: readonly Held[]) {
  let seen = typeInto(kind, record, typed[0]?.path ?? "", typed[0]?.value);
  for (const { path, value } of typed.slice(1)) if (seen.ok) seen = typeInto(kind, seen.value, path, value);
  return seen;
}

/** Why a value alone cannot stand at its place: out of range, of the wrong form. Null when it can. */
export function refusal<K extends Typed>(kind: K, record: AnyRecord<K>, typed: Held): Problem | null {
  const seen = typeInto(kind, record, typed.path, typed.value);
  return seen.ok ? null : (seen.problems[0] ?? null);
}

/** What of the held values clashes, as the record would stand with them. */
export function clashes<K extends Typed>(kind: K, record: AnyRecord<K>): readonly Problem[] {
  const held = heldOf(kind, record.id);
  if (held.length === 0) return [];
  const seen = withTyped(kind, record, held);
  return seen.ok ? checkRecord(kind, seen.value).errors : seen.problems;
}

/** What is typed, or how to make it from the record as it stands when its turn comes. */
export type Typing<K extends Typed> = readonly Held[] | ((record: AnyRecord<K>) => readonly Held[]);

/**
 * Keeps what was typed, with whatever is held for the same record. Held instead while it clashes with another figure of the record or the phone
 * does not take it; the screen then says so at the place.
 */
export async function typeIn<K extends Typed>(
  kind: K,
  { id }: AnyRecord<K>,
  typed: Typing<K>,
  says: string,
): Promise<void> {
  let together: readonly Held[] = [];
  let fits = false;
  const change = edited(kind, id, (record) => {
    const fresh = typeof typed === "function" ? typed(record) : typed;
    together = [...heldOf(kind, id).filter((one) => !fresh.some((each) => each.path === one.path)), ...fresh];
    const seen = withTyped(kind, record, together);
    fits = seen.ok && checkRecord(kind, seen.value).errors.length === 0;
    return seen.ok && fits ? seen.value : record;
  });
  const kept = await keep((now) => {
    const changes = change(now);
    return fits ? changes : [];
  }, says);
  hold(keyOf(kind, id), kept && fits ? [] : together);
}

/** Leaves a held value out: the record stays as it was. */
export function leaveOut(kind: Typed, id: string, path: string): void {
  hold(
    keyOf(kind, id),
    heldOf(kind, id).filter((one) => one.path !== path),
  );
  trouble.value = null;
}
