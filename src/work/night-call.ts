import type { Outcome } from "../units/outcome.js";
import type { WorkerLike } from "./bridge.js";
import type { NightAsk, NightShown } from "./night-calls.js";

/** The worker's side of a night: how far it is, a first and better plans, then the end. */
export type NightReply =
  | { readonly share: number }
  | { readonly better: NightShown }
  | { readonly result: Outcome<NightShown> }
  | { readonly broke: string };

export interface NightWait extends NightAsk {
  /** Gives the planning up: the worker is ended at once. */
  readonly signal: AbortSignal;
  readonly onShare: (share: number) => void;
  readonly onBetter: (shown: NightShown) => void;
}

const startWorker = (): WorkerLike =>
  // The address stays literal: the build finds the worker by it.
  new Worker(new URL("./night-worker.ts", import.meta.url), { type: "module", name: "night" }) as WorkerLike;

/** Plans a night in a worker of its own, or here where no worker starts. Rejects with the signal's reason when it is given up. */
export function askNight(wait: NightWait, start: () => WorkerLike = startWorker): Promise<Outcome<NightShown>> {
  const { given, budgetMs, signal, onShare, onBetter } = wait;
  const here = async (): Promise<Outcome<NightShown>> => {
    const { planYard } = await import("./night-calls.js");
    const result = planYard({ given, budgetMs }, { onShare, onBetter, cancelled: () => signal.aborted });
    signal.throwIfAborted();
    return result;
  };
  if (signal.aborted) return Promise.reject(signal.reason);
  let worker: WorkerLike;
  try {
    worker = start();
  } catch {
    return here(); // no workers in this browser
  }
  return new Promise((resolve, reject) => {
    const end = (settle: () => void): void => {
      signal.removeEventListener("abort", giveUp);
      worker.terminate();
      settle();
    };
    const giveUp = (): void => end(() => reject(signal.reason));
    signal.addEventListener("abort", giveUp);
    worker.onerror = () => end(() => resolve(here())); // its script did not load
    worker.onmessage = ({ data }) => {
      const reply = data as NightReply;
      if ("share" in reply) onShare(reply.share);
      else if ("better" in reply) onBetter(reply.better);
      else if ("result" in reply) end(() => resolve(reply.result));
      else end(() => reject(new Error(reply.broke)));
    };
    worker.postMessage({ given, budgetMs });
  });
}
