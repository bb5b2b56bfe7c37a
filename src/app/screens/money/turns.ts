/** Work of which the newest turn alone counts. */
export interface Turns {
  /** What the work came to; null when a later turn overtook it or it was stopped. */
  readonly run: <T>(work: (signal: AbortSignal) => Promise<T>) => Promise<{ readonly value: T } | null>;
  readonly stop: () => void;
}

export function oneAtATime(): Turns {
  let present: AbortController | null = null;
  return {
    run: async (work) => {
      present?.abort();
      present = new AbortController();
      const { signal } = present;
      try {
        const value = await work(signal);
        return signal.aborted ? null : { value };
      } catch (problem) {
        if (signal.aborted) return null; // stopped work ends by throwing
        throw problem;
      }
    },
    stop: () => present?.abort(),
  };
}
