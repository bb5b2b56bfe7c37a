import type { AnyRecord } from "../../src/records/index.js";

type MoneyKind =
  | "baseline"
  | "price"
  | "setCost"
  | "kitCost"
  | "fixedCost"
  | "loan"
  | "lease"
  | "standstill"
  | "moneyPlan"
  | "accountLine"
  | "chainLink";

const dated = { v: 1, from: "2027-01-01", writtenUtcMs: 1_800_000_000_000, currency: "BDT", note: "" } as const;

/** One valid record of every kind of money, invented. */
export const moneyExamples: { readonly [K in MoneyKind]: AnyRecord<K> } = {
  baseline: { ...dated, id: "b1", vehicleId: "v1", fuel: "diesel", per100Km: 4, how: "receipts", upkeepPerKmMinor: 60 },
  price: {
    ...dated,
    id: "p1",
    yardId: "y1",
    vehicleId: null,
    of: {
      kind: "power",
      tariff: "bands",
      bands: [{ from: "22:00", to: "06:00", perKwhMinor: 700.5 }],
      otherwisePerKwhMinor: 1000,
      feeMinor: 0,
    },
  },
  setCost: {
    ...dated,
    id: "sc1",
    vehicleId: "v1",
    priceMinor: 4_500_000,
    scrapMinor: 900_000,
    lifeKmLow: 12_000,
    lifeKm: 18_000,
    lifeKmHigh: 24_000,
    lifeYears: 2,
  },
  kitCost: {
    ...dated,
    id: "k1",
    vehicleId: "v1",
    what: "kit",
    priceMinor: 12_000_000,
    lifeYears: 7,
    resaleMinor: 1_000_000,
  },
  fixedCost: {
    ...dated,
    id: "f1",
    yardId: "y1",
    vehicleId: null,
    cost: "rent",
    amountMinor: 900_000,
    every: "month",
    to: null,
  },
  loan: {
    ...dated,
    id: "l1",
    vehicleId: "v1",
    lender: "Savings group",
    principalMinor: 8_000_000,
    ratePerYear: 0.16,
    payments: 24,
    every: "month",
    firstDue: "2027-02-01",
    method: "reducing",
    feeMinor: 80_000,
    instalmentMinor: null,
  },
  lease: {
    ...dated,
    id: "le1",
    vehicleId: "v1",
    lender: "Leasing office",
    perMonthMinor: 1_200_000,
    ceilingKm: 3000,
    excessPerKmMinor: 250,
    to: "2029-12-31",
  },
  standstill: {
    id: "st1",
    v: 1,
    vehicleId: "v1",
    from: "2027-02-03",
    to: "2027-02-05",
    why: "repair",
    note: "charger",
    writtenUtcMs: 1_800_000_000_000,
  },
  moneyPlan: {
    id: "v1/plan",
    v: 1,
    vehicleId: "v1",
    workDaysPerYear: 300,
    kmPerDay: 60,
    batteryWhPerKm: 80,
    sunShare: 0.2,
    discountPerYear: 0.12,
  },
  accountLine: {
    id: "a1",
    v: 1,
    vehicleId: "v1",
    driver: "A",
    date: "2027-02-10",
    about: "rent",
    amountMinor: 35_000,
    currency: "BDT",
    corrects: "a0",
    writtenUtcMs: 1_800_000_000_000,
    note: "",
  },
  chainLink: {
    id: "v1/link/1",
    v: 1,
    chain: "v1",
    number: 1,
    writtenUtcMs: 1_800_000_000_000,
    record: "entry/v1/2027-02-10",
    digest: "0".repeat(64),
    before: "0".repeat(64),
    hash: "a".repeat(64),
  },
};
