import { useEffect, useState } from "preact/hooks";
import { checkChain } from "../../../records/export/money-chain.js";
import { linksOf, sha256 } from "../../chain.js";
import { openedStore } from "../../shelf.js";

/** How a vehicle's log stands against its chain. */
export interface Seal {
  /** Hash of the newest link; null without a chain. */
  readonly head: string | null;
  /** Places where log and chain do not match. */
  readonly broken: number;
  /** Days that came in without a link, from a copy or a table. */
  readonly unmarked: number;
}

const FIRST_DAY = "2000-01-01";
const LAST_DAY = "2100-12-31";

async function sealOf(vehicleId: string): Promise<Seal | null> {
  const store = await openedStore();
  const [links, entries] = [
    await linksOf(store, vehicleId),
    await store.history("entry", vehicleId, FIRST_DAY, LAST_DAY),
  ];
  if (!sha256 || !links.ok || !entries.ok) return null;
  const own = links.value.records.filter((link) => link.chain === vehicleId);
  const written = entries.value.records.map((body) => ({ record: `entry/${body.id}`, body }));
  const seen = await checkChain(own, written, sha256);
  const head = [...own].sort((a, b) => a.number - b.number).at(-1)?.hash ?? null;
  if (seen.ok) return { head, broken: 0, unmarked: 0 };
  // only the days are looked up here; links of prices and accounts stand in the same chain
  const days = seen.problems.filter(({ code, where }) => code !== "recordGone" || where.startsWith("entry/"));
  const unmarked = days.filter(({ code }) => code === "recordNotLinked").length;
  return { head, broken: days.length - unmarked, unmarked };
}

/** The seal of a vehicle's log, looked through when its report opens. */
export function useSeal(vehicleId: string | null): Seal | null {
  const [seal, setSeal] = useState<Seal | null>(null);
  useEffect(() => {
    let gone = false;
    setSeal(null);
    if (vehicleId !== null) void sealOf(vehicleId).then((found) => !gone && setSeal(found));
    return () => {
      gone = true;
    };
  }, [vehicleId]);
  return seal;
}
