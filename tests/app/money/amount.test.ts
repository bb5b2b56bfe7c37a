import { afterEach, describe, expect, test } from "vitest";
import { setLanguage } from "../../../src/app/words/format.js";
import { dayMonthYear, exactAmount, monthAndYear, roughAmount } from "../../../src/app/words/money/amount.js";

const bare = (text: string) => text.replaceAll("\u2063", "").replaceAll("\u00a0", " ");
afterEach(() => setLanguage("en", "latin"));

describe("amounts in the reader's language", () => {
  test("three figures, gains down and losses up in size", () => {
    setLanguage("en", "latin");
    expect([18_649, 1_234_567, 98_765_432, 8492, 349].map((minor) => bare(roughAmount(minor, "INR", "down")))).toEqual([
      "₹186",
      "₹12,300",
      "₹987,000",
      "₹84",
      "₹3.49",
    ]);
    expect(bare(roughAmount(-18_610, "INR", "down"))).toBe("−₹187");
    expect(bare(roughAmount(0, "INR"))).toMatch(/^₹0/);
  });
  test("to the last coin for currencies of 0, 2 and 3 places (ISO 4217)", () => {
    setLanguage("en", "latin");
    expect([
      bare(exactAmount(1_234_56, "INR")),
      bare(exactAmount(1234, "UGX")),
      bare(exactAmount(-1234, "KWD")),
    ]).toEqual(["₹1,234.56", "UGX 1,234", "−KWD 1.234"]);
  });
  test("own digits and places where the language has them", () => {
    setLanguage("bn", "own");
    expect(bare(exactAmount(123_456, "BDT"))).toContain("১,২৩৪.৫৬");
    expect(monthAndYear("2029-03")).toContain("২০২৯");
    setLanguage("ur", "latin");
    expect(exactAmount(-5, "PKR")).toMatch(/^\u2066−.*\u2069$/);
    setLanguage("es", "latin");
    expect(bare(exactAmount(1_234_567, "EUR"))).toBe("12.345,67 €");
    setLanguage("en", "latin");
    expect([monthAndYear("2029-03"), dayMonthYear("2027-02-10")]).toEqual(["Mar 2029", "10 Feb 2027"]);
  });
});
