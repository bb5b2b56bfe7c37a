import { expect, test } from "vitest";
import { type Ask, answer, bridgeTo, type CallTable, type WorkerLike } from "../../src/work/bridge.js";

const calls = {
  double: (input: { n: number }) => input.n * 2,
  bug: (_: { n: number }): number => Number(undefinedName()),
};
function undefinedName(): never {
  throw new Error("made to fail");
}

/** A worker in this thread that answers on request, so that a test decides when. */
function standIn() {
  const asked: Ask<CallTable>[] = [];
  const worker: WorkerLike = {
    postMessage: (message) => void asked.push(message as Ask<CallTable>),
    terminate: () => {},
    onmessage: null,
    onerror: null,
  };
  const answerNext = async () => {
    const ask = asked.shift();
    if (ask) worker.onmessage?.({ data: await answer(calls as unknown as CallTable, ask) });
  };
  return { asked, worker, answerNext };
}

const bridge = (worker: WorkerLike) =>
  bridgeTo<typeof calls>(
    () => worker,
    async () => calls,
  );

test("one ask is out at a time and each gets its own answer", async () => {
  const { asked, worker, answerNext } = standIn();
  const ask = bridge(worker);
  const both = Promise.all([ask("double", { n: 2 }), ask("double", { n: 5 })]);
  expect(asked.length).toBe(1);
  await answerNext();
  await answerNext();
  expect(await both).toEqual([4, 10]);
});

test("an ask given up while waiting never reaches the worker", async () => {
  const { asked, worker, answerNext } = standIn();
  const ask = bridge(worker);
  const first = ask("double", { n: 1 });
  const stop = new AbortController();
  const second = ask("double", { n: 2 }, stop.signal);
  stop.abort();
  await expect(second).rejects.toMatchObject({ name: "AbortError" });
  await answerNext();
  expect(await first).toBe(2);
  expect(asked).toEqual([]);
});

test("a bug in a call is told, and the next ask still works", async () => {
  const { worker, answerNext } = standIn();
  const ask = bridge(worker);
  const bug = ask("bug", { n: 1 });
  const next = ask("double", { n: 4 });
  await answerNext();
  await expect(bug).rejects.toThrow("made to fail");
  await answerNext();
  expect(await next).toBe(8);
});

test("a worker that breaks is replaced by this thread, and nothing asked is lost", async () => {
  const { worker } = standIn();
  const ask = bridge(worker);
  const asked = ask("double", { n: 7 });
  worker.onerror?.(new Event("error"));
  expect(await asked).toBe(14);
  const none = bridgeTo<typeof calls>(
    () => {
      throw new Error("no workers here");
    },
    async () => calls,
  );
  expect(await none("double", { n: 8 })).toBe(16);
});

test("a second worker starts only when an ask would wait", async () => {
  const stands = [standIn(), standIn()];
  let started = 0;
  const ask = bridgeTo<typeof calls>(
    () => stands[started++]?.worker as WorkerLike,
    async () => calls,
    2,
  );
  const first = ask("double", { n: 1 });
  expect(started).toBe(1);
  const second = ask("double", { n: 2 });
  expect(started).toBe(2);
  await stands[1]?.answerNext();
  expect(await second).toBe(4);
  const third = ask("double", { n: 3 });
  expect(started).toBe(2);
  await stands[1]?.answerNext();
  await stands[0]?.answerNext();
  expect([await first, await third]).toEqual([2, 6]);
});

test("when the worker breaks and its stand-in cannot be fetched, the ask is told so, and a later one is answered", async () => {
  const { worker } = standIn();
  let offline = true;
  const ask = bridgeTo<typeof calls>(
    () => worker,
    async () => {
      if (offline) throw new TypeError("Failed to fetch");
      return calls;
    },
  );
  const both = [ask("double", { n: 2 }), ask("double", { n: 3 })];
  worker.onerror?.({});
  for (const one of both) await expect(one).rejects.toThrow("Failed to fetch");
  offline = false;
  expect(await ask("double", { n: 4 })).toBe(8);
});
