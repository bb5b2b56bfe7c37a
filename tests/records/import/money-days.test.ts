import { describe, expect, test } from "vitest";
import { decimalSignOf, latinDigits, numberOf, separatorOf } from "../../../src/records/import/csv.js";
import { type CsvAnswers, dateOf, dateOrderOf, daysOfCsv } from "../../../src/records/import/money-days.js";

const to = { plates: new Map([["07", "v7"]]), currency: "INR" };
const read = (text: string, answers: CsvAnswers = {}, target = to) => {
  const days = daysOfCsv(text, target, answers);
  return days.ok ? days.value : days.problems.map(({ code, where }) => `${code} ${where}`).join();
};
const kmOf = (text: string, answers: CsvAnswers = {}) => {
  const days = read(text, answers);
  return typeof days === "string" ? days : days.entries.map((entry) => entry.km);
};

describe("the decimal sign", () => {
  test("told by the cells where they can tell it", () => {
    expect(decimalSignOf(["12.5", "7"])).toBe("point");
    expect(decimalSignOf(["12,5", "1.234,5"])).toBe("comma");
    expect(decimalSignOf(["1,234.50"])).toBe("point");
    expect(decimalSignOf(["1,23,456"])).toBe("point");
    expect(decimalSignOf(["1.234.567"])).toBe("comma");
    expect(decimalSignOf(["12", "7"])).toBe("either");
    expect(decimalSignOf(["1,234"])).toBe("unclear");
    expect(decimalSignOf(["12.5", "12,5"])).toBe("mixed");
  });
  test("asked for where they cannot, then taken as answered", () => {
    const text = "date;km\n2027-02-10;1,234\n";
    expect(read(text)).toBe("csvDecimalSign lines");
    expect(kmOf(text, { decimalSign: "," })).toEqual([1.234]);
    expect(kmOf("date;odometerKm;km\n2027-02-10;1,234;2\n", { decimalSign: "." })).toEqual([2]);
    expect(read("date;km\n2027-02-10;12,5\n2027-02-11;12.5\n")).toBe("csvDecimalSign lines");
  });
  test("numbers with groups, the Indian way too, and in the digits of the app's languages", () => {
    expect(numberOf("1,23,456.50", ".")).toBe(123456.5);
    expect(numberOf("1.234.567,8", ",")).toBe(1234567.8);
    expect(numberOf("12 345,6", ",")).toBe(12345.6);
    expect([numberOf("४८.५", "."), numberOf("৬০", "."), numberOf("۶۰٫۵", "."), numberOf("−3.5", ".")]).toEqual([
      48.5, 60, 60.5, -3.5,
    ]);
    expect(latinDigits("٣٤")).toBe("34");
    for (const bad of ["", "-", "12,34", "1,2,3", "12a", "1.2.3", "..", "1e5", "0x10", "NaN"])
      expect(numberOf(bad, "."), bad).toBeNull();
  });
});

describe("days of a table", () => {
  test("columns by name in any order, others left out, money to the coin", () => {
    const days = read("paid,vehicle,km,date,note\n120.50,07,48.5,2027-02-10,x\n");
    expect(days).toMatchObject({ problems: [], form: { separator: ",", decimalSign: "." } });
    expect(typeof days !== "string" && days.entries[0]).toMatchObject({
      id: "v7/2027-02-10/1",
      vehicleId: "v7",
      date: "2027-02-10",
      km: 48.5,
      paidMinor: 12_050,
      gridKwh: null,
    });
  });
  test("an empty cell is not known, a nought is a nought", () => {
    const days = read("date,km,gridKwh\n2027-02-10,,0\n");
    expect(typeof days !== "string" && days.entries[0]).toMatchObject({ km: null, gridKwh: 0 });
  });
  test("the order of day and month is asked for when it cannot be told", () => {
    expect(dateOrderOf(["03/04/2027", "05/06/2027"])).toBeNull();
    expect(dateOrderOf(["03/04/2027", "25/06/2027"])).toBe("dayFirst");
    expect(dateOrderOf(["03/25/2027"])).toBe("monthFirst");
    expect(read("date,km\n03/04/2027,5\n")).toBe("csvDateOrder lines");
    expect([dateOf("3/4/27", "dayFirst"), dateOf("3/4/27", "monthFirst"), dateOf("31.2.2027", "dayFirst")]).toEqual([
      "2027-04-03",
      "2027-03-04",
      null,
    ]);
  });
  test("columns that cannot be told are asked for", () => {
    expect(read("day,km\n2027-02-10,5\n")).toBe("csvColumns lines.1");
    expect(kmOf("day,how far\n2027-02-10,5\n", { columns: ["date", "km"] })).toEqual([5]);
    const two = {
      ...to,
      plates: new Map([
        ["07", "v7"],
        ["08", "v8"],
      ]),
    };
    expect(read("date,km\n2027-02-10,5\n", {}, two)).toBe("csvColumns lines.1");
  });
  test("bad rows are left out and named by line and column; good ones come in", () => {
    const days = read(
      "date,vehicle,km,paid\n2027-02-10,07,5,\n2027-02-30,07,5,\n2027-02-11,99,5,\n2027-02-12,07,many,\n2027-02-13,07,5,1.005\n2027-02-14,07,5000,\n2027-02-10,07,6,\n",
      { decimalSign: "." },
    );
    if (typeof days === "string") throw new Error(days);
    expect(days.entries.map(({ date }) => date)).toEqual(["2027-02-10"]);
    expect(days.problems.map(({ code, where }) => `${code} ${where}`)).toEqual([
      "badDate lines.3.date",
      "vehicleUnknown lines.4.vehicle",
      "badNumber lines.5.km",
      "tooFine lines.6.paid",
      "tooBig lines.7.km",
      "dayTwice lines.8",
    ]);
  });
  test("the separator is found, also when cells hold the others in quotes", () => {
    expect(separatorOf("date;km\n2027-02-10;12,5")).toBe(";");
    expect(separatorOf("date\tkm\n2027-02-10\t12,5")).toBe("\t");
    expect(separatorOf('date,note,km\n2027-02-10,"a;b;c",5')).toBe(",");
  });
  test("money without coins in a currency of none: 120.5 yen is too fine, 120 is 120", () => {
    const yen = { ...to, currency: "JPY" };
    expect(read("date,paid\n2027-02-10,120\n", {}, yen)).toMatchObject({ entries: [{ paidMinor: 120 }] });
    expect(read("date,paid\n2027-02-10,120.5\n", {}, yen)).toMatchObject({ problems: [{ code: "tooFine" }] });
    expect(read("date,paid\n2027-02-10,1\n", {}, { ...to, currency: "XYZ" })).toMatchObject({
      problems: [{ code: "currencyUnknown" }],
    });
  });
});
