import { openStore } from "../../../../store/index.js";
import type { Outcome } from "../../../../units/outcome.js";
import { bringUpToDate } from "./build.js";

export interface SumsAsked {
  readonly database: string;
  readonly today: string;
}

/** Brings the sums of a database up to date, by a connection of its own. */
export async function sumUp(asked: SumsAsked, onShare: (share: number) => void): Promise<Outcome<boolean>> {
  const store = openStore({ name: asked.database });
  try {
    return await bringUpToDate(store, asked.today, onShare);
  } finally {
    store.close();
  }
}
