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
  /** Of the whole yard: stays away while the phone is in other hands. */
  readonly yards?: true;
  /** What must be on this phone for the screen to have something to show: the vehicle named in the path, any vehicle, a yard. */
  readonly needs?: "named" | "vehicle" | "yard";
  /** Words to fetch beside the file instead of after it: only for what a first visit shows. */
  readonly words?: Words;
}

export interface ShownScreen extends ScreenProps {
  readonly name: string;
  readonly entry: ScreenEntry;
  readonly Screen: FunctionComponent<ScreenProps>;
}

/** Fetches the screen of a path with its words. */
export async function fetchScreen(
  asked: string,
  entryOf: (name: string) => Promise<{ readonly name: string; readonly entry: ScreenEntry }>,
): Promise<ShownScreen> {
  const [wanted = "", ...params] = asked.split("/");
  const { name, entry } = await entryOf(wanted);
  const [file] = await Promise.all([entry.load(), ...(entry.words ?? []).map((group) => group.load())]);
  await Promise.all((file.words ?? []).map((group) => group.load()));
  return { name, entry, params: name === wanted ? params : [], Screen: file.Screen };
}
