/** What subscribers hear: keys (`kind/id`) that changed, here or in another tab; null when there are too many to name. */
export type Change =
  | { readonly kind: "changed"; readonly keys: readonly string[] | null; readonly here: boolean }
  /** Another tab runs an older version and holds the database: ask to close it. */
  | { readonly kind: "blocked" }
  /** Another tab runs a newer version and this one let go: reload. */
  | { readonly kind: "gaveWay" };

export interface Changes {
  tell(change: Change): void;
  /** Tells listeners here and the other tabs. */
  changed(keys: readonly string[]): void;
  listen(listener: (change: Change) => void): () => void;
  close(): void;
}

const MOST_KEYS = 500;

export function openChanges(name: string): Changes {
  const listeners = new Set<(change: Change) => void>();
  const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(name);
  const tell = (change: Change): void => {
    for (const listener of [...listeners]) listener(change);
  };
  if (channel)
    channel.onmessage = (event: MessageEvent<unknown>) =>
      tell({ kind: "changed", keys: keysIn(event.data), here: false });
  return {
    tell,
    changed: (keys) => {
      if (keys.length === 0) return;
      const named = keys.length > MOST_KEYS ? null : keys;
      tell({ kind: "changed", keys: named, here: true });
      channel?.postMessage(named);
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: () => {
      listeners.clear();
      channel?.close();
    },
  };
}

const keysIn = (data: unknown): readonly string[] | null =>
  Array.isArray(data) && data.every((key) => typeof key === "string") ? data : null;
