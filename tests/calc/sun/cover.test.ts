import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type CoverEntry,
  cloudFactor,
  coverAround,
  coverDay,
  coverEdges,
  coverNormal,
  coverOf,
  oktaAt,
  SKY_CHANCES,
  type SkyWord,
} from "../../../src/calc/sun/index.js";
import { diceOf, normalQuantile } from "../../../src/units/dice.js";

const WORDS: readonly SkyWord[] = ["bright", "mixed", "dark"];
/** Share of a clear day by class of mean cover: KNMI De Bilt daily series 2012 to 2021, 3,653 days. */
const MEASURED = { bright: 0.89, mixed: 0.64, dark: 0.37 };
const meanFactor = (chances: readonly number[]) =>
  chances.reduce((sum, chance, okta) => sum + chance * cloudFactor(okta), 0);
const meanOkta = (chances: readonly number[]) => chances.reduce((sum, chance, okta) => sum + chance * okta, 0);
const nothing = { entry: null, usual: null, yesterday: null };

describe("words for the sky", () => {
  test("bring the measured share of a clear day, as distributions and not as one value", () => {
    for (const word of WORDS) {
      expect(meanFactor(SKY_CHANCES[word])).toBeCloseTo(MEASURED[word], 3);
      expect(SKY_CHANCES[word].filter((chance) => chance > 0.02).length).toBeGreaterThan(3);
    }
    const modes = WORDS.map((word) => SKY_CHANCES[word].indexOf(Math.max(...SKY_CHANCES[word])));
    expect(modes[0]).toBeLessThanOrEqual(2);
    expect(modes[2]).toBeGreaterThanOrEqual(7);
  });

  test("drawn for whole days they scatter as measured: 32.5 % of the mean daily sun when only the word is known", () => {
    const dice = diceOf(7);
    const normal = () => normalQuantile(dice());
    const sun = Array.from({ length: 12 }, (_, h) => Math.sin((Math.PI * (h + 0.5)) / 12));
    const whole = sun.reduce((a, b) => a + b, 0);
    const daysOf = { bright: 0.18, mixed: 0.42, dark: 0.4 }; // a maritime year at 52 N, from memory
    let squares = 0;
    let mean = 0;
    for (const word of WORDS) {
      const edges = coverEdges(coverOf(SKY_CHANCES[word]));
      let errors = 0;
      for (let n = 0; n < 4000; n++) {
        const day = normal();
        const share =
          sun.reduce((sum, w) => sum + w * cloudFactor(oktaAt(edges, coverNormal(day, normal()))), 0) / whole;
        errors += (share - MEASURED[word]) ** 2;
      }
      squares += (daysOf[word] * errors) / 4000;
      mean += daysOf[word] * MEASURED[word];
    }
    expect(Math.abs(Math.sqrt(squares) / mean - 0.325)).toBeLessThan(0.015);
  });
});

describe("a cover hour", () => {
  test("is a quantile function: rises with its rank, whole oktas, and gives each cover its chance", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 9, maxLength: 9 }), (weights) => {
        const hour = coverOf(weights);
        const edges = coverEdges(hour);
        const drawn = Array.from({ length: 2000 }, (_, i) => oktaAt(edges, normalQuantile((i + 0.5) / 2000)));
        expect(drawn).toEqual([...drawn].sort((a, b) => a - b));
        expect(hour.chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
        for (let okta = 0; okta <= 8; okta++) {
          const share = drawn.filter((each) => each === okta).length / drawn.length;
          expect(Math.abs(share - (hour.chances[okta] ?? 0))).toBeLessThan(0.001);
        }
      }),
      { seed: 20_270_210, numRuns: 100 },
    );
  });
  test("ranks at the ends stay within what is possible", () => {
    const edges = coverEdges(coverOf([0, 0, 1, 1, 0, 0, 0, 0, 0]));
    expect([-1e9, -0.001, 0.001, 1e9].map((normal) => oktaAt(edges, normal))).toEqual([2, 2, 3, 3]);
  });
  test("typed oktas spread around what was typed; a thin veil counts half", () => {
    expect(meanOkta(coverAround(4, false).chances)).toBeCloseTo(4, 6);
    expect(meanOkta(coverAround(8, true).chances)).toBeCloseTo(4, 6);
    expect(meanOkta(coverAround(0, false).chances)).toBeGreaterThan(0.5);
    expect(meanOkta(coverAround(8, false).chances)).toBeGreaterThan(6.5);
  });
});

describe("the cloud of tomorrow", () => {
  const mean = (entry: CoverEntry, hour = 12) => meanFactor(coverDay({ ...nothing, entry }).hours[hour]?.chances ?? []);

  test("an entry counts, by word, by part of the day or by hour", () => {
    for (const word of WORDS) expect(mean({ kind: "three", value: word })).toBeCloseTo(MEASURED[word], 3);
    const parts: CoverEntry = { kind: "parts", values: ["dark", "mixed", "bright"] };
    expect([8, 12, 16].map((hour) => mean(parts, hour)).map((share) => share.toFixed(2))).toEqual([
      "0.37",
      "0.64",
      "0.89",
    ]);
    const oktas = Array.from({ length: 24 }, (_, h) => (h < 12 ? 1 : 7));
    const hours: CoverEntry = { kind: "hours", oktas, thin: new Array<boolean>(24).fill(false) };
    expect(mean(hours, 9)).toBeGreaterThan(mean(hours, 15) + 0.3);
    expect(coverDay({ ...nothing, entry: hours }).hours).toHaveLength(24);
  });

  test("no entry is never silently clear: the usual sky, with a third of yesterday in it", () => {
    const usual = { bright: 6, mixed: 3, dark: 1 };
    const share = (yesterday: SkyWord | null) =>
      meanFactor(coverDay({ entry: null, usual, yesterday }).hours[12]?.chances ?? []);
    const alone = 0.6 * 0.89 + 0.3 * 0.64 + 0.1 * 0.37;
    expect(share(null)).toBeCloseTo(alone, 3);
    expect(share("dark")).toBeCloseTo(0.67 * alone + 0.33 * 0.37, 3); // the mix of D. Yang (2019), measured best at De Bilt
    const unknown = coverDay(nothing);
    expect(unknown.from).toBe("nothing");
    expect(meanFactor(unknown.hours[12]?.chances ?? [])).toBeCloseTo((0.89 + 0.64 + 0.37) / 3, 3);
    const edges = coverEdges(unknown.hours[12] ?? coverOf([]));
    expect([-1.645, 1.645].map((normal) => oktaAt(edges, normal))).toEqual([0, 8]); // 5 and 95 % of a normal
  });

  test("says where it comes from", () => {
    expect(coverDay({ ...nothing, entry: { kind: "three", value: "mixed" } }).from).toBe("entry");
    expect(coverDay({ ...nothing, usual: { bright: 1, mixed: 1, dark: 1 } }).from).toBe("usual");
    expect(coverDay({ ...nothing, yesterday: "dark" }).from).toBe("yesterday");
  });

  test("a usual sky of nothing is held to be unknown, not clear", () => {
    const empty = coverDay({ ...nothing, usual: { bright: 0, mixed: 0, dark: 0 } });
    expect(meanFactor(empty.hours[0]?.chances ?? [])).toBeCloseTo((0.89 + 0.64 + 0.37) / 3, 3);
  });
});
