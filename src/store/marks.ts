import type { Body, Fields } from "./body.js";
import { isLater, type Stamp } from "./clock.js";
import type { RecordsStore } from "./database.js";

/** Rows of the store's own, no records: they stay on this phone, in no copy and no file. No kind has a name with `~`. */
export const isOwnRow = (key: string): boolean => key.startsWith("~");

/**
 * What sums worked out beforehand no longer hold: whose they are (a vehicle, yard or round; `*` all of them) and from which day on. Written
 * in the transaction of the change itself, so that no sum can be taken for fresh that is not, whoever changed what it rests on. They lie in
 * the clock's row, which an older version of the app writes without them: then every sum counts as old.
 */
export interface Marks {
  /** Sums made under another epoch are not of these records. */
  readonly epoch: string;
  /** Climbs with every mark. */
  readonly count: number;
  readonly from: Readonly<Record<string, string>>;
}
export type Mark = readonly [whose: string, fromDay: string];

export const EVERYBODY = "*";
export const BEGINNING = "0000";
/** More changes than this at once, from a file, and everything is worked out anew. */
const MOST_KEYS = 500;
const MOST_MARKS = 3000;

interface Rule {
  /** Field with whose sums change; the first that is not null. Without one it is the record itself. */
  readonly of: readonly string[];
  /** Field with the first day that changes. */
  readonly on?: string;
  /** Fields that no sum rests on. */
  readonly but?: readonly string[];
}
const RULES: Readonly<Record<string, Rule>> = {
  entry: { of: ["vehicleId"], on: "date" },
  sky: { of: ["yardId"], on: "date" },
  baseline: { of: ["vehicleId"], on: "from" },
  setCost: { of: ["vehicleId"], on: "from" },
  price: { of: ["vehicleId", "yardId"], on: "from" },
  fixedCost: { of: ["vehicleId", "yardId"], on: "from" },
  loan: { of: ["vehicleId"] },
  lease: { of: ["vehicleId"] },
  standstill: { of: ["vehicleId"] },
  vehicle: { of: [], but: ["plate", "name", "guesses", "learned"] },
  yard: { of: [], but: ["name", "siteLimitKw", "marginKw", "baseLoadKwByHour", "staff", "cuts", "guesses"] },
  round: { of: [], but: ["name"] },
};

/** The marks that changes leave; `before` is the last stamp before them. */
export async function marksOf(
  records: RecordsStore<"readwrite">,
  keys: readonly string[],
  before: Stamp,
): Promise<readonly Mark[]> {
  const touching = keys.filter((key) => RULES[key.slice(0, key.indexOf("/"))]);
  if (touching.length > MOST_KEYS) return [[EVERYBODY, BEGINNING]];
  const bodies = await Promise.all(touching.map((key) => records.get(key)));
  return bodies.flatMap((body) => (body ? markOf(body, before) : []));
}

function markOf(body: Body, before: Stamp): readonly Mark[] {
  const rule = RULES[body.k] as Rule;
  const fields = [...new Set([...Object.keys(body.f), ...Object.keys(body.x ?? {})])];
  const changed = fields.filter((field) => isLater(body.x?.[field] ?? body.t, before));
  const gone = body.d !== undefined && isLater(body.d, before);
  const isNew = changed.length === fields.length;
  const owner = rule.of.map((field) => body.f[field]).find((value) => typeof value === "string") ?? idIn(body);
  // stamps from another phone may be older than ours: then nobody can tell what changed
  if (changed.length === 0 && !gone) return [[String(owner), BEGINNING]];
  if (!isNew && !gone && changed.every((field) => rule.but?.includes(field))) return [];
  if (!isNew && rule.of.some((field) => changed.includes(field))) return [[EVERYBODY, BEGINNING]];
  const on = rule.on === undefined || (!isNew && changed.includes(rule.on)) ? null : body.f[rule.on];
  return [[String(owner), typeof on === "string" ? on : BEGINNING]];
}
const idIn = (body: Body): string => body.key.slice(body.k.length + 1);

/** Marks with others added, each from its earliest day. */
export function withMarks(marks: Marks, more: readonly Mark[]): Marks {
  if (more.length === 0) return marks;
  const from: Record<string, string> = { ...marks.from };
  for (const [whose, day] of more) {
    const held = from[whose];
    if (held === undefined || day < held) from[whose] = day;
  }
  const many = Object.keys(from).length > MOST_MARKS;
  return { ...marks, count: marks.count + 1, from: many ? { [EVERYBODY]: BEGINNING } : from };
}

/** Marks as the clock's row holds them; null where nothing was ever worked out beforehand. */
export function readMarks(fields: Fields): Marks | null {
  const { marks } = fields as { readonly marks?: Marks };
  return marks && typeof marks.epoch === "string" ? marks : null;
}
