import type { Body, Fields } from "./body.js";
import { isStamp, laterStamp, nextStamp, type Stamp } from "./clock.js";
import type { RecordsStore } from "./database.js";
import { type Marks, marksOf, readMarks, withMarks } from "./marks.js";

/** Key of the clock's own row: no kind has a name with `~`. */
export const CLOCK_KEY = "~clock";

export interface Ticking {
  readonly stamp: () => Stamp;
  /** Stamps written by others move the clock on. */
  readonly saw: (stamp: Stamp) => void;
  readonly device: string;
  /** Writes the clock back with the marks that the changed keys leave; part of the same transaction. */
  readonly keep: (changed: readonly string[]) => Promise<unknown>;
}

/** The clock of this phone inside a transaction: no two tabs give out one stamp, and none goes back. */
export async function ticking(
  records: RecordsStore<"readwrite">,
  at: { now: () => number; newDevice: () => string },
): Promise<Ticking> {
  const kept: Fields = (await records.get(CLOCK_KEY))?.f ?? {};
  const device = typeof kept.device === "string" ? kept.device : at.newDevice();
  const before: Stamp | null = isStamp(kept.last) ? kept.last : null;
  const marks = readMarks(kept);
  let last = before;
  return {
    device,
    stamp: () => {
      last = nextStamp(last, at.now(), device);
      return last;
    },
    saw: (stamp) => {
      last = laterStamp(last, stamp);
    },
    keep: async (changed) => {
      const more = marks ? await marksOf(records, changed, before ?? "") : [];
      return records.put(clockRow(device, last, marks && withMarks(marks, more)));
    },
  };
}

export const clockRow = (device: unknown, last: unknown, marks: Marks | null): Body => ({
  key: CLOCK_KEY,
  k: CLOCK_KEY,
  f: { device, last, ...(marks ? { marks } : {}) },
  t: "",
});

/** Six letters and digits that tell phones apart; says nothing about the phone. */
export function randomDevice(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return Array.from(bytes, (byte) => (byte % 36).toString(36)).join("");
}
