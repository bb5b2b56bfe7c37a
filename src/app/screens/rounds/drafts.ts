import { signal } from "@preact/signals";
import type { Round } from "../../../records/index.js";
import { book, listed } from "../../fleet.js";

const KEY = "noonplug-rounds";
type Drafts = Readonly<Record<string, Round>>;

/** Rounds as they are being changed, until they are kept or put back. They outlive the page, so that nothing typed is lost. */
const drafts = signal<Drafts>(read());

function read(): Drafts {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return typeof found === "object" && found !== null ? (found as Drafts) : {};
  } catch {
    return {}; // not ours, or a locked-down browser
  }
}

function put(next: Drafts): void {
  drafts.value = next;
  try {
    localStorage.setItem(KEY, JSON.stringify(next));
  } catch {
    // no room or no right: it lasts as long as the page
  }
}

export const draftOf = (id: string): Round | undefined =>
  Object.hasOwn(drafts.value, id) ? drafts.value[id] : undefined;
export const setDraft = (round: Round): void => put({ ...drafts.value, [round.id]: round });
export function dropDraft(id: string): void {
  const { [id]: _gone, ...others } = drafts.value;
  put(others);
}

/** New rounds of a yard that were never kept. */
export const unkeptRounds = (yardId: string): readonly Round[] =>
  Object.values(drafts.value).filter(
    (round) => round.yardId === yardId && !listed(book.value, "round").some((kept) => kept.id === round.id),
  );
