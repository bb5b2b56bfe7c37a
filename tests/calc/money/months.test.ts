import { describe, expect, test } from "vitest";
import {
  addSums,
  allIn,
  always,
  type DayLog,
  dateOfDay,
  dayLine,
  dayLines,
  dayNumber,
  energyOnly,
  equalShareOf,
  type FixedCost,
  fillMissing,
  fleetByMonth,
  fleetByVehicle,
  fleetTotal,
  loanCosts,
  loanPlan,
  type MonthPack,
  monthlyCosts,
  monthPack,
  nextMonth,
  onePerDay,
  packOf,
  replaceDay,
  SUM_FIELDS,
  type Sums,
  shareAmong,
  type Terms,
} from "../../../src/calc/money/index.js";
import { type Dice, diceOf } from "../../../src/units/dice.js";
import { day, terms } from "./fixture.js";

function randomDay(dice: Dice, date: string): DayLog {
  const pick = dice();
  if (pick < 0.08) return { ...day, date, state: "missing", km: null, charges: null, sun: null };
  if (pick < 0.12) return { ...day, date, state: "offRoad", km: null, charges: null, sun: null };
  const how = (["odometer", "typed", "trips"] as const)[Math.floor(dice() * 3)] ?? "typed";
  return {
    date,
    state: "worked",
    km: pick < 0.16 ? null : Math.round(dice() * 1200) / 10,
    kmHow: how,
    charges: [
      {
        kwh: dice() * 12,
        kwhHow: dice() < 0.5 ? "meter" : "estimated",
        fromMinute: dice() < 0.7 ? Math.floor(dice() * 1440) : null,
        toMinute: Math.floor(dice() * 1440),
        paidMinor: dice() < 0.2 ? Math.floor(dice() * 20_000) : null,
      },
    ],
    sun: dice() < 0.5 ? { kwh: dice() * 2, how: dice() < 0.3 ? "measured" : "estimated" } : null,
  };
}

const fixedOf = (dice: Dice): readonly FixedCost[] => {
  const plan = loanPlan({
    principalMinor: 5_000_000 + Math.floor(dice() * 1e6),
    ratePerYear: dice() * 0.3,
    payments: 30,
    every: "month",
    startDate: "2026-01-17",
    firstDue: "2026-02-17",
    method: "reducing",
    feeMinor: 0,
    instalmentMinor: null,
  });
  if (!plan.ok) throw new Error("no plan");
  const rent = { kind: "rent", amountMinor: 31_337, currency: "INR", from: "2026-01-05" } as const;
  const insurance = {
    kind: "insurance",
    amountMinor: 700_001,
    currency: "INR",
    from: "2026-03-01",
    to: "2027-02-28",
  } as const;
  return [...loanCosts(plan.value, "2026-01-17", "INR"), ...monthlyCosts(rent, "2028-12-31"), insurance];
};

describe("1,000 random days of three vehicles", () => {
  const dice = diceOf(2027);
  const [from, days] = ["2026-01-10", 1000];
  const to = dateOfDay(dayNumber(from) + days - 1);
  const fleet = ["a", "b", "c"].map((id) => {
    const own: Terms = { ...terms, fixed: fixedOf(dice) };
    const logs = Array.from({ length: days }, (_, i) => randomDay(dice, dateOfDay(dayNumber(from) + i)));
    const lines = dayLines(logs, own, from, to);
    const months = [...new Set(lines.map((line) => line.date.slice(0, 7)))];
    const packs = months.map((month) =>
      packOf(
        id,
        month,
        lines.filter((line) => line.date.startsWith(month)),
      ),
    );
    return { id, own, logs, lines, packs };
  });
  const packs = fleet.flatMap((each) => each.packs);
  const lines = fleet.flatMap((each) => each.lines);

  test("day lines add up to months, vehicles and the fleet, in every field, to the last coin", () => {
    const whole = addSums(lines.map((line) => line.sums));
    const [total] = fleetTotal(packs);
    expect(total?.sums).toEqual(whole);
    expect(addSums(fleetByMonth(packs).map((row) => row.sums))).toEqual(whole);
    expect(addSums(fleetByVehicle(packs).map((row) => row.sums))).toEqual(whole);
    expect(fleetByMonth(packs).reduce((sum, row) => sum + row.allIn, 0)).toBe(allIn(whole));
    expect(lines.reduce((sum, line) => sum + energyOnly(line.sums), 0)).toBe(energyOnly(whole));
    expect(whole.days).toBe(3000);
    expect(whole.countedDays).toBeGreaterThan(2000);
  });
  test("every amount is a whole number of coins, and low <= likely <= high on every line", () => {
    for (const { sums } of lines) {
      expect(SUM_FIELDS.every((field) => Number.isSafeInteger(sums[field]))).toBe(true);
      expect(sums.energyLow).toBeLessThanOrEqual(energyOnly(sums));
      expect(sums.energyHigh).toBeGreaterThanOrEqual(energyOnly(sums));
      expect(sums.allInLow).toBeLessThanOrEqual(allIn(sums));
      expect(sums.allInHigh).toBeGreaterThanOrEqual(allIn(sums));
    }
  });
  test("every day is worked, rest, off the road or missing, and each written one counted or open", () => {
    const { sums } = fleetTotal(packs)[0] ?? { sums: addSums([]) };
    expect(sums.workedDays + sums.restDays + sums.offRoadDays + sums.missingDays).toBe(sums.days);
    expect(sums.countedDays + sums.openDays + sums.missingDays).toBe(sums.days);
  });
  test("instalments, rent and insurance that end within the days are spread without a coin lost", () => {
    for (const { own, lines: own3 } of fleet) {
      const inside = own.fixed.filter((cost) => cost.from >= from && cost.to <= to);
      const whole = inside
        .filter((cost) => cost.kind === "instalment")
        .reduce((sum, cost) => sum + cost.amountMinor, 0);
      expect(addSums(own3.map((line) => line.sums)).instalment).toBe(whole);
    }
  });
  test("a pack built from the log alone is the same pack", () => {
    const [first] = fleet;
    if (!first) throw new Error("no fleet");
    expect(monthPack("a", first.logs, first.own, { month: "2026-05" })).toEqual(
      first.packs.find((pack) => pack.month === "2026-05"),
    );
  });
  test("one day written anew changes its pack as if the month were worked out from the start", () => {
    const [first] = fleet;
    if (!first) throw new Error("no fleet");
    for (const [i, old] of first.lines.entries()) {
      if (i % 97 !== 0) continue;
      const month = old.date.slice(0, 7);
      const pack = first.packs.find((each) => each.month === month) as MonthPack;
      const line = dayLine(randomDay(dice, old.date), first.own);
      const again = first.lines
        .filter((each) => each.date.startsWith(month))
        .map((each) => (each === old ? line : each));
      expect(replaceDay(pack, old, line)).toEqual(packOf("a", month, again));
    }
  });
});

describe("a change of currency in the middle of the year", () => {
  const two: Terms = {
    ...terms,
    currency: [...always("INR"), { from: "2027-02-15", value: "USD" }],
    fuelPrice: {
      diesel: [
        ...always({ perUnitMinor: 9000, currency: "INR" }),
        { from: "2027-02-15", value: { perUnitMinor: 108, currency: "USD" } },
      ],
    },
    set: [],
    upkeepNow: [],
  };
  const logs = Array.from({ length: 28 }, (_, i) => ({ ...day, date: dateOfDay(dayNumber("2027-02-01") + i) }));
  test("the two are added up apart, and a price left in the old one is a gap", () => {
    const pack = monthPack("a", logs, two, { month: "2027-02" });
    expect(pack.byCurrency.map(({ currency, sums }) => [currency, sums.days, sums.countedDays, sums.openDays])).toEqual(
      [
        ["INR", 14, 14, 0],
        ["USD", 14, 0, 14],
      ],
    );
    expect(dayLine({ ...day, date: "2027-02-15" }, two).gaps).toEqual(["otherCurrency"]);
    expect(fleetTotal([pack]).map((row) => row.currency)).toEqual(["INR", "USD"]);
  });
});

describe("days twice and days missing", () => {
  test("the same day written alike counts once, written differently not at all until one is picked", () => {
    const alike = onePerDay([day, { ...day }]);
    expect([alike.logs.length, alike.problems]).toEqual([1, []]);
    const { logs, problems } = onePerDay([day, { ...day, km: 61 }, { ...day, km: 62 }]);
    expect(problems).toEqual([{ code: "dayTwice", where: "days.2027-02-10", figures: { times: 3 } }]);
    expect(logs.map((log) => dayLine(log, terms).counted)).toEqual([false]);
  });
  const month = Array.from({ length: 28 }, (_, i) => ({ ...day, date: dateOfDay(dayNumber("2027-02-01") + i) }));
  test("a day nobody wrote stays missing, is filled only when asked, and then says so", () => {
    const gappy = month.filter((_, i) => i !== 9);
    expect(monthPack("a", gappy, terms, { month: "2027-02" }).byCurrency[0]?.sums).toMatchObject({
      missingDays: 1,
      countedDays: 27,
      filledDays: 0,
    });
    const filled = fillMissing(gappy, "2027-02-01", "2027-02-28");
    if (!filled.ok) throw new Error("not filled");
    const tenth = filled.value[9];
    expect(tenth).toMatchObject({ km: 60, kmHow: "filled", filled: true, charges: [{ kwh: 6, kwhHow: "estimated" }] });
    expect(monthPack("a", filled.value, terms, { month: "2027-02" }).byCurrency[0]?.sums).toMatchObject({
      missingDays: 0,
      countedDays: 28,
      filledDays: 1,
    });
  });
  test("money paid is filled as money where units were never read", () => {
    const paid = month.map((log) => ({
      ...log,
      charges: [{ kwh: null, kwhHow: "meter", fromMinute: null, toMinute: null, paidMinor: 10_000 }] as const,
    }));
    const filled = fillMissing(paid.slice(1), "2027-02-01", "2027-02-28");
    expect(filled.ok && filled.value[0]?.charges?.[0]?.paidMinor).toBe(10_000);
  });
  test("with fewer than ten known days nothing is filled", () => {
    expect(fillMissing(month.slice(0, 9), "2027-02-01", "2027-02-28")).toEqual({
      ok: false,
      problems: [{ code: "tooFewDays", where: "days", figures: { days: 9, needed: 10 } }],
    });
  });
  test("today is not missing before it is over, nor a day before the vehicle came", () => {
    const span = { month: "2027-02", since: "2027-02-05", until: "2027-02-10" };
    expect(monthPack("a", [], terms, span).byCurrency[0]?.sums.missingDays).toBe(6);
  });
});

test("adding up leaves no field out", () => {
  const counted = (from: number) =>
    Object.fromEntries(SUM_FIELDS.map((field, i) => [field, from * (i + 1)])) as unknown as Sums;
  expect(addSums([counted(1), counted(10), counted(100)])).toEqual(counted(111));
  expect(SUM_FIELDS.length).toBeGreaterThan(30);
});

test("a bill of the yard is shared among its vehicles by weight without a coin lost", () => {
  const bill = { kind: "rent", amountMinor: 1_000_001, currency: "INR", from: "2027-02-01", to: "2027-02-28" } as const;
  const shares = shareAmong(bill, [3, 3, 1]);
  expect(shares.reduce((sum, share) => sum + share.amountMinor, 0)).toBe(1_000_001);
  expect(shares.map((share) => share.amountMinor)).toEqual([428_572, 428_572, 142_857]);
});

test("monthly costs run on from their day, end with the contract and keep their day of the month", () => {
  const rent = { kind: "rent", amountMinor: 100, currency: "INR", from: "2027-01-31" } as const;
  expect(monthlyCosts(rent, "2027-04-02").map(({ from, to }) => [from, to])).toEqual([
    ["2027-01-31", "2027-02-27"],
    ["2027-02-28", "2027-03-30"],
    ["2027-03-31", "2027-04-29"],
  ]);
  expect(monthlyCosts(rent, "2028-01-01", "2027-02-27").length).toBe(1);
  expect(monthlyCosts(rent, "2027-01-30")).toEqual([]);
  expect(nextMonth("2027-12")).toBe("2028-01");
});

test("one vehicle's equal share of a bill is the one that sharing among all gives", () => {
  for (const amountMinor of [0, 1, 7, 1_000_003, -1_000_003])
    for (const among of [1, 2, 3, 7, 1012]) {
      const bill = { kind: "rent", amountMinor, currency: "INR", from: "2026-01-01", to: "2026-01-31" } as const;
      const shares = shareAmong(
        bill,
        Array.from({ length: among }, () => 1),
      );
      for (const place of [0, among >> 1, among - 1])
        expect(equalShareOf(bill, among, place).amountMinor + 0).toBe((shares[place]?.amountMinor ?? Number.NaN) + 0);
    }
});
