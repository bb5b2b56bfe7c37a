import { expect, test } from "vitest";
import { type LongReply, longCall, serveLong } from "../../src/work/long-call.js";

/** A worker in this thread: its messages come one turn later, as a real one's do. */
function workerOf(job: (input: number, onShare: (share: number) => void) => number | Promise<number>) {
  const worker = {
    ended: false,
    onmessage: null as ((event: { data: unknown }) => void) | null,
    onerror: null as ((event: unknown) => void) | null,
    postMessage(data: unknown) {
      const reply = (message: LongReply<number>) =>
        void setTimeout(() => worker.ended || worker.onmessage?.({ data: message }), 0);
      void serveLong(job, reply)({ data });
    },
    terminate() {
      worker.ended = true;
    },
  };
  return worker;
}
const double = (input: number, onShare: (share: number) => void) => {
  onShare(0.5);
  return 2 * input;
};
const here = async () => (input: number) => -input;
const never = () => new AbortController().signal;

test("a long job tells how far it is, answers, and its worker is ended", async () => {
  const worker = workerOf(double);
  const shares: number[] = [];
  const ask = { input: 21, signal: never(), onShare: (share: number) => shares.push(share) };
  expect(await longCall(() => worker, here, ask)).toBe(42);
  expect(shares).toEqual([0.5]);
  expect(worker.ended).toBe(true);
});

test("where no worker starts, or its script fails, the job is done here", async () => {
  const ask = { input: 21, signal: never(), onShare: () => {} };
  const refuses = () => {
    throw new Error("no workers");
  };
  expect(await longCall(refuses, here, ask)).toBe(-21);
  const silent = workerOf(() => new Promise<number>(() => {}));
  const answer = longCall(() => silent, here, ask);
  silent.onerror?.(new Event("error"));
  expect(await answer).toBe(-21);
});

test("giving up ends the worker at once and rejects with the reason", async () => {
  const worker = workerOf(() => new Promise<number>(() => {}));
  const control = new AbortController();
  const answer = longCall(() => worker, here, { input: 1, signal: control.signal, onShare: () => {} });
  control.abort(new Error("enough"));
  await expect(answer).rejects.toThrow("enough");
  expect(worker.ended).toBe(true);
  await expect(
    longCall(() => workerOf(double), here, { input: 1, signal: control.signal, onShare: () => {} }),
  ).rejects.toThrow("enough");
});

test("a bug in the worker is an error with its story", async () => {
  const worker = workerOf(() => {
    throw new RangeError("a bug");
  });
  await expect(longCall(() => worker, here, { input: 1, signal: never(), onShare: () => {} })).rejects.toThrow("a bug");
});
