import type { ImportedTrack } from "../records/import/track-round.js";
import type { Outcome } from "../units/outcome.js";
import type { WorkerLike } from "./bridge.js";
import { type LongAsk, longCall } from "./long-call.js";

/** Reads a track file in a worker; what cannot be read is an outcome. */
export const readTrack = (ask: LongAsk<Blob>): Promise<Outcome<ImportedTrack[]>> =>
  longCall(
    () => new Worker(new URL("./track-worker.ts", import.meta.url), { type: "module" }) as WorkerLike,
    async () => (await import("./read-track.js")).readTrackFile,
    ask,
  );
