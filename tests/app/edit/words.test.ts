import { describe, expect, test } from "vitest";
import { problemText } from "../../../src/app/screens/edit/problem-text.js";
import { keptOf, shownOf, valueAt } from "../../../src/app/screens/edit/spec.js";
import { faceFields, GROUP_NAMES, GROUPS } from "../../../src/app/screens/sheet/fields.js";
import { en } from "../../../src/app/words/edit/en.js";
import { LANGUAGES, setLanguage } from "../../../src/app/words/format.js";
import { typeInto } from "../../../src/records/guesses.js";
import { newVehicle } from "../../../src/records/new-vehicle.js";

const GROUPS_OF_WORDS = ["edit", "sheet", "rounds", "sky", "yard"] as const;
const wordsOf = async (group: string, language: string): Promise<Record<string, unknown>> =>
  (await import(`../../../src/app/words/${group}/${language}.ts`))[language];

/** Stands for whatever a sentence is asked with: a figure, a name, or the figures of a problem by name. */
const anything = Object.assign(() => "2", { toString: () => "2", valueOf: () => 2 });

/** Every text of a table of words. */
function texts(words: unknown): string[] {
  if (typeof words === "string") return [words];
  if (typeof words === "function") return [String(words(...Array.from({ length: words.length }, () => anything)))];
  if (Array.isArray(words)) return words.flatMap(texts);
  return typeof words === "object" && words !== null ? Object.values(words).flatMap(texts) : [];
}

// The project's own list of words that an answer must not hide behind (look, section 3)
const NEVER =
  /\b(SoC|kWh|optimi[sz]\w*|smart|algorithm|error|invalid|failed|oops|please|sorry|sync|cloud|guaranteed|safe|should have)\b|!/i;

describe.each(GROUPS_OF_WORDS)("words of %s", (group) => {
  test("say none of the words that are never said", async () => {
    const all = texts({ ...(await wordsOf(group, "en")), problems: {} });
    expect(all.length).toBeGreaterThan(20);
    expect(all.filter((text) => NEVER.test(text))).toEqual([]);
  });

  test.each(LANGUAGES)("in %s are whole and nowhere left in English", async (language) => {
    setLanguage(language, "latin");
    const english = texts(await wordsOf(group, "en")).filter((text) => /[a-z]{4}/.test(text));
    const here = new Set(texts(await wordsOf(group, language)));
    expect([...here].filter((text) => text.includes("undefined"))).toEqual([]);
    if (language === "en") return;
    const same = english.filter((text) => here.has(text));
    expect(same.length / english.length).toBeLessThan(0.06); // a few words are alike: diesel, taxi
    setLanguage("en", "latin");
  });
});

describe("fields of the sheet", () => {
  const vehicle = newVehicle({ id: "v1", yardId: "y1", plate: "07", class: "passenger", chemistry: "lfp" });
  const all = [...GROUP_NAMES.flatMap((name) => [...GROUPS[name].plain, ...GROUPS[name].finer]), ...faces()];
  function faces() {
    const { plain, finer } = faceFields(0);
    return [...plain, ...finer];
  }

  test("stand for figures that the record holds, and leave none of its guesses out", () => {
    const optional = /motorRatedRpm|panelsInSeries|openCircuitV|maxPowerV/;
    const strange = all.filter((of) => valueAt(vehicle, of.path) === undefined && !optional.test(of.path));
    expect(strange).toEqual([]);
    const paths = new Set(all.map((of) => of.path));
    expect(vehicle.guesses.filter((path) => !paths.has(path) && path !== "drive.gears")).toEqual([]);
  });

  test("offer only usual values that the record takes, and keep them as they are shown", () => {
    for (const of of all) {
      if (of.kind !== "number") continue;
      for (const shown of of.usual ?? []) {
        const kept = keptOf(of, shown);
        expect(typeInto("vehicle", vehicle, of.path, kept).ok, `${of.path} ${shown}`).toBe(true);
        expect(shownOf(of, kept)).toBe(shown);
      }
    }
  });
});

describe("a refusal", () => {
  const vehicle = newVehicle({ id: "v1", yardId: "y1", plate: "07", class: "passenger", chemistry: "lfp" });
  const said = (path: string, value: unknown, of: Parameters<typeof problemText>[2]): string => {
    const seen = typeInto("vehicle", vehicle, path, value);
    return seen.ok ? "taken" : problemText(en, seen.problems[0] ?? { code: "other", where: "" }, of);
  };

  test("tells the limit in the unit that is shown", () => {
    setLanguage("en", "latin");
    expect(said("kerbKg", 20, { unit: "kg" })).toBe("At least 80 kg. Check the unit and type it again.");
    expect(said("crr", 0.5, { unit: "kgPerTonne", times: 1000 })).toBe(
      "At most 100 kg a tonne. Check the unit and type it again.",
    );
    expect(said("drive.wheelRadiusM", 0.9, { unit: "cm", times: 100 })).toContain("At most 50 cm.");
  });

  test("names what is meant where the range has a reason", () => {
    expect(said("battery.nominalV", 0, { unit: "volt" })).toBe(
      "A set with nothing in it cannot drive. Read the plate on the set.",
    );
    expect(said("roof.faces.0.tiltDeg", 120, { unit: "degree" })).toContain("would face the ground");
  });
});
