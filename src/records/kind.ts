import type * as z from "zod/mini";
import type { DeepReadonly } from "./fields.js";

/** An older record on its way up: its fields are not known yet. */
export type Old = Readonly<Record<string, unknown>>;

/** One kind of record: how it is checked, where a fleet file keeps it, and how older versions become this one. */
export interface Kind<Name extends string, List extends string, Schema extends z.ZodMiniType> {
  readonly name: Name;
  /** Field of the fleet file that lists records of this kind. */
  readonly list: List;
  readonly version: number;
  readonly schema: () => Schema;
  /** `climb[n]` turns version n into n + 1, without checking: the schema of the newest version has the last word. */
  readonly climb: Readonly<Record<number, (old: Old) => Old>>;
  /** Fields that say whose history a record belongs to and on which day: the store keeps an index over them. */
  readonly history?: { readonly of: "vehicleId" | "yardId"; readonly on: "date" | "atUtcMs" };
  /** Can be worked out again: saved without waiting for the disk. */
  readonly recomputable?: boolean;
}

/** Keeps what a kind says of itself in its type: its name, its list, whether it has a history. */
export const kind = <const K extends AnyKind>(of: K): K => of;
/** Any kind, when its fields do not matter. */
export type AnyKind = Kind<string, string, z.ZodMiniType>;
export type RecordOf<K extends AnyKind> = DeepReadonly<z.infer<ReturnType<K["schema"]>>>;
