import type { Problem } from "../units/outcome.js";

/** Codes of storage problems: the phone is full, storage is refused (private window, blocked), the data is of a newer app, or the reason is unknown. */
export type StorageCode = "storageFull" | "storageRefused" | "storageNewer" | "storageFailed";

const nameOf = (why: unknown): string =>
  typeof why === "object" && why !== null && "name" in why ? String((why as { name: unknown }).name) : "";
const CODE_OF: Readonly<Record<string, StorageCode>> = {
  QuotaExceededError: "storageFull",
  SecurityError: "storageRefused",
  NotAllowedError: "storageRefused",
  NoStorageError: "storageRefused",
  VersionError: "storageNewer",
};

/** Names that only a bug of ours can raise, and errors of the language itself. */
const BUGS = [
  "DataCloneError",
  "TransactionInactiveError",
  "DataError",
  "ReadOnlyError",
  "Error",
  "TypeError",
  "RangeError",
  "ReferenceError",
];

/** A storage failure as a value; anything that is a bug of ours is thrown on. */
export function storageProblem(why: unknown): Problem {
  const name = nameOf(why);
  if (!name.endsWith("Error") || BUGS.includes(name)) throw why;
  const says = why instanceof Error ? why.message.slice(0, 120) : "";
  return { code: CODE_OF[name] ?? "storageFailed", where: "", figures: { name, says } };
}

/**
 * The connection is gone, not the data: browsers kill it in the background (WebKit) or while the tab was frozen, and report it as a closed
 * database, a lost connection or an abort that nobody asked for.
 */
export const isDeadHandle = (why: unknown): boolean =>
  ["InvalidStateError", "UnknownError", "AbortError"].includes(nameOf(why));
