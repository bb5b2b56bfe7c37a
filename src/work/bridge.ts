/** A worker's calls as one type: name -> function of one plain input. */
export type CallTable = { readonly [name: string]: (input: never) => unknown };
export type InputOf<T extends CallTable, K extends keyof T> = Parameters<T[K]>[0];
export type ResultOf<T extends CallTable, K extends keyof T> = Awaited<ReturnType<T[K]>>;

export interface Ask<T extends CallTable, K extends keyof T = keyof T> {
  readonly id: number;
  readonly name: K;
  readonly input: InputOf<T, K>;
}
export type Reply =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly why: string };

/** Asks the worker; the promise is rejected with an AbortError as soon as the signal says so. */
export type AskWorker<T extends CallTable> = <K extends keyof T>(
  name: K,
  input: InputOf<T, K>,
  signal?: AbortSignal,
) => Promise<ResultOf<T, K>>;

/** The few members of a Worker that the bridge needs, so that tests can stand in for it. */
export interface WorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: { data: unknown }) => void) | null;
  onerror: ((event: unknown) => void) | null;
}

interface Waiting {
  readonly ask: Ask<CallTable>;
  readonly settle: (reply: Reply) => void;
}

/** One worker and the ask it is busy with. */
interface Desk {
  worker: WorkerLike | null;
  out: Waiting | null;
}

/**
 * A queue in front of one or a few workers: each has one ask out at a time, so that an ask given up while waiting costs nothing.
 * A further worker is started only when an ask would wait, the first one when `startsAtOnce` says so. When workers cannot start or break, the same calls are answered here,
 * from `fallback`.
 */
export function bridgeTo<T extends CallTable>(
  startWorker: () => WorkerLike,
  fallback: () => Promise<T>,
  most = 1,
  startsAtOnce = false,
): AskWorker<T> {
  const queue: Waiting[] = [];
  const desks: Desk[] = [];
  let broken = false;
  let lastId = 0;

  function open(): Desk {
    const desk: Desk = { worker: null, out: null };
    desks.push(desk);
    if (broken) return desk;
    try {
      const worker = startWorker();
      worker.onmessage = (event) => finish(desk, event.data as Reply);
      worker.onerror = () => breakDown(desk);
      desk.worker = worker;
    } catch {
      broken = true; // no workers in this browser, or the file is gone: answer here
    }
    return desk;
  }

  function breakDown(desk: Desk): void {
    broken = true;
    desk.worker?.terminate();
    desk.worker = null;
    const held = desk.out;
    desk.out = null;
    if (held) queue.unshift(held);
    pump();
  }

  function finish(desk: Desk, reply: Reply): void {
    if (desk.out?.ask.id !== reply.id) return; // of a worker that has been replaced
    const done = desk.out;
    desk.out = null;
    done.settle(reply);
    pump();
  }

  function pump(): void {
    while (queue.length > 0) {
      const free = desks.find((desk) => desk.out === null) ?? (desks.length < (broken ? 1 : most) ? open() : null);
      if (!free) return;
      const next = queue.shift() as Waiting;
      free.out = next;
      if (free.worker) free.worker.postMessage(next.ask);
      else void answerHere(free, next);
    }
  }

  async function answerHere(desk: Desk, waiting: Waiting): Promise<void> {
    const { ask } = waiting;
    finish(desk, await fallback().then((table) => answer(table, ask), whyNot(ask))); // not fetched: the next ask tries again
  }

  if (startsAtOnce) open();
  return (name, input, signal) =>
    new Promise((resolve, reject) => {
      const abort = () => new DOMException("Given up.", "AbortError");
      if (signal?.aborted) return reject(abort());
      const id = ++lastId;
      const settle = (reply: Reply) => {
        if (signal?.aborted) return;
        if (reply.ok) resolve(reply.value as never);
        else reject(new Error(reply.why));
      };
      const waiting: Waiting = { ask: { id, name: name as string, input: input as never }, settle };
      signal?.addEventListener("abort", () => {
        const place = queue.indexOf(waiting);
        if (place >= 0) queue.splice(place, 1);
        reject(abort()); // at once; an answer that is being worked out is dropped when it comes
      });
      queue.push(waiting);
      pump();
    });
}

const whyNot =
  ({ id }: Ask<CallTable>) =>
  (bug: unknown): Reply => ({
    id,
    ok: false,
    why: bug instanceof Error ? (bug.stack ?? bug.message) : String(bug),
  });

/** Answers one ask from a table of calls; a bug becomes a reply that says so. */
export async function answer(table: CallTable, ask: Ask<CallTable>): Promise<Reply> {
  const call = table[ask.name as string] as ((input: unknown) => unknown) | undefined;
  if (!call) return { id: ask.id, ok: false, why: `The worker knows no call ${String(ask.name)}.` };
  try {
    return { id: ask.id, ok: true, value: await call(ask.input) };
  } catch (bug) {
    return whyNot(ask)(bug);
  }
}
