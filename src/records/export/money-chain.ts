import { bad, good, type Outcome, type Problem } from "../../units/outcome.js";
import type { ChainLinkRecord } from "../money.js";

/**
 * The one text of a record, whatever order its fields were typed or stored in: JSON with the fields of every object in order and no blanks.
 * Source: RFC 8785 (JSON canonicalization): fields by UTF-16 code units, numbers and strings as ECMAScript writes them.
 * Throws for what JSON cannot hold (NaN, infinities, functions).
 */
export function canonicalText(value: unknown): string {
  if (value === null || typeof value === "boolean" || typeof value === "string") return JSON.stringify(value);
  if (typeof value === "number" && Number.isFinite(value)) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(",")}]`;
  if (typeof value !== "object") throw new TypeError(`No text for ${typeof value}`);
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  fields.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${fields.map(([name, field]) => `${JSON.stringify(name)}:${canonicalText(field)}`).join(",")}}`;
}

/** SHA-256 of a text's UTF-8 octets in hexadecimal; given from outside, as only the runtime has it (and only as a promise). */
export type Digest = (text: string) => Promise<string>;

export const NO_LINK = "0".repeat(64);
const linkText = (link: Omit<ChainLinkRecord, "hash" | "id" | "v">): string =>
  canonicalText({
    chain: link.chain,
    number: link.number,
    writtenUtcMs: link.writtenUtcMs,
    record: link.record,
    digest: link.digest,
    before: link.before,
  });

/** A record as it stands in a chain. */
export interface Written {
  /** Kind and id, as `entry/v7/2027-02-10`. */
  readonly record: string;
  /** Null: it was removed in the open. */
  readonly body: unknown;
}

/** The next link of a chain, for a record just written or written anew. Keep it with the record, in one transaction. */
export async function nextLink(
  chain: string,
  last: ChainLinkRecord | null,
  written: Written & { readonly writtenUtcMs: number },
  digest: Digest,
): Promise<ChainLinkRecord> {
  const link = {
    chain,
    number: (last?.number ?? 0) + 1,
    writtenUtcMs: written.writtenUtcMs,
    record: written.record,
    digest: await digest(canonicalText(written.body)),
    before: last?.hash ?? NO_LINK,
  };
  return { id: `${chain}/link/${link.number}`, v: 1, ...link, hash: await digest(linkText(link)) };
}

export interface ChainSeen {
  readonly links: number;
  /** Hash of the last link: whoever keeps it can tell later whether the chain before it was changed. */
  readonly head: string;
  /** Records written once and standing as they were written. */
  readonly untouched: number;
  /** Records written anew later, each time seen in the chain. */
  readonly changedLater: readonly { readonly record: string; readonly times: number; readonly lastUtcMs: number }[];
}

/**
 * Looks a chain through. Problems: `chainBroken` (a link was changed, taken out or put in), `recordChanged` (a record is not as its last link
 * says), `recordNotLinked`, `recordGone` (linked, but no longer there), `headMissing` (a head kept from an earlier report is not in the chain).
 * The chain shows changes made after a head was given away; it cannot show what was untrue from the start.
 */
export async function checkChain(
  links: readonly ChainLinkRecord[],
  records: readonly Written[],
  digest: Digest,
  keptHeads: readonly string[] = [],
): Promise<Outcome<ChainSeen>> {
  const ordered = [...links].sort((a, b) => a.number - b.number);
  const problems: Problem[] = [];
  let before = NO_LINK;
  for (const [i, link] of ordered.entries()) {
    const whole = link.number === i + 1 && link.before === before && link.hash === (await digest(linkText(link)));
    if (!whole) problems.push({ code: "chainBroken", where: `links.${link.number}` });
    before = link.hash;
  }
  const last = new Map(ordered.map((link) => [link.record, link]));
  for (const { record, body } of records) {
    const link = last.get(record);
    if (!link) problems.push({ code: "recordNotLinked", where: record });
    else if (link.digest !== (await digest(canonicalText(body))))
      problems.push({ code: "recordChanged", where: record });
  }
  const there = new Set(records.map(({ record }) => record));
  const removed = await digest(canonicalText(null));
  for (const [record, link] of last)
    if (!there.has(record) && link.digest !== removed) problems.push({ code: "recordGone", where: record });
  const hashes = new Set(ordered.map((link) => link.hash));
  for (const head of keptHeads)
    if (!hashes.has(head)) problems.push({ code: "headMissing", where: "links", figures: { head } });
  return problems.length > 0 ? bad(...problems) : good(seen(ordered, last, before));
}

function seen(
  ordered: readonly ChainLinkRecord[],
  last: ReadonlyMap<string, ChainLinkRecord>,
  head: string,
): ChainSeen {
  const times = new Map<string, number>();
  for (const { record } of ordered) times.set(record, (times.get(record) ?? 0) + 1);
  const changed = [...times].filter(([, count]) => count > 1);
  return {
    links: ordered.length,
    head,
    untouched: times.size - changed.length,
    changedLater: changed.map(([record, count]) => ({
      record,
      times: count - 1,
      lastUtcMs: last.get(record)?.writtenUtcMs ?? 0,
    })),
  };
}

/** The first signs of a hash, in groups of four, as printed on a report and read out over a telephone. */
export const shortHash = (hash: string): string => (hash.slice(0, 16).match(/.{4}/g) ?? []).join(" ");
