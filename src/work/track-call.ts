import type { ImportedTrack } from "../records/import/track-round.js";
import type { Outcome } from "../units/outcome.js";

export type TrackReply =
  | { readonly share: number }
  | { readonly outcome: Outcome<ImportedTrack[]> }
  | { readonly broke: string };

export interface TrackAsk {
  readonly file: Blob;
  readonly signal: AbortSignal;
  readonly onShare: (share: number) => void;
}

/**
 * Reads a track file in a worker of its own, or here where no worker starts. Rejects with the signal's reason when it is given up,
 * and with an `Error` on a bug; a file that cannot be read is an outcome.
 */
export function readTrack({ file, signal, onShare }: TrackAsk): Promise<Outcome<ImportedTrack[]>> {
  if (signal.aborted) return Promise.reject(signal.reason);
  let worker: Worker;
  try {
    worker = new Worker(new URL("./track-worker.ts", import.meta.url), { type: "module" });
  } catch {
    return readHere({ file, signal, onShare });
  }
  return new Promise((resolve, reject) => {
    const end = (settle: () => void): void => {
      signal.removeEventListener("abort", giveUp);
      settle();
      worker.terminate();
    };
    const giveUp = (): void => end(() => reject(signal.reason));
    signal.addEventListener("abort", giveUp);
    worker.onerror = () => end(() => resolve(readHere({ file, signal, onShare }))); // its script did not load
    worker.onmessage = ({ data }: MessageEvent<TrackReply>) => {
      if ("share" in data) onShare(data.share);
      else if ("outcome" in data) end(() => resolve(data.outcome));
      else end(() => reject(new Error(data.broke)));
    };
    worker.postMessage(file);
  });
}

async function readHere({ file, signal, onShare }: TrackAsk): Promise<Outcome<ImportedTrack[]>> {
  const { readTrackFile } = await import("./read-track.js");
  const outcome = await readTrackFile(file, onShare);
  signal.throwIfAborted();
  return outcome;
}
