import { describe, expect, test } from "vitest";
import {
  breakEven,
  changeBySizing,
  changeWorth,
  compareFuel,
  type Doubts,
  dayNumber,
  flowsOf,
  loanPlan,
  type PaybackCase,
  paidBackOn,
  payback,
  paybackMonths,
  roofWorth,
  setAsidePerKm,
  swings,
  USUAL_DOUBTS,
  worthOf,
  yearMoney,
} from "../../../src/calc/money/index.js";
import { year } from "./fixture.js";

const SURE = Object.fromEntries(Object.keys(USUAL_DOUBTS).map((field) => [field, 0])) as unknown as Doubts;
const of = (more: Partial<PaybackCase> = {}): PaybackCase => ({
  terms: year,
  doubts: USUAL_DOUBTS,
  priceMinor: 4_000_000,
  instalments: [],
  feeMinor: 0,
  since: "2027-01-01",
  today: "2027-01-01",
  savedMinor: 0,
  savedLowMinor: 0,
  savedHighMinor: 0,
  lifeYears: 8,
  seed: 5,
  ...more,
});

describe("a year worked out by hand: 18,000 km", () => {
  const money = yearMoney(year);
  test("720 l at 90.00; 1,350 units at 5.00; set 2.00 a km; upkeep 0.60 and 0.25", () => {
    expect(money.fuel).toBeCloseTo(6_480_000, 6);
    expect(money.power).toBeCloseTo(675_000, 6);
    expect(money.setAside).toBeCloseTo(3_600_000, 6);
    expect(money.energyOnly).toBeCloseTo(5_805_000, 6);
    expect(money.allIn).toBeCloseTo(5_805_000 + 1_080_000 - 450_000 - 3_600_000, 6);
  });
  test("a set that dies of age before it dies of km costs more a km", () => {
    expect(setAsidePerKm({ ...year, setLifeYears: 0.5 }, 18_000)).toBeCloseTo(400, 9);
    expect(setAsidePerKm(year, 0)).toBe(0);
  });
});

describe("the payback rule of the trade: price / (saving per day x working days) (field notes, section 4)", () => {
  test("40,000.00 at 28,350.00 a year are 1.411 years, 516 days", () => {
    const { likely, perWorkDay, verdict } = payback(of({ doubts: SURE }));
    expect(perWorkDay).toBeCloseTo(9450, 6);
    expect(dayNumber(likely as string) - dayNumber("2027-01-01")).toBe(Math.ceil((4_000_000 / 2_835_000) * 365.25));
    expect(verdict).toBe("pays");
  });
  test("what the book already shows is taken off", () => {
    const half = payback(
      of({
        doubts: SURE,
        today: "2027-12-31",
        savedMinor: 3_000_000,
        savedLowMinor: 3_000_000,
        savedHighMinor: 3_000_000,
      }),
    );
    expect(dayNumber(half.likely as string) - dayNumber("2027-12-31")).toBe(
      Math.ceil((1_000_000 / 2_835_000) * 365.25),
    );
    expect(payback(of({ doubts: SURE, today: "2027-12-31", savedMinor: 4_000_000 })).likely).toBe("2027-12-31");
  });
  test("without doubt the three dates are one; with doubt they part, and the same seed gives the same dates", () => {
    const sure = payback(of({ doubts: SURE }));
    expect([sure.low, sure.high]).toEqual([sure.likely, sure.likely]);
    const { low, likely, high, perYear } = payback(of());
    expect((low as string) < (likely as string) && (likely as string) < (high as string)).toBe(true);
    expect(perYear.low).toBeLessThan(perYear.likely);
    expect(payback(of())).toEqual(payback(of()));
  });
  test("a doubtful past makes the dates more doubtful", () => {
    const past = { today: "2027-12-31", savedMinor: 2_800_000 };
    const width = (low: number, high: number) => {
      const band = payback(of({ ...past, savedLowMinor: low, savedHighMinor: high }));
      return dayNumber(band.high as string) - dayNumber(band.low as string);
    };
    expect(width(2_000_000, 3_600_000)).toBeGreaterThan(width(2_800_000, 2_800_000) + 30);
  });
});

describe("it says plainly when it does not pay", () => {
  test("dear power and cheap fuel: the year loses, there is no date", () => {
    const losing = payback(of({ terms: { ...year, fuelPricePerUnit: 4000, tariffPerKwh: 1500 } }));
    expect(losing).toMatchObject({ likely: null, high: null, verdict: "doesNotPay" });
    expect(losing.perYear.likely).toBeLessThan(0);
  });
  test("a price beyond the life of the kit is not paid back although each year gains", () => {
    const late = payback(of({ priceMinor: 40_000_000 }));
    expect(late).toMatchObject({ likely: null, verdict: "doesNotPay" });
    expect(late.perYear.likely).toBeGreaterThan(0);
  });
  test("near the edge it is unsure: a likely date, no late one", () => {
    const edge = payback(of({ lifeYears: 1.6 }));
    expect(edge).toMatchObject({ verdict: "unsure", high: null });
    expect(edge.likely).not.toBeNull();
    expect(edge.neverShare).toBeGreaterThan(0.1);
  });
});

describe("with a loan", () => {
  const plan = loanPlan({
    principalMinor: 3_000_000,
    ratePerYear: 0.18,
    payments: 24,
    every: "month",
    startDate: "2027-01-01",
    firstDue: "2027-02-01",
    method: "reducing",
    feeMinor: 0,
    instalmentMinor: null,
  });
  if (!plan.ok) throw new Error("no plan");
  const lent = of({ doubts: SURE, instalments: plan.value.instalments });
  test("interest paid until then must come back too, so the date is later", () => {
    expect((paidBackOn(lent, 2_835_000) as string) > (paidBackOn(of(), 2_835_000) as string)).toBe(true);
  });
  test("on the date found the saving has just caught up with price and interest", () => {
    const date = paidBackOn(lent, 2_835_000) as string;
    const owed = 4_000_000 + plan.value.instalments.reduce((sum, i) => sum + (i.due <= date ? i.interestMinor : 0), 0);
    const saved = (days: number) => (2_835_000 * days) / 365.25;
    const days = dayNumber(date) - dayNumber("2027-01-01");
    expect(saved(days)).toBeGreaterThanOrEqual(owed - 1e-6);
    expect(saved(days - 1)).toBeLessThan(owed);
  });
  test("the picture: own money at once, then one step a month, the saving a straight line", () => {
    const months = paybackMonths(lent, payback(lent).perYear, 26);
    expect(months[0]).toMatchObject({ month: "2027-01", paidInMinor: 1_000_000, owedMinor: 4_000_000 });
    const steps = months.slice(1, 25).map((month, i) => month.paidInMinor - (months[i]?.paidInMinor ?? 0));
    expect(steps).toEqual(plan.value.instalments.map((each) => each.amountMinor));
    const interest = plan.value.totalInterestMinor;
    expect(months.at(-1)).toMatchObject({ paidInMinor: 4_000_000 + interest, owedMinor: 4_000_000 + interest });
    expect(months[11]?.savedMinor).toBe(Math.round((2_835_000 * 364) / 365.25));
  });
  test("whether a month's saving carries the instalment", () => {
    expect(payback(lent).carriesInstalment).toBe(true); // 2,362.50 against 1,497.72
    expect(payback(of({ ...lent, terms: { ...year, fuelPricePerUnit: 7000 } })).carriesInstalment).toBe(false);
    expect(payback(of()).carriesInstalment).toBeNull();
  });
});

describe("what would change it most", () => {
  const found = swings(year, USUAL_DOUBTS);
  test("the largest swing comes first, and each runs from its low to its high", () => {
    expect(found.map(({ swing }) => swing)).toEqual(found.map(({ swing }) => swing).sort((a, b) => b - a));
    expect(found[0]?.field).toBe("setLifeKm");
    for (const each of found) expect(each.lowValue).toBeLessThan(each.highValue);
  });
  test("the fuel price at which it neither gains nor loses: 5,062.50 a litre by hand", () => {
    // 720 l x price = power 675,000 - upkeep 630,000 + set 3,600,000 -> 3,645,000 / 720
    expect(breakEven(year, "fuelPricePerUnit")).toBeCloseTo(5062.5, 3);
  });
  test("no value within reach is said as none", () => {
    expect(breakEven({ ...year, fuelPricePerUnit: 9_000_000 }, "tariffPerKwh")).toBeNull();
  });
});

describe("purchases over their life", () => {
  test("new sets fall in the years they are worn out, not per km as well", () => {
    // 18,000 km a year wear out one set a year: sets bought at the end of years 1 to 3 of 4.
    expect(flowsOf(year, { price: 4_000_000, lifeYears: 4, ratePerYear: 0.1, resale: 500_000 })).toEqual([
      -4_000_000,
      2_835_000,
      2_835_000,
      2_835_000,
      6_435_000 + 500_000,
    ]);
  });
  test("table case N2: a conversion of 2,500 with a set of 900 in year 3 (reference table npv)", () => {
    const worth = worthOf([-2500, 1200, 1200, 300, 1200, 1200], 0.1);
    expect(worth.npv).toBeCloseTo(1372.7608, 4);
    expect(worth.rate.ratesPerYear[0]).toBeCloseTo(0.302813953, 8);
    expect(worth.discountedPaybackYears).toBeCloseTo(3.23420833, 7);
  });
  test("a bigger roof: 0.25 to 0.40 of the energy saves 270 units a year, and pays only if cheap enough", () => {
    const roof = (extraPrice: number) =>
      changeWorth(
        year,
        { name: "biggerRoof", extraPrice, changed: { sunShare: 0.4 } },
        { lifeYears: 8, ratePerYear: 0.1 },
      );
    expect(roof(500_000).morePerYear).toBeCloseTo(270 * 500, 6);
    expect(roof(500_000)).toMatchObject({ pays: true });
    expect(roof(500_000).paybackYears).toBeCloseTo(500_000 / 135_000, 6);
    expect(roof(900_000)).toMatchObject({ pays: false, discountedPaybackYears: null });
  });
  test("lithium that lasts five times as long may pay although it costs three times as much", () => {
    const lithium = changeWorth(
      year,
      { name: "lithium", extraPrice: 9_000_000, changed: { setPrice: 13_500_000, setLifeKm: 90_000, setLifeYears: 8 } },
      { lifeYears: 5, ratePerYear: 0.1 },
    );
    expect(lithium.flowsFromYear0).toEqual([-9_000_000, 3_600_000, 3_600_000, 3_600_000, 3_600_000, 0]);
    expect(lithium.pays).toBe(true);
  });
});

describe("a change of kit out of sized years", () => {
  const years = { now: { sunKwh: 300, usedKwh: 1500 }, other: { sunKwh: 450, usedKwh: 1530 } };
  test("a bigger roof moves the share of the sun by what sizing says, and its weight moves the use", () => {
    const { changed } = changeBySizing(year, { name: "biggerRoof", extraPrice: 1 }, years);
    expect(changed.sunShare).toBeCloseTo(0.25 + 450 / 1530 - 0.2, 12);
    expect(changed.batteryWhPerKm).toBeCloseTo(80 * 1.02, 12);
    expect(Object.keys(changed).sort()).toEqual(["batteryWhPerKm", "sunShare"]);
  });
  test("two sets cost twice as much and go twice as far: the money put by per km stays, unless age ends them first", () => {
    const { changed } = changeBySizing(
      year,
      { name: "secondSet", extraPrice: 1 },
      { now: years.now, other: years.now },
    );
    const both = { ...year, ...changed };
    expect(setAsidePerKm(both, 18_000)).toBeCloseTo(setAsidePerKm(year, 18_000), 9);
    expect(setAsidePerKm({ ...both, setLifeYears: 1 }, 18_000)).toBeCloseTo(2 * setAsidePerKm(year, 18_000), 9);
  });
  test("the sun can bring no more than all", () => {
    const { changed } = changeBySizing(
      year,
      { name: "lithium", extraPrice: 1 },
      { now: { sunKwh: 0, usedKwh: 100 }, other: { sunKwh: 99, usedKwh: 100 } },
    );
    expect(changed.sunShare).toBe(1);
  });
});

test("the roof alone: 1.2 units into the set spare 1.5 at the socket through a charger of 80 %", () => {
  const roof = roofWorth({ sunKwh: 1.2, gridToBatteryEfficiency: 0.8, tariffPerKwh: 500 });
  expect(roof.socketKwh).toBeCloseTo(1.5, 9);
  expect(roof.worth).toBeCloseTo(750, 6);
});

test("what the socket would have cost without the roof is what it costs and what the roof earns", () => {
  const both = { ...year, km: 1000 };
  const [withRoof, without] = [compareFuel(both), compareFuel({ ...both, sunShare: 0 })];
  const roof = roofWorth({ sunKwh: withRoof.solarKwh, gridToBatteryEfficiency: 0.8, tariffPerKwh: 500 });
  expect(without.electricCost - withRoof.electricCost).toBeCloseTo(roof.worth, 6);
});
