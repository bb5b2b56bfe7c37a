import type { FunctionComponent } from "preact";
import type { WordGroup } from "./words/load.js";

/** The four places of the app; every screen is one step under one of them. */
export type Place = "today" | "tonight" | "vehicles" | "money";

export interface ScreenProps {
  /** What follows the name in the path: `vehicles/v07` gives ["v07"]. */
  readonly params: readonly string[];
}

type Words = readonly Pick<WordGroup<unknown>, "load">[];

/** What a screen's file exports: the screen, and the words it needs beyond the core. */
export interface ScreenFile {
  readonly Screen: FunctionComponent<ScreenProps>;
  readonly words?: Words;
}

/** A screen that is fetched when it is first asked for. */
export interface ScreenEntry {
  readonly place: Place;
  readonly load: () => Promise<ScreenFile>;
  /** Words to fetch beside the file instead of after it: only for what a first visit shows. */
  readonly words?: Words;
}

export interface ShownScreen extends ScreenProps {
  readonly name: string;
  readonly entry: ScreenEntry;
  readonly Screen: FunctionComponent<ScreenProps>;
}

/** What a path asks for; an unknown name asks for the first screen. */
export function entryOf(asked: string, entries: Readonly<Record<string, ScreenEntry>>, first: string) {
  const [name = "", ...params] = asked.split("/");
  const entry = Object.hasOwn(entries, name) ? entries[name] : undefined;
  if (entry) return { name, entry, params };
  const start = entries[first];
  if (!start) throw new Error(`No screen is called ${first}`);
  return { name: first, entry: start, params: [] };
}

/** Fetches the screen of a path with its words. */
export async function fetchScreen(
  asked: string,
  entries: Readonly<Record<string, ScreenEntry>>,
  first: string,
): Promise<ShownScreen> {
  const found = entryOf(asked, entries, first);
  const [file] = await Promise.all([found.entry.load(), ...(found.entry.words ?? []).map((group) => group.load())]);
  await Promise.all((file.words ?? []).map((group) => group.load()));
  return { ...found, Screen: file.Screen };
}
