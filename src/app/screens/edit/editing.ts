import type { AnyRecord } from "../../../records/index.js";
import type { Problem } from "../../../units/outcome.js";
import type { Spec } from "./spec.js";
import type { Typed } from "./typing.js";

/** Name of a field, and what helps to find its value. */
export type FieldText = readonly string[];

/** A record whose fields are typed on this screen, with the words of its fields. */
export interface Editing<K extends Typed = Typed> {
  readonly kind: K;
  readonly record: AnyRecord<K>;
  readonly fields: Readonly<Record<string, FieldText>>;
  readonly choices: Readonly<Record<string, string>>;
  /** What is odd about the record as it stands. */
  readonly warnings: readonly Problem[];
  /** Beyond what the record's own rules refuse. */
  readonly refuses?: (path: string, value: unknown) => Problem | null;
}

export interface RowProps<K extends Typed> {
  readonly of: Spec;
  readonly on: Editing<K>;
}

/** Words of a field. */
export function textOf(
  of: Pick<Spec, "name">,
  on: Pick<Editing, "fields">,
): { name: string; hint: string | undefined } {
  const [name, hint] = on.fields[of.name] ?? [];
  if (name === undefined) throw new Error(`The field ${of.name} has no words`);
  return { name, hint };
}
