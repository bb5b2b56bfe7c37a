import { signal } from "@preact/signals";

/** A thing just written, with the way back. */
export interface Done {
  readonly says: string;
  /** Null: nothing to take back, only to be told. */
  readonly undo: (() => Promise<void> | void) | null;
}

const SHOWN_MS = 10_000;
export const lastDone = signal<Done | null>(null);
let timer: ReturnType<typeof setTimeout> | undefined;

/** Shows what was kept for 10 s, with a key that takes it back; vibrates shortly, as a pressed button would. */
export function tellDone(done: Done): void {
  clearTimeout(timer);
  lastDone.value = done;
  navigator.vibrate?.(20);
  timer = setTimeout(() => {
    lastDone.value = null;
  }, SHOWN_MS);
}

export async function takeBack(): Promise<void> {
  const done = lastDone.value;
  clearTimeout(timer);
  lastDone.value = null;
  await done?.undo?.();
}
