import { addDays, differenceInCalendarDays, formatISO } from "date-fns";
import { expect, test } from "vitest";
import { normalQuantile, normalShare } from "../../src/units/dice.js";
import { civilDate, daysBetween, isCivilDate, isZone, plusDays, utcMsAt } from "../../src/units/zone.js";

test("nights of 23 and 25 hours have their true length", () => {
  const length = (from: string, to: string) =>
    (utcMsAt(to, 6 * 60, "Europe/Berlin") - utcMsAt(from, 22 * 60, "Europe/Berlin")) / 60_000;
  expect(length("2026-03-28", "2026-03-29")).toBe(420);
  expect(length("2026-10-24", "2026-10-25")).toBe(540);
});

test("the earlier of a repeated hour, and forward over a skipped one", () => {
  expect(new Date(utcMsAt("2026-10-25", 150, "Europe/Berlin")).toISOString()).toBe("2026-10-25T00:30:00.000Z");
  expect(new Date(utcMsAt("2026-03-29", 150, "Europe/Berlin")).toISOString()).toBe("2026-03-29T01:30:00.000Z");
});

test("days count on the calendar, not in hours", () => {
  expect(plusDays("2026-03-28", 2)).toBe("2026-03-30");
  expect(daysBetween("2026-10-24", "2026-10-26")).toBe(2);
  expect(civilDate(utcMsAt("2027-02-10", 0, "Asia/Kathmandu"), "Asia/Kathmandu")).toBe("2027-02-10");
  expect(isCivilDate("2027-02-30")).toBe(false);
  expect(isZone("Nowhere/Atall")).toBe(false);
});

test("calendar days agree with the library date-fns, over leap years, ends of years and clock changes", () => {
  const local = (date: string) => new Date(`${date}T12:00:00`);
  for (const from of ["2027-02-10", "2028-02-28", "2027-12-31", "2100-02-28", "2026-03-28", "2026-10-24", "1999-12-31"])
    for (const days of [-400, -366, -31, -1, 0, 1, 2, 29, 365, 1461]) {
      const to = formatISO(addDays(local(from), days), { representation: "date" });
      expect(plusDays(from, days)).toBe(to);
      expect(daysBetween(from, to)).toBe(differenceInCalendarDays(local(to), local(from)));
    }
});

test("normal quantiles, printed to six places in Abramowitz and Stegun table 26.5", () => {
  expect(normalQuantile(0.9)).toBeCloseTo(1.281552, 6);
  expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
  expect(normalQuantile(0.01)).toBeCloseTo(-2.326348, 6);
  expect(normalShare(1)).toBeCloseTo(0.841345, 6);
});
