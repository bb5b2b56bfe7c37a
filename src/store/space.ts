/** Whether the browser promised not to clear the records when space runs short: `asked` means it said no for now. */
export type Kept = "kept" | "asked" | "unknown";

/** Asks the browser to keep the records; some grant it silently, some only to installed apps. Call after the first record was typed. */
export async function askToKeep(): Promise<Kept> {
  try {
    if (!navigator.storage?.persist) return "unknown";
    return (await navigator.storage.persisted()) || (await navigator.storage.persist()) ? "kept" : "asked";
  } catch {
    return "unknown";
  }
}

/** Bytes used and allowed, as the browser estimates them; null where it does not say. */
export async function space(): Promise<{ readonly usedBytes: number; readonly quotaBytes: number } | null> {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    return usage === undefined || quota === undefined ? null : { usedBytes: usage, quotaBytes: quota };
  } catch {
    return null;
  }
}
