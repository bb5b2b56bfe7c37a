import { type AskWorker, bridgeTo, type WorkerLike } from "./bridge.js";
import type { DayCalls } from "./day-calls.js";

/** The day worker once more, for what takes long and nobody waits for: answers do not queue behind it. */
export const askLearn: AskWorker<DayCalls> = bridgeTo<DayCalls>(
  // The address stays literal: the build finds the worker by it.
  () => new Worker(new URL("./day-worker.ts", import.meta.url), { type: "module", name: "learn" }) as WorkerLike,
  async () => (await import("./day-calls.js")).dayCalls,
);
