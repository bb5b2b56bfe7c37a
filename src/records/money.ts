import * as z from "zod/mini";
import { clock, date, id, lazily, listOf, minor, name, num, share, text, utcMs, whole } from "./fields.js";
import { kind, type RecordOf } from "./kind.js";

/** Whole coins. */
const coins = () => whole(0, 1e15);
const currency = () => z.string().check(z.regex(/^[A-Z]{3}$/));
export const fuel = () => z.enum(["diesel", "petrol", "cng", "lpg"]);
const note = () => text(200);

/**
 * Fields of a record that holds from a day on and is never changed afterwards: a newer one takes over from its own day.
 * Of two for the same day the one written later counts.
 */
const dated = () => ({
  id: id(),
  v: z.literal(1),
  from: date(),
  writtenUtcMs: utcMs(),
  currency: currency(),
  note: note(),
});

/** The fuel vehicle that was replaced, as its owner states it: litres (kg for cng) per 100 km, and how that figure is known. */
export const baselineKind = kind({
  name: "baseline",
  list: "baselines",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      vehicleId: id(),
      fuel: fuel(),
      per100Km: num(0.1, 60),
      how: z.enum(["receipts", "memory", "guess"]),
      upkeepPerKmMinor: minor(1e7),
    }),
  ),
});
export type BaselineRecord = RecordOf<typeof baselineKind>;

const power = () =>
  z.strictObject({
    kind: z.literal("power"),
    tariff: z.enum(["bands", "flatFee", "none"]),
    bands: listOf(z.strictObject({ from: clock(), to: clock(), perKwhMinor: minor(1e7) }), 24),
    otherwisePerKwhMinor: minor(1e7),
    feeMinor: coins(),
  });

/** A price from a day on: of fuel, of power at the yard, or of upkeep per km of one vehicle now. */
export const priceKind = kind({
  name: "price",
  list: "prices",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      yardId: id(),
      /** Null: holds for the whole yard. */
      vehicleId: z.nullable(id()),
      of: z.discriminatedUnion("kind", [
        z.strictObject({ kind: z.literal("fuel"), fuel: fuel(), perUnitMinor: minor(1e9) }),
        power(),
        z.strictObject({ kind: z.literal("upkeep"), perKmMinor: minor(1e7) }),
      ]),
    }),
  ),
});
export type PriceRecord = RecordOf<typeof priceKind>;

/** What the next battery set costs, what the old one fetches, and how far and long one is thought to last. */
export const setCostKind = kind({
  name: "setCost",
  list: "setCosts",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      vehicleId: id(),
      priceMinor: coins(),
      scrapMinor: coins(),
      lifeKmLow: num(100, 1e6),
      lifeKm: num(100, 1e6),
      lifeKmHigh: num(100, 1e6),
      lifeYears: num(0.1, 30),
    }),
  ),
});
export type SetCostRecord = RecordOf<typeof setCostKind>;

/** What was bought to get away from fuel: kit, roof or whole vehicle, with fitting and papers. */
export const kitCostKind = kind({
  name: "kitCost",
  list: "kitCosts",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      vehicleId: id(),
      what: z.enum(["kit", "roof", "set", "vehicle", "other"]),
      priceMinor: coins(),
      lifeYears: num(0.5, 30),
      resaleMinor: coins(),
    }),
  ),
});
export type KitCostRecord = RecordOf<typeof kitCostKind>;

/** A cost that runs whether the vehicle does or not, per month or year, until `to`. */
export const fixedCostKind = kind({
  name: "fixedCost",
  list: "fixedCosts",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      yardId: id(),
      /** Null: of the yard, shared among its vehicles. */
      vehicleId: z.nullable(id()),
      cost: z.enum(["rent", "insurance", "otherFixed"]),
      amountMinor: coins(),
      every: z.enum(["month", "year"]),
      to: z.nullable(date()),
    }),
  ),
});
export type FixedCostRecord = RecordOf<typeof fixedCostKind>;

const every = () => z.enum(["month", "twoWeeks", "week", "day"]);

/** A loan as agreed; `instalmentMinor` is what the lender wrote down, null to work it out. */
export const loanKind = kind({
  name: "loan",
  list: "loans",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      vehicleId: id(),
      lender: text(),
      principalMinor: whole(1, 1e15),
      ratePerYear: num(0, 3),
      payments: whole(1, 4000),
      every: every(),
      firstDue: date(),
      method: z.enum(["reducing", "reducingByDays", "flat"]),
      feeMinor: coins(),
      instalmentMinor: z.nullable(whole(1, 1e15)),
    }),
  ),
});
export type LoanRecord = RecordOf<typeof loanKind>;

/** A lease with a ceiling of km a month; each month runs from the day of `from`. */
export const leaseKind = kind({
  name: "lease",
  list: "leases",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      ...dated(),
      vehicleId: id(),
      lender: text(),
      perMonthMinor: coins(),
      ceilingKm: num(1, 100_000),
      excessPerKmMinor: z.nullable(minor(1e7)),
      to: z.nullable(date()),
    }),
  ),
});
export type LeaseRecord = RecordOf<typeof leaseKind>;

/** Days a vehicle was in repair or stood by choice; `to` null while it still does. */
export const standstillKind = kind({
  name: "standstill",
  list: "standstills",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      from: date(),
      to: z.nullable(date()),
      why: z.enum(["repair", "rest"]),
      note: note(),
      writtenUtcMs: utcMs(),
    }),
  ),
});
export type StandstillRecord = RecordOf<typeof standstillKind>;

/** How the drive and the roof were meant to work together, for the worth of the sun's units and for years to come; shares of one. */
export const moneyPlanKind = kind({
  name: "moneyPlan",
  list: "moneyPlans",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      workDaysPerYear: num(1, 366),
      /** Null: from the log. */
      kmPerDay: z.nullable(num(0, 1000)),
      batteryWhPerKm: z.nullable(num(5, 1000)),
      sunShare: z.nullable(share()),
      /** Yearly rate at which later money counts less. */
      discountPerYear: num(0, 2),
    }),
  ),
});
export type MoneyPlanRecord = RecordOf<typeof moneyPlanKind>;

/** One line of a driver's account. Never edited and never removed: a later line names it in `corrects`; an amount of 0 strikes it out. */
export const accountLineKind = kind({
  name: "accountLine",
  list: "accountLines",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      driver: name(),
      date: date(),
      about: z.enum(["rent", "energy", "instalment", "damage", "payment", "depositIn", "depositBack", "takings"]),
      amountMinor: coins(),
      currency: currency(),
      corrects: z.nullable(id()),
      writtenUtcMs: utcMs(),
      note: note(),
    }),
  ),
});
export type AccountLineRecord = RecordOf<typeof accountLineKind>;

/** A SHA-256 in hexadecimal. */
const hash = () => z.string().check(z.regex(/^[0-9a-f]{64}$/));

/** One link of a vehicle's chain: which record was written when, its digest, and the hash over this and the link before (see export/money-chain). */
export const chainLinkKind = kind({
  name: "chainLink",
  list: "chainLinks",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      /** The vehicle or yard whose chain it is. */
      chain: id(),
      number: whole(1, 1e9),
      writtenUtcMs: utcMs(),
      /** Kind and id of the record, as `entry/v7/2027-02-10`. */
      record: text(130),
      digest: hash(),
      /** Hash of the link before, 64 zeros for the first. */
      before: hash(),
      hash: hash(),
    }),
  ),
});
export type ChainLinkRecord = RecordOf<typeof chainLinkKind>;
