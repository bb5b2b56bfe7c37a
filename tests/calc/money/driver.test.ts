import { describe, expect, test } from "vitest";
import { type AccountLine, driverAccounts, leaseState, leftAtNight } from "../../../src/calc/money/index.js";

let written = 0;
const line = (
  id: string,
  kind: AccountLine["kind"],
  amountMinor: number,
  more: Partial<AccountLine> = {},
): AccountLine => ({
  id,
  date: "2027-02-10",
  kind,
  amountMinor,
  currency: "INR",
  corrects: null,
  writtenUtcMs: written++,
  ...more,
});

describe("a driver's account", () => {
  const lines = [
    line("in", "depositIn", 200_000, { date: "2027-02-01" }),
    line("r1", "rent", 35_000),
    line("e1", "energy", 12_000),
    line("p1", "payment", 40_000),
    line("r2", "rent", 35_000, { date: "2027-02-11" }),
  ];
  test("balance after each line; the deposit is kept apart", () => {
    const [account] = driverAccounts(lines).accounts;
    expect(account?.rows.map((row) => row.owedMinor)).toEqual([0, 35_000, 47_000, 7000, 42_000]);
    expect([account?.owedMinor, account?.depositMinor]).toEqual([42_000, 200_000]);
  });
  test("a correction changes what counts and stays beside what was written; corrections may be corrected", () => {
    const once = line("c1", "payment", 45_000, { corrects: "p1", date: "2027-02-12" });
    const again = line("c2", "payment", 44_000, { corrects: "c1", date: "2027-02-13" });
    const [account] = driverAccounts([...lines, again, once]).accounts;
    const row = account?.rows.find((each) => each.line.id === "p1");
    expect(row).toMatchObject({ amountMinor: 44_000, correctedBy: ["c1", "c2"], owedMinor: 3000 });
    expect(row?.line.amountMinor).toBe(40_000);
    expect(account?.rows.length).toBe(5);
  });
  test("nothing strikes a line out but a correction to 0", () => {
    const struck = driverAccounts([...lines, line("c", "rent", 0, { corrects: "r2" })]);
    expect(struck.accounts[0]?.owedMinor).toBe(7000);
  });
  test("corrections of nothing, of another kind, and rings are told and count for nothing", () => {
    const wrong = [
      line("x", "payment", 1, { corrects: "gone" }),
      line("y", "rent", 1, { corrects: "p1" }),
      line("u", "payment", 1, { corrects: "v" }),
      line("v", "payment", 1, { corrects: "u" }),
    ];
    const { accounts, problems } = driverAccounts([...lines, ...wrong]);
    expect(problems.map(({ code, where }) => `${code} ${where}`)).toEqual([
      "correctsNothing lines.x",
      "correctsOtherKind lines.y",
      "correctsNothing lines.u",
      "correctsNothing lines.v",
    ]);
    expect(accounts[0]?.owedMinor).toBe(42_000);
  });
  test("more deposit given back than was given is told; two currencies are two accounts", () => {
    const { problems } = driverAccounts([...lines, line("back", "depositBack", 300_000, { date: "2027-03-01" })]);
    expect(problems).toEqual([{ code: "depositNegative", where: "lines.back", figures: { minor: -100_000 } }]);
    expect(
      driverAccounts([...lines, line("k", "rent", 5, { currency: "KES" })]).accounts.map((a) => a.currency),
    ).toEqual(["INR", "KES"]);
  });
});

test("what is left at night: 1,300 of 1,800 gone in rent, charge and payments (field notes of a Dhaka driver), the set apart", () => {
  const night = leftAtNight({
    takingsMinor: 180_000,
    rentMinor: 50_000,
    energyMinor: 30_000,
    instalmentMinor: 50_000,
    otherMinor: 0,
    km: 60,
    setAsidePerKm: 200,
  });
  expect(night).toEqual({ leftMinor: 50_000, setAsideMinor: 12_000, ownMinor: 38_000 });
});

describe("a lease with a ceiling of 3,000 km a month", () => {
  const terms = { ceilingKm: 3000, excessPerKmMinor: 250 };
  const period = (today: string) => ({ from: "2027-03-01", to: "2027-03-31", today });
  const days = (count: number, km: number) =>
    new Map(Array.from({ length: count }, (_, i) => [`2027-03-${String(i + 1).padStart(2, "0")}`, km] as const));
  test("90 km a day keeps within it, 100 km a day is warned of on the tenth, with the day it is reached and the cost", () => {
    expect(leaseState(terms, period("2027-03-10"), days(10, 90))).toMatchObject({
      code: "fine",
      kmAtEnd: 2790,
      reachedOn: null,
    });
    expect(leaseState(terms, period("2027-03-10"), days(10, 100))).toMatchObject({
      code: "warn",
      kmSoFar: 1000,
      kmAtEnd: 3100,
      reachedOn: "2027-03-30",
      excessMinor: 25_000,
    });
  });
  test("past it, it is over; the km a day that are left are none", () => {
    expect(leaseState(terms, period("2027-03-29"), days(29, 110))).toMatchObject({ code: "over", kmPerDayLeft: 0 });
  });
  test("days without an entry go at the pace of the others, and are counted", () => {
    expect(leaseState(terms, period("2027-03-10"), days(5, 100))).toMatchObject({ kmSoFar: 1000, missingDays: 5 });
    expect(leaseState(terms, period("2027-03-10"), new Map())).toMatchObject({
      code: "fine",
      kmSoFar: 0,
      missingDays: 10,
    });
  });
  test("an unknown price of the excess stays unknown", () => {
    expect(
      leaseState({ ...terms, excessPerKmMinor: null }, period("2027-03-10"), days(10, 100)).excessMinor,
    ).toBeNull();
  });
});
