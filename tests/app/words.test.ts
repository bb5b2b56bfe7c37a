import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import {
  clock,
  dayShort,
  figures,
  LANGUAGES,
  type Language,
  plain,
  plural,
  setLanguage,
  signed,
} from "../../src/app/words/format.js";

const FOLDER = join(import.meta.dirname, "..", "..", "src", "app", "words");
/** The core words lie in the folder itself; every other group in a folder of its own. */
const GROUPS = [
  "",
  ...readdirSync(FOLDER, { withFileTypes: true }).flatMap((one) => (one.isDirectory() ? [one.name] : [])),
];

type Leaf = readonly [path: string, text: string];

async function wordsOf(group: string, language: Language): Promise<unknown> {
  const file = join(FOLDER, group, `${language}.ts`);
  if (!existsSync(file)) return null;
  return ((await import(file)) as Record<string, unknown>)[language];
}

/** Every text of a table, functions called with the numbers given (and texts where a text is asked: both read well in a sentence). */
function leaves(value: unknown, at: string, sample: number): Leaf[] {
  if (typeof value === "string") return [[at, value]];
  if (typeof value === "function") return leaves(call(value as Said, sample), `${at}()`, sample);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => leaves(part, at ? `${at}.${key}` : key, sample));
}
type Said = (...given: never[]) => unknown;
const HOLE = /undefined|NaN|Invalid/;

/** A sentence with its numbers; where it wants a day or a name, one of these in its place. */
function call(words: Said, sample: number): unknown {
  const kinds = [sample, "2027-02-10", "X", () => String(sample)];
  const tries = Array.from({ length: kinds.length ** words.length }, (_, t) =>
    Array.from({ length: words.length }, (_, place) => kinds[Math.floor(t / kinds.length ** place) % kinds.length]),
  );
  for (const given of tries) {
    try {
      const said = words(...(given as never[]));
      if (!leaves(said, "", sample).some(([, text]) => HOLE.test(text))) return said;
    } catch {
      // not what this sentence asks for
    }
  }
  return words(...(tries[0] as never[]));
}
const texts = (table: unknown): Leaf[] => [0, 1, 2, 7].flatMap((sample) => leaves(table, "", sample));
const shape = (table: unknown): string[] => leaves(table, "", 3).map(([path]) => path);

afterEach(() => setLanguage("en", "latin"));

test("the groups of words are found", () => {
  expect(GROUPS).toEqual(expect.arrayContaining(["", "start", "day", "list", "phone"]));
});

const languagesOf = (group: string): Language[] =>
  LANGUAGES.filter((language) => existsSync(join(FOLDER, group, `${language}.ts`)));

test("groups that are only in English are told", () => {
  const alone = GROUPS.filter((group) => languagesOf(group).length < LANGUAGES.length);
  if (alone.length > 0) console.log(`Words still only in English: ${alone.join(", ")}`);
  expect(alone.length).toBeLessThan(GROUPS.length);
});

describe.each(GROUPS)("words '%s'", (group) => {
  test.each(languagesOf(group))("%s has every word and no hole in a sentence", async (language) => {
    const table = await wordsOf(group, language);
    expect(table, `${group || "core"} in ${language}`).not.toBeNull();
    setLanguage(language, "latin");
    expect(shape(table)).toEqual(shape(await wordsOf(group, "en")));
    for (const [path, text] of texts(table)) {
      if (!/units?(Names)?\./.test(path)) expect(text.trim(), path).not.toBe("");
      expect(text, path).not.toMatch(/undefined|NaN|null|\[object/);
    }
  });
});

/** What the voice of the app never says, in English; the weather may be cloudy, records are never "in the cloud". */
const NEVER =
  /\b(soc|kwh|optimi[sz]\w*|smart|algorithm|error|invalid|failed|oops|please|sorry|sync\w*|the cloud|offline mode|guaranteed|safe|zero.emission|you should have|current)\b|!/i;
/** Exports and the fitter's sheet may name the unit of the trade's papers. */
const MAY_SAY_KWH = new Set(["kit", "sizing", "report"]);

test.each(GROUPS)("English '%s' never says what it must not", async (group) => {
  for (const [path, text] of texts(await wordsOf(group, "en"))) {
    const said = MAY_SAY_KWH.has(group) ? text.replace(/kwh/gi, "") : text;
    expect(said, path).not.toMatch(NEVER);
  }
});

/** The same temper in the other languages: no apology, no blame, no exclamation. */
const NEVER_ABROAD: Partial<Record<Language, RegExp>> = {
  hi: /त्रुटि|अमान्य|विफल|माफ़|माफ|कृपया|!/,
  bn: /ত্রুটি|অবৈধ|ব্যর্থ|দুঃখিত|অনুগ্রহ|!/,
  ur: /خرابی|غلطی|ناکام|معذرت|معاف|براہ کرم|!/,
  sw: /\b(hitilafu|batili|imeshindwa|samahani|tafadhali)\b|!/i,
  es: /\b(error|inválido|falló|lo siento|por favor|perdón)\b|[¡!]/i,
};
const SCRIPT: Partial<Record<Language, RegExp>> = {
  hi: /[\u0900-\u097f]/,
  bn: /[\u0980-\u09ff]/,
  ur: /[\u0600-\u06ff]/,
};
/** Units, signs and names that stay as they are in every language. */
const SAME = /^[^\p{L}]*((kWh|kW|km|kg|min|V|W|A|Ah|MB|m|h|°C|mΩ|Ω|Noonplug|kit|s)[^\p{L}]*)*$/u;

const abroad = LANGUAGES.filter((language) => language !== "en");
describe.each(abroad)("%s", (language) => {
  test.each(GROUPS.filter((group) => languagesOf(group).includes(language)))(
    "'%s' is in this language",
    async (group) => {
      setLanguage(language, "latin");
      const table = await wordsOf(group, language);
      const english = new Map(texts(await wordsOf(group, "en")));
      const written = texts(table);
      const left = written.filter(([path, text]) => {
        const bare = plain(text);
        if (SAME.test(bare)) return false;
        const script = SCRIPT[language];
        return script ? !script.test(bare) : bare.length > 12 && bare === english.get(path);
      });
      expect(left).toEqual([]);
      for (const [path, text] of written) expect(text, path).not.toMatch(NEVER_ABROAD[language] as RegExp);
    },
  );
});

// Figures and dates: Unicode CLDR data of the languages, as printed in its charts (digits, decimal sign, plural classes).
test("digits follow the language or stay 0-9", () => {
  setLanguage("bn", "own");
  expect(figures(1234.5, 1)).toBe("১,২৩৪.৫");
  expect(clock(14.5)).toBe("১৪:৩০");
  setLanguage("hi", "own");
  expect(figures(90)).toBe("९०");
  setLanguage("ur", "own");
  expect(figures(45)).toBe("۴۵");
  setLanguage("bn", "latin");
  expect(figures(90)).toBe("90");
});

test("decimal sign and minus", () => {
  setLanguage("es", "latin");
  expect(figures(51.2, 1)).toBe("51,2");
  setLanguage("en", "latin");
  expect(figures(51.2, 1)).toBe("51.2");
  expect(signed(-4)).toBe("−4");
  expect(signed(4)).toBe("+4");
  expect(figures(-0)).toBe("0");
});

test("plural classes", () => {
  const forms = { one: "one", other: "other" };
  setLanguage("hi", "latin"); // CLDR: i = 0 or n = 1 is "one"
  expect([0, 1, 2].map((count) => plural(count, forms))).toEqual(["one", "one", "other"]);
  setLanguage("en", "latin");
  expect([0, 1, 2].map((count) => plural(count, forms))).toEqual(["other", "one", "other"]);
});

test("hours run to 24 and fold over midnight; dates are short", () => {
  expect([0, 4.1666667, 23.999, 24, 29.5, -1].map(clock)).toEqual([
    "00:00",
    "04:10",
    "00:00",
    "00:00",
    "05:30",
    "23:00",
  ]);
  expect(dayShort("2027-02-10")).toBe("Wed 10 Feb"); // 10 February 2027 is a Wednesday (calendar)
});

test.each(["en", "es"] as const)("one of a thing is not said as many, in %s", async (language) => {
  setLanguage(language, "latin");
  // "1 of 1 days" names a month or a year and is never one day
  const many =
    language === "en"
      ? /(?<![\d.,]|[Oo]f )1 (days|points|minutes|hours|units|lines|vehicles|legs|stops|months|records|places|sockets)\b/
      : /(?<![\d.,]|[Dd]e )1 (días|puntos|minutos|horas|unidades|líneas|vehículos|tramos|paradas|meses|registros|lugares|tomas)(?!\p{L})/u;
  const wrong: Leaf[] = [];
  for (const group of GROUPS)
    wrong.push(...leaves(await wordsOf(group, language), "", 1).filter(([, text]) => many.test(plain(text))));
  expect(wrong).toEqual([]);
});

test("what rounds to nothing bears no sign", () => {
  setLanguage("en", "latin");
  expect([figures(-0.3), figures(-0.04, 1), signed(-0.3), figures(-0.6), signed(-0.05, 1)]).toEqual([
    "0",
    "0.0",
    "+0",
    "−1",
    "−0.1",
  ]);
});
