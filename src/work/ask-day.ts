import { type AskWorker, bridgeTo, type WorkerLike } from "./bridge.js";
import type { DayCalls } from "./day-calls.js";

/** Asks the day worker; the calculation itself is loaded into this thread only where workers do not work. */
export const askDay: AskWorker<DayCalls> = bridgeTo<DayCalls>(
  // The address stays literal: the build finds the worker by it.
  () => new Worker(new URL("./day-worker.ts", import.meta.url), { type: "module", name: "day" }) as WorkerLike,
  async () => (await import("./day-calls.js")).dayCalls,
  // A second worker halves the wait of a whole yard's list; a phone of two cores keeps one free for the screen.
  (globalThis.navigator?.hardwareConcurrency ?? 1) >= 4 ? 2 : 1,
  true, // it starts while the records are read
);
