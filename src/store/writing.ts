import type { Body, Fields } from "./body.js";
import { isStamp, laterStamp, nextStamp, type Stamp } from "./clock.js";
import type { RecordsStore } from "./database.js";

/** Key of the clock's own row: no kind has a name with `~`. */
export const CLOCK_KEY = "~clock";

export interface Ticking {
  readonly stamp: () => Stamp;
  /** Stamps written by others move the clock on. */
  readonly saw: (stamp: Stamp) => void;
  readonly device: string;
  /** Writes the clock back; part of the same transaction. */
  readonly keep: () => Promise<unknown>;
}

/** The clock of this phone inside a transaction: no two tabs give out one stamp, and none goes back. */
export async function ticking(
  records: RecordsStore<"readwrite">,
  at: { now: () => number; newDevice: () => string },
): Promise<Ticking> {
  const kept: Fields = (await records.get(CLOCK_KEY))?.f ?? {};
  const device = typeof kept.device === "string" ? kept.device : at.newDevice();
  let last: Stamp | null = isStamp(kept.last) ? kept.last : null;
  return {
    device,
    stamp: () => {
      last = nextStamp(last, at.now(), device);
      return last;
    },
    saw: (stamp) => {
      last = laterStamp(last, stamp);
    },
    keep: () => {
      const row: Body = { key: CLOCK_KEY, k: CLOCK_KEY, f: { device, last }, t: "" };
      return records.put(row);
    },
  };
}

/** Six letters and digits that tell phones apart; says nothing about the phone. */
export function randomDevice(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return Array.from(bytes, (byte) => (byte % 36).toString(36)).join("");
}
