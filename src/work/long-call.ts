import type { WorkerLike } from "./bridge.js";

/** A worker with one long job: it says how far it is, then answers once. */
export type LongReply<Result> = { readonly share: number } | { readonly result: Result } | { readonly broke: string };

export interface LongAsk<Input> {
  readonly input: Input;
  /** Gives the job up: the worker is ended at once. */
  readonly signal: AbortSignal;
  /** Hears how far it is, 0..1. */
  readonly onShare: (share: number) => void;
}

export type LongJob<Input, Result> = (input: Input, onShare: (share: number) => void) => Result | Promise<Result>;

/**
 * Runs a long job in a worker of its own, or here where no worker starts. Rejects with the signal's reason when it is given up, and
 * with an `Error` on a bug.
 */
export function longCall<Input, Result>(
  startWorker: () => WorkerLike,
  loadHere: () => Promise<LongJob<Input, Result>>,
  { input, signal, onShare }: LongAsk<Input>,
): Promise<Result> {
  const here = async (): Promise<Result> => {
    const result = await (await loadHere())(input, onShare);
    signal.throwIfAborted();
    return result;
  };
  if (signal.aborted) return Promise.reject(signal.reason);
  let worker: WorkerLike;
  try {
    worker = startWorker();
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
      const reply = data as LongReply<Result>;
      if ("share" in reply) onShare(reply.share);
      else if ("result" in reply) end(() => resolve(reply.result));
      else end(() => reject(new Error(reply.broke)));
    };
    worker.postMessage(input);
  });
}

/** The worker's side: takes one input, answers with shares and one result. */
export function serveLong<Input, Result>(
  job: LongJob<Input, Result>,
  reply: (message: LongReply<Result>) => void,
): (event: { readonly data: unknown }) => Promise<void> {
  return async ({ data }) => {
    try {
      reply({ result: await job(data as Input, (share) => reply({ share })) });
    } catch (bug) {
      reply({ broke: bug instanceof Error ? (bug.stack ?? bug.message) : String(bug) });
    }
  };
}
