import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { allIn, dayLines, fleetByMonth, monthPack } from "../../../src/calc/money/index.js";
import { COMMA_FORM, csvText, decimalOfMilli, decimalOfMinor } from "../../../src/records/export/csv.js";
import { dayLinesCsv, moneyRowsCsv } from "../../../src/records/export/money-csv.js";
import { csvRows, numberOf } from "../../../src/records/import/csv.js";
import { day, terms } from "../../calc/money/fixture.js";

const rowsOf = (text: string, separator = ",") => {
  const read = csvRows(text, separator);
  if (!read.ok) throw new Error(read.problems[0]?.code);
  return read.value;
};

describe("tables in the form of RFC 4180", () => {
  test("section 2, rules 1 to 7: CRLF, optional last CRLF, quotes, breaks and doubled quotes in cells", () => {
    expect(rowsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(rowsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(rowsOf('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(rowsOf('"aaa","b""bb","ccc"')).toEqual([["aaa", 'b"bb', "ccc"]]);
  });
  test("what is written is read back, whatever stands in the cells", () => {
    const cell = fc.string({ unit: "grapheme" }).filter((text) => !/^[=@+\t\r-]/.test(text));
    const rows = fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(rows, fc.constantFrom(",", ";", "\t"), (table, separator) => {
        expect(rowsOf(csvText(table, separator), separator)).toEqual(table);
      }),
      { seed: 77, numRuns: 300 },
    );
  });
  test("a quote never closed, or closed in the middle of a cell, is named by its line", () => {
    expect(csvRows('a,b\n"c,d', ",")).toEqual({ ok: false, problems: [{ code: "csvQuote", where: "lines.2" }] });
    expect(csvRows('a,b\n\n"c"x,d', ",")).toEqual({ ok: false, problems: [{ code: "csvQuote", where: "lines.3" }] });
  });
  test("a byte-order mark, bare LF and empty lines are passed over", () => {
    expect(rowsOf("\ufeffa,b\n\n1,2\n")).toEqual([
      ["a", "b"],
      ["1", "2"],
    ]);
  });
  test("a cell that a spreadsheet would run is made plain text, a negative number is left alone", () => {
    expect(csvText([["=1+1", "@x", "-12.50", "+a", "-", "-1,5"]], ";")).toBe("'=1+1;'@x;-12.50;'+a;'-;-1,5\r\n");
  });
});

test("coins as decimals, for currencies of 0, 2 and 3 places, and back", () => {
  expect([
    decimalOfMinor(-5, 2, "."),
    decimalOfMinor(123_456, 2, ","),
    decimalOfMinor(70, 0, "."),
    decimalOfMinor(7, 3, "."),
  ]).toEqual(["-0.05", "1234,56", "70", "0.007"]);
  expect(decimalOfMilli(48_250, ".")).toBe("48.250");
  fc.assert(
    fc.property(
      fc.integer({ min: -1e12, max: 1e12 }),
      fc.constantFrom(0, 2, 3),
      fc.constantFrom(".", ","),
      (minor, places, sign) => {
        expect(Math.round((numberOf(decimalOfMinor(minor, places, sign), sign) as number) * 10 ** places)).toBe(
          minor + 0,
        );
      },
    ),
    { seed: 78, numRuns: 300 },
  );
});

describe("the day lines as a table", () => {
  const logs = Array.from({ length: 28 }, (_, i) => ({
    ...day,
    date: `2027-02-${String(i + 1).padStart(2, "0")}`,
    km: 50 + i,
  }));
  const lines = dayLines(logs.slice(1), terms, "2027-02-01", "2027-02-28");
  const rows = rowsOf(dayLinesCsv([{ plate: "07", lines }], COMMA_FORM), ";");
  const column = (head: string) => rows.slice(1).map((row) => row[rows[0]?.indexOf(head) ?? -1] ?? "");
  test("a reader who adds up the printed all-in column gets the month's figure to the last coin", () => {
    const minor = column("savedAllIn").map((cell) => Math.round((numberOf(cell, ",") ?? 0) * 100));
    const pack = monthPack("07", logs.slice(1), terms, { month: "2027-02" });
    const [month] = fleetByMonth([pack]);
    expect(minor.reduce((sum, value) => sum + value, 0)).toBe(month?.allIn);
    expect(rowsOf(moneyRowsCsv("month", [month as NonNullable<typeof month>]))[1]?.[0]).toBe("2027-02");
  });
  test("each row closes: fuel, upkeep, power, set and fixed costs make the two lines", () => {
    for (const row of rows.slice(2)) {
      const value = (head: string) => Math.round((numberOf(row[rows[0]?.indexOf(head) ?? -1] ?? "", ",") ?? 0) * 100);
      expect(value("savedEnergyOnly")).toBe(value("fuelThen") - value("powerNow"));
      const fixed = value("instalment") + value("rent") + value("insurance") + value("otherFixed");
      expect(value("savedAllIn")).toBe(
        value("savedEnergyOnly") + value("upkeepThen") - value("upkeepNow") - value("setAside") - fixed,
      );
    }
  });
  test("a missing day has empty cells and not noughts, and is named so", () => {
    expect(rows[1]?.slice(0, 7)).toEqual(["2027-02-01", "07", "missing", "no", "no", "INR", ""]);
    expect(column("savedAllIn")[0]).toBe("");
  });
  test("estimated units stand apart from read ones", () => {
    expect(column("sunKwhOfThatEstimated")[1]).toBe("1,200");
    expect(column("gridKwhOfThatEstimated")[1]).toBe("0,000");
    expect(allIn(lines[1]?.sums ?? lines[0]?.sums ?? (undefined as never))).not.toBe(0);
  });
});
