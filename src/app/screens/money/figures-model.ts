import { minorPerMajor } from "../../../calc/money/currency.js";
import type {
  BaselineRecord,
  FixedCostRecord,
  KitCostRecord,
  LoanRecord,
  MoneyPlanRecord,
  PriceRecord,
  SetCostRecord,
  Vehicle,
  Yard,
} from "../../../records/index.js";
import { type Book, type Change, listed } from "../../fleet.js";

/** A value as it stands on a key and in a pad: money in whole currency, choices and days as text. */
export type Value = number | string;
export type Values = Readonly<Record<string, Value>>;

interface Numeric {
  readonly kind: "number" | "money";
  readonly least: number;
  readonly most: number;
  readonly decimals: number;
}
interface Chosen {
  readonly kind: "choice";
  readonly of: readonly string[];
}
export type FieldForm = Numeric | Chosen | { readonly kind: "date" };

export type FieldName =
  | "fuel"
  | "perHundredKm"
  | "howKnown"
  | "upkeepThen"
  | "fuelPriceNow"
  | "upkeepNow"
  | "setPrice"
  | "setScrap"
  | "setKm"
  | "setYears"
  | "kitPrice"
  | "kitYears"
  | "kitDate"
  | "loanAmount"
  | "loanRate"
  | "loanMonths"
  | "loanFirst"
  | "loanFlat"
  | "rentMonth"
  | "insuranceYear"
  | "workDaysYear";

const number = (least: number, most: number, decimals = 0): Numeric => ({ kind: "number", least, most, decimals });
const money = (least = 0): Numeric => ({ kind: "money", least, most: 99_999_999, decimals: 2 });

export const FIELDS: Readonly<Record<FieldName, FieldForm>> = {
  fuel: { kind: "choice", of: ["diesel", "petrol", "cng", "lpg"] },
  perHundredKm: number(0.1, 60, 1),
  howKnown: { kind: "choice", of: ["receipts", "memory", "guess"] },
  upkeepThen: money(),
  fuelPriceNow: money(0.001),
  upkeepNow: money(),
  setPrice: money(),
  setScrap: money(),
  setKm: number(100, 500_000),
  setYears: number(0.1, 30, 1),
  kitPrice: money(),
  kitYears: number(0.5, 30, 1),
  kitDate: { kind: "date" },
  loanAmount: money(1),
  loanRate: number(0, 300, 1),
  loanMonths: number(1, 600),
  loanFirst: { kind: "date" },
  loanFlat: { kind: "choice", of: ["reducing", "flat"] },
  rentMonth: money(),
  insuranceYear: money(),
  workDaysYear: number(1, 366),
};

/** What writing needs to know beside the values. */
export interface At {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly currency: string;
  /** Day from which the new figure holds. */
  readonly from: string;
  readonly nowUtcMs: number;
  readonly newId: () => string;
}

/** Fields that make one record: `needs` must all be known before it can be written, in the order they are asked. */
export interface Group {
  readonly name: string;
  readonly fields: readonly FieldName[];
  readonly needs: readonly FieldName[];
  readonly read: (book: Book, at: Pick<At, "vehicle" | "yard" | "currency">) => Values;
  readonly write: (values: Values, at: At) => Change;
}

const newest = <R extends { readonly from: string; readonly writtenUtcMs: number }>(
  records: readonly R[],
): R | undefined =>
  [...records].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.writtenUtcMs - b.writtenUtcMs)).at(-1);
const per = (currency: string): number => minorPerMajor(currency) ?? 1;
const major = (minor: number, currency: string): number => minor / per(currency);
const coins = (value: Value | undefined, currency: string): number => Math.round(Number(value ?? 0) * per(currency));
/** A price may hold parts of a coin. */
const price = (value: Value | undefined, currency: string): number =>
  Number((Number(value ?? 0) * per(currency)).toFixed(4));
const dated = (at: At) => ({
  id: at.newId(),
  v: 1 as const,
  from: at.from,
  writtenUtcMs: at.nowUtcMs,
  currency: at.currency,
  note: "",
});

/** km a set goes, low and high beside the likely figure, as a share: common practice, no source. */
const SET_KM_DOUBT = 0.3;
/** Usual life of a set: lead-acid 6 to 12 months at 1,500 km (field notes, S13 and S14); lithium: common practice, no source. */
const USUAL_SET = { lead: { setKm: 13_500, setYears: 1.5 }, lfp: { setKm: 80_000, setYears: 7 } } as const;
const USUAL_KIT_YEARS = 6;
export const USUAL_WORK_DAYS = 300;

const usualSet = (vehicle: Vehicle): Values => ({
  setScrap: 0,
  ...(vehicle.battery.chemistry === "lfp" ? USUAL_SET.lfp : USUAL_SET.lead),
});

const baseline: Group = {
  name: "baseline",
  fields: ["fuel", "perHundredKm", "howKnown", "upkeepThen"],
  needs: ["fuel", "perHundredKm"],
  read: (book, { vehicle, currency }) => {
    const found = newest(listed(book, "baseline").filter((record) => record.vehicleId === vehicle.id));
    if (!found) return {};
    const { fuel, per100Km, how, upkeepPerKmMinor } = found;
    return { fuel, perHundredKm: per100Km, howKnown: how, upkeepThen: major(upkeepPerKmMinor, currency) };
  },
  write: (values, at) => ({
    kind: "baseline",
    put: {
      ...dated(at),
      vehicleId: at.vehicle.id,
      fuel: values.fuel as BaselineRecord["fuel"],
      per100Km: Number(values.perHundredKm),
      how: (values.howKnown ?? "memory") as BaselineRecord["how"],
      upkeepPerKmMinor: price(values.upkeepThen, at.currency),
    },
  }),
};

const pricesOf = (book: Book, yard: Yard, vehicle: Vehicle): readonly PriceRecord[] =>
  listed(book, "price").filter(
    (record) => record.yardId === yard.id && (record.vehicleId === null || record.vehicleId === vehicle.id),
  );

const fuelPrice: Group = {
  name: "fuelPrice",
  fields: ["fuelPriceNow"],
  needs: ["fuelPriceNow"],
  read: (book, at) => {
    const { fuel } = baseline.read(book, at);
    const found = newest(
      pricesOf(book, at.yard, at.vehicle).filter(({ of }) => of.kind === "fuel" && of.fuel === fuel),
    );
    return {
      ...(fuel === undefined ? {} : { fuel }),
      ...(found?.of.kind === "fuel" ? { fuelPriceNow: major(found.of.perUnitMinor, at.currency) } : {}),
    };
  },
  write: (values, at) => ({
    kind: "price",
    put: {
      ...dated(at),
      yardId: at.yard.id,
      vehicleId: null,
      of: {
        kind: "fuel",
        fuel: (values.fuel ?? "diesel") as BaselineRecord["fuel"],
        perUnitMinor: price(values.fuelPriceNow, at.currency),
      },
    },
  }),
};

const upkeepNow: Group = {
  name: "upkeepNow",
  fields: ["upkeepNow"],
  needs: ["upkeepNow"],
  read: (book, { vehicle, yard, currency }) => {
    const found = newest(pricesOf(book, yard, vehicle).filter(({ of }) => of.kind === "upkeep"));
    return found?.of.kind === "upkeep" ? { upkeepNow: major(found.of.perKmMinor, currency) } : {};
  },
  write: (values, at) => ({
    kind: "price",
    put: {
      ...dated(at),
      yardId: at.yard.id,
      vehicleId: at.vehicle.id,
      of: { kind: "upkeep", perKmMinor: price(values.upkeepNow, at.currency) },
    },
  }),
};

const setCost: Group = {
  name: "setCost",
  fields: ["setPrice", "setScrap", "setKm", "setYears"],
  needs: ["setPrice"],
  read: (book, { vehicle, currency }) => {
    const found = newest(listed(book, "setCost").filter((record) => record.vehicleId === vehicle.id));
    if (!found) return usualSet(vehicle);
    const { priceMinor, scrapMinor, lifeKm, lifeYears } = found;
    return {
      setPrice: major(priceMinor, currency),
      setScrap: major(scrapMinor, currency),
      setKm: lifeKm,
      setYears: lifeYears,
    };
  },
  write: (values, at): Change => {
    const setKm = Number(values.setKm);
    const put: SetCostRecord = {
      ...dated(at),
      vehicleId: at.vehicle.id,
      priceMinor: coins(values.setPrice, at.currency),
      scrapMinor: coins(values.setScrap, at.currency),
      lifeKmLow: Math.round(setKm * (1 - SET_KM_DOUBT)),
      lifeKm: setKm,
      lifeKmHigh: Math.round(setKm * (1 + SET_KM_DOUBT)),
      lifeYears: Number(values.setYears),
    };
    return { kind: "setCost", put };
  },
};

/** Kit and loan are one purchase each: putting a figure right replaces the record, it is no price that was once another. */
const kitCost: Group = {
  name: "kitCost",
  fields: ["kitPrice", "kitDate", "kitYears"],
  needs: ["kitPrice", "kitDate"],
  read: (book, { vehicle, currency }) => {
    const found = newest(listed(book, "kitCost").filter((record) => record.vehicleId === vehicle.id));
    if (!found) return { kitYears: USUAL_KIT_YEARS };
    return {
      kitPrice: major(found.priceMinor, currency),
      kitDate: found.from,
      kitYears: found.lifeYears,
      kitId: found.id,
      kitWhat: found.what,
    };
  },
  write: (values, at) => ({
    kind: "kitCost",
    put: {
      ...dated(at),
      id: String(values.kitId ?? at.newId()),
      from: String(values.kitDate),
      vehicleId: at.vehicle.id,
      what: (values.kitWhat ?? "kit") as KitCostRecord["what"],
      priceMinor: coins(values.kitPrice, at.currency),
      lifeYears: Number(values.kitYears),
      resaleMinor: 0,
    },
  }),
};

const loan: Group = {
  name: "loan",
  fields: ["loanAmount", "loanRate", "loanMonths", "loanFlat", "loanFirst"],
  needs: ["loanAmount", "loanRate", "loanMonths", "loanFirst"],
  read: (book, { vehicle, currency }) => {
    const found = newest(listed(book, "loan").filter((record) => record.vehicleId === vehicle.id));
    if (!found) return { loanFlat: "reducing" };
    return {
      loanAmount: major(found.principalMinor, currency),
      loanRate: Number((found.ratePerYear * 100).toFixed(4)),
      loanMonths: found.payments,
      loanFirst: found.firstDue,
      loanFlat: found.method === "flat" ? "flat" : "reducing",
      loanId: found.id,
      loanStart: found.from,
      lender: found.lender,
    };
  },
  write: (values, at) => ({
    kind: "loan",
    put: {
      ...dated(at),
      id: String(values.loanId ?? at.newId()),
      from: String(values.loanStart ?? monthBefore(String(values.loanFirst))),
      vehicleId: at.vehicle.id,
      lender: String(values.lender ?? ""),
      principalMinor: coins(values.loanAmount, at.currency),
      ratePerYear: Number(values.loanRate) / 100,
      payments: Number(values.loanMonths),
      every: "month",
      firstDue: String(values.loanFirst),
      method: (values.loanFlat ?? "reducing") as LoanRecord["method"],
      feeMinor: 0,
      instalmentMinor: null,
    },
  }),
};
/** A loan is paid out a month before its first instalment, unless somebody says otherwise. */
function monthBefore(date: string): string {
  const at = new Date(`${date}T00:00:00Z`);
  const day = at.getUTCDate();
  at.setUTCDate(1);
  at.setUTCMonth(at.getUTCMonth() - 1);
  const last = new Date(Date.UTC(at.getUTCFullYear(), at.getUTCMonth() + 1, 0)).getUTCDate();
  at.setUTCDate(Math.min(day, last));
  return at.toISOString().slice(0, 10);
}

const fixedCost = (name: "rent" | "insurance", field: FieldName, every: FixedCostRecord["every"]): Group => ({
  name,
  fields: [field],
  needs: [field],
  read: (book, { vehicle, yard, currency }) => {
    const found = newest(
      listed(book, "fixedCost").filter(
        (record) =>
          record.cost === name &&
          record.to === null &&
          (record.vehicleId === vehicle.id || (record.vehicleId === null && record.yardId === yard.id)),
      ),
    );
    return found ? { [field]: major(found.amountMinor, currency), fixedId: found.id, fixedFrom: found.from } : {};
  },
  write: (values, at) => ({
    kind: "fixedCost",
    put: {
      ...dated(at),
      id: String(values.fixedId ?? at.newId()),
      from: String(values.fixedFrom ?? at.from),
      yardId: at.yard.id,
      vehicleId: name === "rent" ? null : at.vehicle.id,
      cost: name,
      amountMinor: coins(values[field], at.currency),
      every,
      to: null,
    },
  }),
});

const plan: Group = {
  name: "plan",
  fields: ["workDaysYear"],
  needs: ["workDaysYear"],
  read: (book, { vehicle }) => {
    const found = listed(book, "moneyPlan").find((record) => record.vehicleId === vehicle.id);
    return { workDaysYear: found?.workDaysPerYear ?? USUAL_WORK_DAYS };
  },
  write: (values, at): Change => {
    const put: MoneyPlanRecord = {
      id: `${at.vehicle.id}/money`,
      v: 1,
      vehicleId: at.vehicle.id,
      workDaysPerYear: Number(values.workDaysYear),
      kmPerDay: null,
      batteryWhPerKm: null,
      sunShare: null,
      discountPerYear: 0.12,
    };
    return { kind: "moneyPlan", put };
  },
};

export const GROUPS: readonly Group[] = [
  baseline,
  fuelPrice,
  upkeepNow,
  setCost,
  kitCost,
  loan,
  fixedCost("rent", "rentMonth", "month"),
  fixedCost("insurance", "insuranceYear", "year"),
  plan,
];

/** Fields still to be asked after a tap on one of them, the tapped one first. */
export const toAsk = (group: Group, values: Values, tapped: FieldName): readonly FieldName[] => [
  tapped,
  ...group.needs.filter((field) => field !== tapped && values[field] === undefined),
];
