import type * as z from "zod/mini";
import type { DeepReadonly } from "./fields.js";

/** An older record on its way up: its fields are not known yet. */
export type Old = Readonly<Record<string, unknown>>;

/** One kind of record: how it is checked, where a fleet file keeps it, and how older versions become this one. */
export interface Kind<Name extends string, Schema extends z.ZodMiniType> {
  readonly name: Name;
  /** Field of the fleet file that lists records of this kind. */
  readonly list: string;
  readonly version: number;
  readonly schema: () => Schema;
  /** `climb[n]` turns version n into n + 1, without checking: the schema of the newest version has the last word. */
  readonly climb: Readonly<Record<number, (old: Old) => Old>>;
}

export const kind = <Name extends string, Schema extends z.ZodMiniType>(of: Kind<Name, Schema>): Kind<Name, Schema> =>
  of;
/** Any kind, when its fields do not matter. */
export type AnyKind = Kind<string, z.ZodMiniType>;
export type RecordOf<K extends AnyKind> = DeepReadonly<z.infer<ReturnType<K["schema"]>>>;
