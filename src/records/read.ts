import type * as z from "zod/mini";
import { bad, good, type Outcome, type Problem } from "../units/outcome.js";
import type { AnyKind, Old, RecordOf } from "./kind.js";
import { type AnyRecord, type KindName, kindOf } from "./kinds.js";

/** The one door: a checked record of the newest version out of anything, or every place where it is wrong. */
export function readRecord<K extends KindName>(kindName: K, raw: unknown): Outcome<AnyRecord<K>> {
  // the table's type ties the kind's name to its record; the checker cannot follow that through an index
  return readAs(kindOf(kindName), raw) as Outcome<AnyRecord<K>>;
}

export function readAs<K extends AnyKind>(of: K, raw: unknown): Outcome<RecordOf<K>> {
  const climbed = climb(of, raw);
  if (!climbed.ok) return climbed;
  const seen = of.schema().safeParse(climbed.value, { reportInput: true });
  return seen.success ? good(seen.data as RecordOf<K>) : bad(...problemsOf(seen.error));
}

function climb(of: AnyKind, raw: unknown): Outcome<unknown> {
  if (typeof raw !== "object" || raw === null || Array.isArray(raw)) return good(raw);
  let at = raw as Old;
  const from = at.v;
  if (typeof from !== "number") return good(raw);
  if (from > of.version) return bad({ code: "newerVersion", where: "v", figures: { found: from, known: of.version } });
  for (let version = from; version < of.version; version++) {
    const step = of.climb[version];
    if (!step) return bad({ code: "unknownVersion", where: "v", figures: { found: from, known: of.version } });
    at = step(at);
  }
  return good(at);
}

type Issue = z.core.$ZodIssue;

export const problemsOf = (error: { readonly issues: readonly Issue[] }): Problem[] => error.issues.flatMap(problemOf);

function problemOf(issue: Issue): Problem[] {
  const where = issue.path.join(".");
  // the small build of zod says "Invalid input" of everything but the checks that we gave a code
  if (issue.message !== "Invalid input") return [{ code: issue.message, where, figures: shown(issue) }];
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => ({ code: "unknownField", where: [...issue.path, key].join(".") }));
    case "too_small":
      return [sized(issue, "tooSmall", "tooShort", { least: Number(issue.minimum) })];
    case "too_big":
      return [sized(issue, "tooBig", "tooLong", { most: Number(issue.maximum) })];
    case "invalid_value":
      return [{ code: "notOneOf", where, figures: { allowed: issue.values.map(String).join(" "), ...shown(issue) } }];
    case "invalid_format":
    case "custom":
      return [{ code: "badForm", where, figures: shown(issue) }];
    case "invalid_union":
      return [{ code: "wrongKind", where }];
    default:
      return [{ code: issue.input === undefined ? "missing" : "wrongType", where, figures: shown(issue) }];
  }
}

function sized(issue: Issue, ofNumber: string, ofList: string, limit: Record<string, number>): Problem {
  const where = issue.path.join(".");
  if (typeof issue.input === "number") return { code: ofNumber, where, figures: { ...limit, found: issue.input } };
  const found = (issue.input as { readonly length?: number } | undefined)?.length ?? 0;
  return { code: ofList, where, figures: { ...limit, found } };
}

function shown(issue: Issue): Record<string, number | string> {
  const input = issue.input;
  if (typeof input === "number" || typeof input === "string") return { found: String(input).slice(0, 60) };
  return {};
}
