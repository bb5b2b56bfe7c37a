import { describe, expect, test } from "vitest";
import { type Book, listed } from "../../../src/app/fleet.js";
import { lineOf } from "../../../src/app/screens/money/account-model.js";
import { dayShown, spokenDay, twoDays } from "../../../src/app/screens/money/day-model.js";
import { fairOf } from "../../../src/app/screens/money/facts-model.js";
import {
  type At,
  FIELDS,
  type FieldName,
  GROUPS,
  type Group,
  toAsk,
  type Values,
} from "../../../src/app/screens/money/figures-model.js";
import {
  gapsOf,
  linesOfMonth,
  monthOfBooks,
  monthsOfBooks,
  packsOf,
  partsOf,
} from "../../../src/app/screens/money/month-model.js";
import { shownMonths, turnsOf, worthOfKit } from "../../../src/app/screens/money/payback-model.js";
import { oneAtATime } from "../../../src/app/screens/money/turns.js";
import { type AccountRow, addSums, allIn, yearMoney } from "../../../src/calc/money/index.js";
import { demoFleets } from "../../../src/records/demo/index.js";
import {
  type FixedCostRecord,
  type KindName,
  type KitCostRecord,
  type LoanRecord,
  readRecord,
  type Vehicle,
  type Yard,
} from "../../../src/records/index.js";
import { type BookCase, moneyBookOf } from "../../../src/records/map/money-book.js";
import { plusDays } from "../../../src/units/zone.js";
import { examples } from "../../records/examples.js";

const TODAY = "2027-02-09";
const fleet = demoFleets.quay(TODAY);
const yard = fleet.yards[0] as Yard;
const vehicle = fleet.vehicles[0] as Vehicle;
const given: BookCase = {
  ...fleet,
  yard,
  vehicle,
  vehicleIds: fleet.vehicles.map(({ id }) => id),
  round: fleet.rounds.find(({ id }) => id === vehicle.usual.roundId) ?? null,
  today: TODAY,
  fill: false,
};
const book = moneyBookOf(given);

describe("a day as the first screen shows it", () => {
  test("yesterday is spoken of until today is written", () => {
    const days = twoDays(book, TODAY);
    expect(days.map(({ date }) => date)).toEqual([plusDays(TODAY, -1), TODAY]);
    expect(spokenDay(days).date).toBe(days[1].state === "none" ? days[0].date : TODAY);
    const entry = {
      ...examples.entry,
      id: "x",
      vehicleId: vehicle.id,
      date: TODAY,
      km: 40,
      gridKwh: 4,
      paidMinor: null,
      odometerKm: null,
    };
    const written = moneyBookOf({ ...given, entries: [...given.entries.filter(({ date }) => date !== TODAY), entry] });
    expect(spokenDay(twoDays(written, TODAY))).toMatchObject({ date: TODAY, state: "counted", km: 40, units: 4 });
  });
  test("both lines with low and high, the same figures as the book's line", () => {
    const line = book.lines.find((each) => each.counted && each.state === "worked");
    if (!line) throw new Error("no counted day");
    const shown = dayShown(book, line.date);
    expect(shown.allIn).toEqual({ low: line.sums.allInLow, likely: allIn(line.sums), high: line.sums.allInHigh });
    expect(shown.energy.low <= shown.energy.likely && shown.energy.likely <= shown.energy.high).toBe(true);
  });
  test("a day nobody wrote, one that lacks something, one before the book", () => {
    const missing = book.lines.find((line) => line.state === "missing");
    if (missing) expect(dayShown(book, missing.date).state).toBe("missing");
    const open = moneyBookOf({ ...given, baselines: [] });
    expect(dayShown(open, open.lines[0]?.date ?? "")).toMatchObject({ state: "open", gaps: ["baselineMissing"] });
    expect(dayShown(book, "2001-01-01").state).toBe("none");
  });
});

describe("months", () => {
  test("rows of the months add up to the book, and a row's parts to its last line", () => {
    const rows = monthsOfBooks([book]);
    expect(addSums(rows.map((row) => row.sums))).toEqual(addSums(book.lines.map((line) => line.sums)));
    for (const row of rows) expect(partsOf(row.sums).reduce((sum, { minor }) => sum + minor, 0)).toBe(row.allIn);
    expect([...rows].map((row) => row.key)).toEqual(
      [...rows]
        .map((row) => row.key)
        .sort()
        .reverse(),
    );
    expect(packsOf(book)).toBe(packsOf(book));
  });
  test("fuel and power are always among the parts, what is nothing is not", () => {
    const parts = partsOf(addSums([])).map(({ part }) => part);
    expect(parts).toEqual(["fuelThen", "power"]);
  });
  test("reasons of days that are not counted, each once", () => {
    const open = moneyBookOf({ ...given, baselines: [] });
    expect(gapsOf(linesOfMonth(open, "2027-02"))).toEqual(["baselineMissing"]);
    expect(monthOfBooks([book], "2001-01")).toEqual([]);
  });
  test("a charge paid on the spot stands beside its fair price, units not read are not judged", () => {
    const paid = {
      ...examples.entry,
      vehicleId: vehicle.id,
      id: "p",
      date: "2027-02-01",
      gridKwh: 5,
      paidMinor: 50_000,
      pluggedAt: "23:00",
      km: 30,
      odometerKm: null,
    };
    const own = moneyBookOf({ ...given, entries: [paid, { ...paid, id: "q", date: "2027-02-02", gridKwh: null }] });
    expect(fairOf([own], "2027-02")).toMatchObject({ judged: 1, notJudged: 1, fairMinor: 5 * 1600, paidMinor: 50_000 });
    expect(fairOf([own], "2027-01")).toBeNull();
  });
});

describe("a driver's line", () => {
  test("is put right in its own currency and its coins, whatever the yard's currency is by now", () => {
    const line = { ...examples.accountLine, amountMinor: 35_000, currency: "INR" };
    const corrects: AccountRow = {
      line: { ...line, kind: "rent" },
      amountMinor: 35_000,
      correctedBy: [],
      owedMinor: 35_000,
      depositMinor: 0,
    };
    const at = { id: "a2", vehicleId: vehicle.id, date: TODAY, currency: "UGX", writtenUtcMs: 1_802_000_000_000 };
    // ISO 4217: a rupee has 100 coins, a Uganda shilling none
    expect(lineOf({ driver: "A", about: "rent", corrects }, 300, at)).toMatchObject({
      amountMinor: 30_000,
      currency: "INR",
      corrects: line.id,
    });
    expect(lineOf({ driver: "A", about: "rent", corrects: null }, 300, at)).toMatchObject({
      amountMinor: 300,
      currency: "UGX",
      corrects: null,
    });
  });
});

describe("work of which the newest turn counts", () => {
  const ending = (signal: AbortSignal) =>
    new Promise<string>((_, reject) => signal.addEventListener("abort", () => reject(signal.reason)));
  test("a later turn ends the one before without a complaint; so does leaving", async () => {
    const turns = oneAtATime();
    const first = turns.run(ending);
    expect(await turns.run(async () => "second")).toEqual({ value: "second" });
    expect(await first).toBeNull();
    const last = turns.run(ending);
    turns.stop();
    expect(await last).toBeNull();
  });
  test("work that fails by itself still says so", async () => {
    await expect(oneAtATime().run(() => Promise.reject(new Error("broken")))).rejects.toThrow("broken");
  });
});

describe("payback on the phone", () => {
  const answered = book.payback;
  if (!answered) throw new Error("no payback");
  test("no more rows than a phone shows, from this month on, evenly apart, past the latest date", () => {
    const months = shownMonths(answered);
    expect(months.length).toBeLessThanOrEqual(25);
    expect(months[0]?.month).toBe("2027-02");
    if (answered.answer.high) expect((months.at(-1)?.month ?? "") >= answered.answer.high.slice(0, 7)).toBe(true);
  });
  test("at each turning point the year saves just what the price needs", () => {
    const needed = (answered.of.priceMinor - answered.of.savedMinor) / answered.of.lifeYears;
    const turns = turnsOf(answered);
    expect(turns.length).toBeGreaterThan(0);
    for (const { field, value } of turns)
      expect(yearMoney({ ...answered.of.terms, [field]: value }).allIn / needed).toBeCloseTo(1, 4);
  });
  test("worth over the life, at a dear rate less than at a cheap one", () => {
    expect(worthOfKit(answered, 0.3, 0).npv).toBeLessThan(worthOfKit(answered, 0.05, 0).npv);
    expect(worthOfKit(answered, 0.1, 100_000).npv).toBeGreaterThan(worthOfKit(answered, 0.1, 0).npv);
  });
});

describe("figures", () => {
  const typed: Readonly<Record<FieldName, number | string>> = {
    fuel: "petrol",
    perHundredKm: 3.5,
    howKnown: "receipts",
    upkeepThen: 1.25,
    fuelPriceNow: 94.723,
    upkeepNow: 0.5,
    setPrice: 45_000,
    setScrap: 9000,
    setKm: 18_000,
    setYears: 1.5,
    kitPrice: 120_000,
    kitYears: 7,
    kitDate: "2026-11-03",
    loanAmount: 80_000,
    loanRate: 16.5,
    loanMonths: 24,
    loanFirst: "2027-03-31",
    loanFlat: "flat",
    rentMonth: 900,
    insuranceYear: 4000,
    workDaysYear: 290,
  };
  const at: At = { vehicle, yard, currency: "INR", from: "2027-02-09", nowUtcMs: 1_802_000_000_000, newId: () => "n1" };
  const valuesOf = (fields: readonly FieldName[]): Values =>
    Object.fromEntries(fields.map((field) => [field, typed[field]]));
  test.each(GROUPS)("$name makes a record that the door takes, and reads its own figures back", (group) => {
    const [change] = group.write({ fuel: "petrol", ...valuesOf(group.fields) }, at, {});
    if (!change || !("put" in change)) throw new Error("nothing written");
    const seen = readRecord(change.kind as KindName, change.put);
    expect(seen.ok ? [] : seen.problems).toEqual([]);
    const [baseline] = GROUPS[0]?.write(valuesOf(GROUPS[0].fields), at, {}) ?? [];
    const records = { baseline: baseline && "put" in baseline ? [baseline.put] : [], [change.kind]: [change.put] };
    const back = group.read(records as never, at);
    for (const field of group.fields) expect(back[field], field).toBe(typed[field]);
  });
  test("a first tap asks for all that a record needs, a later one for that figure alone", () => {
    const loan = GROUPS.find(({ name }) => name === "loan");
    if (!loan) throw new Error("no loan");
    expect(toAsk(loan, {}, "loanRate")).toEqual(["loanRate", "loanAmount", "loanMonths", "loanFirst"]);
    expect(toAsk(loan, valuesOf(loan.fields), "loanRate")).toEqual(["loanRate"]);
  });
  const groupOf = (name: string): Group => {
    const found = GROUPS.find((group) => group.name === name);
    if (!found) throw new Error(name);
    return found;
  };
  /** What lies in the book after one figure was typed, all others standing as they are read. */
  const retyped = (held: Book, name: string, field: FieldName, value: number | string, from = at.from): Book => {
    const group = groupOf(name);
    const values = { ...group.read(held, at), [field]: value };
    const changes = group.write(values, { ...at, from, newId: () => `new-${from}` }, held);
    const of = { ...held };
    for (const change of changes) {
      const id = "put" in change ? change.put.id : change.drop;
      const others = listed(of, change.kind).filter((record) => record.id !== id);
      Object.assign(of, { [change.kind]: "put" in change ? [...others, change.put] : others });
    }
    return of;
  };
  test("a loan is paid out a month before its first instalment: 28 February before 31 March", () => {
    const loan = groupOf("loan");
    const [change] = loan.write(valuesOf(loan.fields), at, {});
    expect(change && "put" in change && (change.put as { from: string }).from).toBe("2027-02-28");
  });
  test("putting a kit or a loan right replaces it, and what no key asks for stays", () => {
    const kit: KitCostRecord = { ...examples.kitCost, id: "k1", vehicleId: vehicle.id, resaleMinor: 700, note: "used" };
    expect(listed(retyped({ kitCost: [kit] }, "kitCost", "kitYears", 9), "kitCost")).toEqual([
      { ...kit, lifeYears: 9, writtenUtcMs: at.nowUtcMs },
    ]);
    const loan: LoanRecord = {
      ...examples.loan,
      id: "l1",
      vehicleId: vehicle.id,
      every: "week",
      method: "reducingByDays",
      feeMinor: 90_000,
      instalmentMinor: 123_400,
      note: "by hand",
    };
    expect(listed(retyped({ loan: [loan] }, "loan", "loanMonths", 30), "loan")).toEqual([
      { ...loan, payments: 30, writtenUtcMs: at.nowUtcMs },
    ]);
    expect(Object.keys(FIELDS).length).toBe(Object.keys(typed).length);
  });
  test("the days to work are written into the plan; its other figures stay", () => {
    const plan = { ...examples.moneyPlan, vehicleId: vehicle.id, kmPerDay: 44, sunShare: 0.3, discountPerYear: 0.2 };
    expect(listed(retyped({ moneyPlan: [plan] }, "plan", "workDaysYear", 250), "moneyPlan")).toEqual([
      { ...plan, workDaysPerYear: 250 },
    ]);
  });
  test("low and high km of a set stay as they were said while its km stay", () => {
    const set = { ...examples.setCost, vehicleId: vehicle.id, lifeKmLow: 15_000, lifeKm: 18_000, lifeKmHigh: 19_000 };
    const [, dearer] = listed(retyped({ setCost: [set] }, "setCost", "setPrice", 60_000), "setCost");
    expect(dearer).toMatchObject({ lifeKmLow: 15_000, lifeKmHigh: 19_000, priceMinor: 6_000_000 });
  });

  const rent: FixedCostRecord = {
    ...examples.fixedCost,
    id: "r1",
    from: "2026-01-01",
    currency: "INR",
    yardId: yard.id,
    vehicleId: vehicle.id,
    cost: "rent",
    amountMinor: 1_200_000,
    every: "year",
    to: null,
  };
  test("a new rent from today ends the old one yesterday, stays whose it was, and a yearly one is shown by the month", () => {
    const held: Book = { fixedCost: [rent] };
    expect(groupOf("rent").read(held, at)).toEqual({ rentMonth: 1000 });
    const [old, now] = listed(retyped(held, "rent", "rentMonth", 1500), "fixedCost");
    expect(old).toEqual({ ...rent, to: "2027-02-08" });
    expect(now).toMatchObject({ vehicleId: vehicle.id, from: at.from, amountMinor: 150_000, every: "month", to: null });
    const shared = retyped(
      { fixedCost: [{ ...rent, vehicleId: null, cost: "insurance" }] },
      "insurance",
      "insuranceYear",
      5,
    );
    expect(listed(shared, "fixedCost").map(({ vehicleId }) => vehicleId)).toEqual([null, null]);
  });
  test("from the first day a rent takes the place of those before it; twice on a day it is one", () => {
    const today = retyped({ fixedCost: [rent] }, "rent", "rentMonth", 1500);
    expect(listed(retyped(today, "rent", "rentMonth", 1600), "fixedCost").map((one) => one.amountMinor)).toEqual([
      1_200_000, 160_000,
    ]);
    const always = listed(retyped(today, "rent", "rentMonth", 1700, "2026-01-01"), "fixedCost");
    expect(always.map(({ from, to, amountMinor }) => [from, to, amountMinor])).toEqual([["2026-01-01", null, 170_000]]);
  });
  test("what a day paid of the old rent it still pays, to the coin, and no day pays both", () => {
    const rentsOf = (fixedCosts: readonly FixedCostRecord[]) =>
      moneyBookOf({ ...given, fixedCosts }).lines.map(({ date, sums }) => [date, sums.rent] as const);
    const monthly: FixedCostRecord = { ...rent, every: "month", currency: yard.currency, amountMinor: 100_001 };
    const change = plusDays(TODAY, -5);
    const before = rentsOf([monthly]);
    const later = rentsOf(listed(retyped({ fixedCost: [monthly] }, "rent", "rentMonth", 0, change), "fixedCost"));
    expect(before.every(([, minor]) => minor > 0)).toBe(true);
    expect(later).toEqual(before.map(([date, minor]) => [date, date < change ? minor : 0]));
  });
});
