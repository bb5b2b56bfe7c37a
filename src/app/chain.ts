import { type Digest, nextLink } from "../records/export/money-chain.js";
import type { ChainLinkRecord, KindName } from "../records/index.js";
import type { Store, Writing } from "../store/index.js";
import type { Outcome } from "../units/outcome.js";

/** Kinds a lender's belief rests on: what is written of them leaves a link in the chain of its vehicle or yard. */
const SEALED: ReadonlySet<KindName> = new Set<KindName>([
  "entry",
  "accountLine",
  "baseline",
  "price",
  "setCost",
  "kitCost",
  "fixedCost",
  "loan",
  "lease",
  "standstill",
]);

/** SHA-256 of a text in hexadecimal, by the browser's own means; null where the page is not served securely and has none. */
export const sha256: Digest | null = globalThis.crypto?.subtle
  ? async (text) => {
      const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
      return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
    }
  : null;

const linksStart = (chain: string): string => `${chain}/link/`;
const linkId = (chain: string, number: number): string => `${linksStart(chain)}${number}`;

/** The links of one chain, however many the phone holds of others. */
export const linksOf = (store: Store, chain: string) => store.under("chainLink", linksStart(chain));

async function linkAt(store: Store, chain: string, number: number): Promise<ChainLinkRecord | null> {
  const found = await store.get("chainLink", linkId(chain, number));
  return found.ok ? found.value : null;
}

/** The newest link of a chain: numbers have no holes, so doubling and halving finds it in few steps. */
export async function lastLink(store: Store, chain: string): Promise<ChainLinkRecord | null> {
  let known = await linkAt(store, chain, 1);
  if (!known) return null;
  let beyond = 2;
  for (let link = await linkAt(store, chain, beyond); link; link = await linkAt(store, chain, beyond)) {
    known = link;
    beyond *= 2;
  }
  for (let gap = beyond - known.number; gap > 1; gap = beyond - known.number) {
    const middle: number = known.number + Math.floor(gap / 2);
    const link = await linkAt(store, chain, middle);
    if (link) known = link;
    else beyond = middle;
  }
  return known;
}

/** Vehicle or yard whose chain a record belongs to. */
const chainOf = (record: object): string | null => {
  const { vehicleId, yardId } = record as { vehicleId?: string | null; yardId?: string };
  return vehicleId ?? yardId ?? null;
};

/** The newest link by chain, as this window last wrote or found it. */
const remembered = new WeakMap<Store, Map<string, ChainLinkRecord>>();

/** What is remembered holds only while it is the last link on the phone: a file may have taken its place, another window may have gone on. */
async function newestOf(store: Store, chain: string): Promise<ChainLinkRecord | null> {
  const held = remembered.get(store)?.get(chain);
  if (!held || (await linkAt(store, chain, held.number))?.hash !== held.hash) return lastLink(store, chain);
  return (await linkAt(store, chain, held.number + 1)) ? lastLink(store, chain) : held;
}

/** The links that changes leave: one a sealed record; a record that is dropped leaves one as well, with the digest of nothing. */
export async function linksFor(
  store: Store,
  changes: readonly Writing[],
  nowUtcMs: number,
  digest: Digest,
): Promise<readonly ChainLinkRecord[]> {
  const newest = new Map<string, ChainLinkRecord | null>();
  const links: ChainLinkRecord[] = [];
  for (const change of changes) {
    if (!SEALED.has(change.kind)) continue;
    const found = "drop" in change ? await store.get(change.kind, change.drop) : null;
    const record = "put" in change ? change.put : found?.ok ? found.value : null;
    const chain = record && chainOf(record);
    if (!record || !chain) continue;
    const before = newest.has(chain) ? (newest.get(chain) ?? null) : await newestOf(store, chain);
    const body = "put" in change ? record : null;
    const written = { record: `${change.kind}/${record.id}`, body, writtenUtcMs: nowUtcMs };
    const link = await nextLink(chain, before, written, digest);
    newest.set(chain, link);
    links.push(link);
  }
  return links;
}

/** One window at a time goes on with the chains. */
const alone = <T>(work: () => Promise<T>): Promise<T> =>
  globalThis.navigator?.locks ? (navigator.locks.request("noonplug-chain", work) as Promise<T>) : work();

/** Writes changes and the links they leave in one go; just the changes where the browser makes no digests. */
export async function writeSealed(store: Store, changes: readonly Writing[], nowUtcMs: number): Promise<Outcome<null>> {
  const digest = sha256;
  if (!digest || !changes.some(({ kind }) => SEALED.has(kind))) return store.write(changes);
  return alone(async () => {
    const links = await linksFor(store, changes, nowUtcMs, digest);
    const done = await store.write([...changes, ...links.map((put) => ({ kind: "chainLink" as const, put }))]);
    const held = remembered.get(store) ?? new Map<string, ChainLinkRecord>();
    remembered.set(store, held);
    if (done.ok) for (const link of links) held.set(link.chain, link);
    return done;
  });
}
