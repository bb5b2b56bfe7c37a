import { describe, expect, test } from "vitest";
import { moneyProblem } from "../../../src/app/screens/money/problem-words.js";
import { LANGUAGES, type Language, setLanguage } from "../../../src/app/words/format.js";
import { bn } from "../../../src/app/words/money/bn.js";
import { en, type MoneyWords } from "../../../src/app/words/money/en.js";
import { es } from "../../../src/app/words/money/es.js";
import { hi } from "../../../src/app/words/money/hi.js";
import { sw } from "../../../src/app/words/money/sw.js";
import { ur } from "../../../src/app/words/money/ur.js";

const all: Readonly<Record<Language, MoneyWords>> = { en, hi, bn, ur, sw, es };

/** Every sentence of a language, functions called with figures and texts that can be found again. */
function sentences(words: object, at = ""): readonly { readonly at: string; readonly says: string }[] {
  return Object.entries(words).flatMap(([key, value]) => {
    const place = `${at}${key}`;
    if (typeof value === "string") return [{ at: place, says: value }];
    if (typeof value === "function")
      return [1, 2, 5].map((count) => ({ at: place, says: called(place, value as Said, count) }));
    return sentences(value as object, `${place}.`);
  });
}
type Said = (...args: readonly unknown[]) => string;
const DATES = ["since", "leaseWarn", "problems.dayTwice"];
const TEXTS: Readonly<Record<string, readonly unknown[]>> = {
  tooDear: ["AMOUNT", 3],
  perHundred: [4, "UNIT", "FUEL"],
  "bringIn.line": [7, "TEXT0"],
};
const called = (at: string, say: Said, count: number): string => {
  const numeric =
    /Days$|counted|restsOn|years|litres|kilograms|trueRate|yearlyGain|extraBack|unitsKm|sealPartly|comeIn|alreadyThere|linesLeft/.test(
      at,
    );
  if (DATES.includes(at)) return say("2027-02-10");
  return say(...(TEXTS[at] ?? Array.from({ length: say.length }, (_, i) => (numeric ? count : `TEXT${i}`))));
};

describe.each(LANGUAGES)("money in %s", (language) => {
  setLanguage(language, "latin");
  const said = sentences(all[language]);
  test("has a word for everything, and none holds a hole", () => {
    expect(said.length).toBeGreaterThan(250);
    for (const { at, says } of said)
      expect(says.replaceAll("\u2063", "").trim(), at).not.toMatch(/^$|undefined|NaN|\[object|null/);
  });
  test("every text that is handed in comes out again", () => {
    for (const { at, says } of said.filter(({ says: text }) => text.includes("TEXT")))
      if (!at.includes("carbonFrom")) expect(says, at).toContain("TEXT0");
  });
});

test("other languages are translated, not copied", () => {
  const english = new Map(sentences(en).map(({ at, says }) => [at, says]));
  const same = (["hi", "bn", "ur", "sw", "es"] as const).map(
    (language) =>
      sentences(all[language]).filter(
        ({ at, says }) => says.length > 6 && english.get(at) === says && !/TEXT|UNIT|km/.test(says),
      ).length,
  );
  expect(same).toEqual([0, 0, 0, 0, 0]);
});

test("the words that are never said (look, section 3)", () => {
  const never =
    /\b(SoC|kWh|optimi[sz]e|smart|algorithm|error|invalid|failed|oops|please|sorry|sync|cloud|offline mode|guaranteed|safe|zero emission|you should have)\b|!/i;
  for (const { at, says } of sentences(en)) expect(says, at).not.toMatch(never);
  for (const language of LANGUAGES)
    for (const { at, says } of sentences(all[language])) expect(says, at).not.toMatch(/[!¡]|kWh/);
});

test("every problem that the money can name has words and a way on", () => {
  const codes = [
    "dayTwice",
    "kmOdometerDiffer",
    "priceZero",
    "currencyUnknown",
    "baselineMissing",
    "fuelPriceMissing",
    "setCostMissing",
    "powerPriceMissing",
    "noDays",
    "loanOutlivesVehicle",
    "tooFewDays",
    "instalmentTooSmall",
    "loanAmount",
    "loanRate",
    "loanTerm",
    "loanDates",
  ];
  for (const code of codes) {
    const says = moneyProblem(en, { code, where: "days.2027-02-10" });
    expect(says, code).not.toBe(en.problems.other);
    expect(says.length).toBeGreaterThan(10);
  }
  expect(moneyProblem(en, { code: "something", where: "" })).toBe(en.problems.other);
});
