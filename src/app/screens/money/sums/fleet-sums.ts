import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Outcome } from "../../../../units/outcome.js";
import type { WorkerLike } from "../../../../work/bridge.js";
import { longCall } from "../../../../work/long-call.js";
import { trouble } from "../../../fleet.js";
import { openedStore } from "../../../shelf.js";
import { databaseName } from "../../../shelf-lists.js";
import { here } from "../../../state.js";
import { follow, moneyTurn } from "../books.js";
import type { SumsAsked } from "./job.js";
import { type FleetSums, readFresh } from "./rows.js";

interface Held {
  readonly sums: FleetSums;
  readonly database: string;
  readonly turn: number;
  readonly today: string;
}
const held = signal<Held | null>(null);
const share = signal(0);

const inWorker = (input: SumsAsked, signal: AbortSignal): Promise<Outcome<boolean>> =>
  longCall(
    () => new Worker(new URL("./money-worker.ts", import.meta.url), { type: "module" }) as WorkerLike,
    async () => (await import("./job.js")).sumUp,
    {
      input,
      signal,
      onShare: (part) => {
        share.value = part;
      },
    },
  );

/** The sums as they stand on the phone; worked out first where they are not fresh. */
async function load(today: string, signal: AbortSignal): Promise<void> {
  const store = await openedStore();
  follow(store);
  const [database, turn] = [databaseName(), moneyTurn.peek()];
  const show = async (): Promise<boolean> => {
    const sums = await readFresh(store, today);
    if (sums && !signal.aborted) held.value = { sums, database, turn, today };
    return sums !== null || signal.aborted;
  };
  if (await show()) return;
  share.value = 0;
  const done = await inWorker({ database, today }, signal);
  trouble.value = done.ok ? null : (done.problems[0] ?? null);
  if (done.ok) await show();
}

/** Months and list of all vehicles; how far they are, 0..1, while they are worked out. Sums that no longer hold are never shown. */
export function useFleetSums(wanted: boolean): FleetSums | number {
  const { date: today } = here.value;
  const turn = moneyTurn.value;
  const now = held.value;
  const fresh = now?.turn === turn && now.today === today && now.database === databaseName();
  useEffect(() => {
    if (!wanted || fresh) return;
    const stop = new AbortController();
    load(today, stop.signal).catch((problem: unknown) => {
      if (!stop.signal.aborted) throw problem;
    });
    return () => stop.abort();
  }, [wanted, turn, today]);
  return now && fresh ? now.sums : share.value;
}
