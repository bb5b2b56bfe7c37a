import { signal } from "@preact/signals";
import { type Digits, type Language, setLanguage } from "./format.js";

/** Counts language changes: whoever reads words inside a screen is drawn again. */
export const languageTurn = signal(0);
export const RIGHT_TO_LEFT: readonly Language[] = ["ur"];

type Loaders<T> = Readonly<Record<Language, () => Promise<T>>>;

/** A set of words that comes in one chunk per language: the core, and one for each later part of the app. */
export interface WordGroup<T> {
  /** Fetches the words of the language that is set. */
  readonly load: () => Promise<void>;
  /** The words; a bug to ask before `load` is done. */
  readonly now: () => T;
}

let language: Language = "en";
const turnAll = new Map<object, (to: Language) => Promise<() => void>>();

export function wordGroup<T>(loaders: Loaders<T>): WordGroup<T> {
  let words: T | null = null;
  const group: WordGroup<T> = {
    load: async () => {
      words ??= await loaders[language]();
      turnAll.set(group, fetchIn);
    },
    now: () => {
      void languageTurn.value;
      if (words === null) throw new Error("Words asked for before they were loaded");
      return words;
    },
  };
  const fetchIn = async (to: Language) => {
    const fetched = await loaders[to]();
    return () => {
      words = fetched;
    };
  };
  return group;
}

/** Language of the first words; call before any group is loaded. */
export function startIn(first: Language, digits: Digits): void {
  language = first;
  setLanguage(first, digits);
}

/** Turns the whole page to a language once all its words are here; leaves the page as it is when they cannot be fetched. */
export async function turnTo(wanted: Language, digits: Digits): Promise<void> {
  const before = language;
  language = wanted;
  try {
    const puts = await Promise.all([...turnAll.values()].map((fetchIn) => fetchIn(wanted)));
    if (language !== wanted) return; // a later choice has overtaken this one
    for (const put of puts) put();
  } catch (problem) {
    if (language === wanted) language = before;
    throw problem;
  }
  setLanguage(wanted, digits);
  showLanguage(wanted);
  languageTurn.value++;
}

export function showLanguage(shown: Language): void {
  document.documentElement.lang = shown;
  document.documentElement.dir = RIGHT_TO_LEFT.includes(shown) ? "rtl" : "ltr";
}
