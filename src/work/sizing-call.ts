import type { SizingYear } from "../calc/sizing/index.js";
import type { KitQuestion } from "../records/map/sizing.js";
import type { Outcome } from "../units/outcome.js";
import type { WorkerLike } from "./bridge.js";
import { type LongAsk, longCall } from "./long-call.js";

/** Works out the year of a kit in a worker. */
export const askSizing = (ask: LongAsk<KitQuestion>): Promise<Outcome<SizingYear>> =>
  longCall(
    () => new Worker(new URL("./sizing-worker.ts", import.meta.url), { type: "module" }) as WorkerLike,
    async () => (await import("./size-kit.js")).sizeKit,
    ask,
  );
