import { type AnyRecord, type KindName, kindOf, kinds, readRecord } from "../records/index.js";
import type { Outcome } from "../units/outcome.js";
import { isLater, isStamp, type Stamp } from "./clock.js";

/** Fields of a record as they are kept: everything but its id, which is in the key. */
export type Fields = Readonly<Record<string, unknown>>;

/**
 * A record as the store keeps it. `t` is the stamp of every field that has none of its own in `x`; a field named in `x` and absent from `f`
 * was taken away. A record is deleted while `d` is later than all its fields: its fields stay until `emptied`, for undoing and merging.
 */
export interface Body {
  readonly key: string;
  readonly k: string;
  readonly f: Fields;
  readonly t: Stamp;
  readonly x?: Readonly<Record<string, Stamp>>;
  readonly d?: Stamp;
  /** Whose history it is and of which day: only on records that live, so that the indexes hold no others. */
  readonly w?: string;
  readonly y?: string;
}

export const keyOf = (kind: string, id: string): string => `${kind}/${id}`;
export const idOf = (body: Pick<Body, "key" | "k">): string => body.key.slice(body.k.length + 1);
export const isKind = (name: string): name is KindName => Object.hasOwn(kinds, name);

const stampOfField = (body: Body, field: string): Stamp => body.x?.[field] ?? body.t;
const fieldsOf = (body: Body): Set<string> => new Set([...Object.keys(body.f), ...Object.keys(body.x ?? {})]);

/** The last write to any field. */
export function newestField(body: Body): Stamp {
  const stamps = [...fieldsOf(body)].map((field) => stampOfField(body, field));
  return stamps.length === 0 ? body.t : stamps.reduce((newest, stamp) => (isLater(stamp, newest) ? stamp : newest));
}
export const isDeleted = (body: Body): boolean => body.d !== undefined && body.d > newestField(body);

/** The record in a body, checked and of the newest version. */
export const recordOf = <K extends KindName>(kind: K, body: Body): Outcome<AnyRecord<K>> =>
  readRecord(kind, { ...body.f, id: idOf(body) });

/** The body of a new or changed record: only fields that differ from `old` take the stamp. */
export function bodyOf<K extends KindName>(kind: K, record: AnyRecord<K>, stamp: Stamp, old: Body | undefined): Body {
  const { id, ...f } = record as { readonly id: string } & Record<string, unknown>;
  const key = keyOf(kind, id);
  if (!old) return indexed({ key, k: kind, f, t: stamp });
  const x: Record<string, Stamp> = {};
  for (const field of new Set([...fieldsOf(old), ...Object.keys(f)])) {
    const was = stampOfField(old, field);
    const same = sameValue(old.f[field], f[field]) && !isDeleted(old);
    const now = same ? was : stamp;
    if (now !== old.t) x[field] = now;
  }
  return indexed({ ...plain(old), f, x });
}

/** Values of records are plain data: the same text is the same value. */
export const sameValue = (a: unknown, b: unknown): boolean => a === b || canonical(a) === canonical(b);
function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === "object" && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

export const deletedBody = (old: Body, stamp: Stamp): Body => indexed({ ...plain(old), d: stamp });

/** Without the fields of a record deleted long ago: nothing of it is left but that it is gone. */
export const emptied = (body: Body): Body => ({
  key: body.key,
  k: body.k,
  f: {},
  t: body.t,
  ...(body.d ? { d: body.d } : {}),
});

/**
 * Two copies of one record into one, in any order and any number of times with the same end: for each field the later write, the later
 * deletion, and alive if a field was written after it.
 */
export function mergedBody(a: Body, b: Body): Body {
  const t = isLater(a.t, b.t) ? b.t : a.t;
  const f: Record<string, unknown> = {};
  const x: Record<string, Stamp> = {};
  for (const field of new Set([...fieldsOf(a), ...fieldsOf(b)])) {
    const from = laterCopy(a, b, field);
    if (Object.hasOwn(from.f, field)) f[field] = from.f[field];
    const stamp = stampOfField(from, field);
    if (stamp !== t || !Object.hasOwn(from.f, field)) x[field] = stamp;
  }
  const d = [a.d, b.d]
    .filter((stamp) => stamp !== undefined)
    .sort()
    .at(-1);
  return indexed({ key: a.key, k: a.k, f, t, x, ...(d === undefined ? {} : { d }) });
}

function laterCopy(a: Body, b: Body, field: string): Body {
  const inA = Object.hasOwn(a.f, field) || a.x?.[field] !== undefined;
  const inB = Object.hasOwn(b.f, field) || b.x?.[field] !== undefined;
  if (!inA) return b;
  if (!inB) return a;
  const [atA, atB] = [stampOfField(a, field), stampOfField(b, field)];
  if (atA !== atB) return atA > atB ? a : b;
  // one stamp is written once; should two values claim it, every device must choose alike
  return (canonical(a.f[field]) ?? "") >= (canonical(b.f[field]) ?? "") ? a : b;
}

const plain = ({ w: _w, y: _y, ...body }: Body): Body => body;

/** The body with what the indexes need: whose and which day, while it lives. */
export function indexed(body: Body): Body {
  const bare = plain(body);
  const tidy = bare.x && Object.keys(bare.x).length === 0 ? withoutX(bare) : bare;
  const history = isKind(body.k) ? kindOf(body.k).history : undefined;
  if (!history || isDeleted(body)) return tidy;
  const whose = body.f[history.of];
  const on = body.f[history.on];
  if (typeof whose !== "string") return tidy;
  if (typeof on === "string") return { ...tidy, w: whose, y: on };
  return typeof on === "number" && Math.abs(on) < 8.64e15 ? { ...tidy, w: whose, y: new Date(on).toISOString() } : tidy;
}
const withoutX = ({ x: _x, ...body }: Body): Body => body;

/** A body out of a file or from an older app: shape only, its fields are checked when the record is read. */
export function isBody(raw: unknown): raw is Body {
  if (typeof raw !== "object" || raw === null) return false;
  const { key, k, f, t, x, d } = raw as Readonly<Record<string, unknown>>;
  const stamps = typeof x === "object" && x !== null ? Object.values(x) : x === undefined ? [] : [null];
  return (
    typeof key === "string" &&
    typeof k === "string" &&
    key.startsWith(`${k}/`) &&
    typeof f === "object" &&
    f !== null &&
    isStamp(t) &&
    stamps.every(isStamp) &&
    (d === undefined || isStamp(d))
  );
}
