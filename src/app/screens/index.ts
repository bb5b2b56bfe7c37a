import { vehicles, yards } from "../fleet.js";
import type { ScreenEntry } from "../places.js";
import { settings } from "../settings.js";
import { startWords } from "../words/start.js";
import { Screen as Today } from "./Today.js";

/**
 * Screens by their name in the path: here those that a first visit or a morning shows, the others in later.ts. A screen is one file that
 * exports `Screen` and the `words` it needs beyond the core; it is fetched when first asked for. The place says which of the four it lies under.
 */
const FIRST: Readonly<Record<string, ScreenEntry>> = {
  today: { place: "today", load: async () => ({ Screen: Today }) }, // in the first chunk: it is what the app is opened for
  start: { place: "today", load: () => import("./Start.js"), words: [startWords] },
  "five-taps": { place: "today", load: () => import("./FiveTaps.js"), words: [startWords] },
};

/** The screen of a name; that of the place where the app opens when there is no such name. */
export async function entryOf(name: string): Promise<{ readonly name: string; readonly entry: ScreenEntry }> {
  for (const wanted of [name, firstScreen(), "today"]) {
    const entry = Object.hasOwn(FIRST, wanted) ? FIRST[wanted] : await laterEntry(wanted);
    if (entry) return { name: wanted, entry };
  }
  throw new Error("There is no first screen");
}

async function laterEntry(name: string): Promise<ScreenEntry | undefined> {
  return name === "" ? undefined : (await import("./later.js")).laterEntry(name);
}

const OPENS = { driver: "today", yard: "tonight", owner: "money", fitter: "kit" } as const;

/** Where the app opens: at the four ways in until something is known, then where the role looks first. */
function firstScreen(): string {
  if (vehicles.value.length === 0 && yards.value.length === 0) return "start";
  return OPENS[settings.value.role];
}
