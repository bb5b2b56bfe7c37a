import type { AnyRecord, KindName } from "../records/index.js";
import { type Book, type Change, listed } from "./fleet.js";

/** A change to one record as it stands when its turn comes; none where it is gone by then. */
export const edited =
  <K extends KindName>(kind: K, id: string, to: (record: AnyRecord<K>) => AnyRecord<K>) =>
  (now: Book): readonly Change[] =>
    listed(now, kind)
      .filter((record) => record.id === id)
      .map((record) => ({ kind, put: to(record) }) as Change);
