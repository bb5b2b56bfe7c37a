import { daysLater } from "../../../calc/money/calendar.js";
import type { FixedCostRecord, KitCostRecord, LoanRecord, MoneyPlanRecord } from "../../../records/index.js";
import { type Book, type Change, listed } from "../../fleet.js";
import type { At, FieldName, Group, Values } from "./figures-fields.js";
import { baseline, fuelPrice, setCost, upkeepNow } from "./figures-prices.js";
import { coins, dated, major, newest, newestOf } from "./figures-write.js";

export * from "./figures-fields.js";

const USUAL_KIT_YEARS = 6;
export const USUAL_WORK_DAYS = 300;

/** Kit and loan are one purchase each: putting a figure right replaces the record, it is no price that was once another. */
const kitCost: Group = {
  name: "kitCost",
  fields: ["kitPrice", "kitDate", "kitYears"],
  needs: ["kitPrice", "kitDate"],
  read: (book, { vehicle }) => {
    const found = newestOf(listed(book, "kitCost"), vehicle.id);
    if (!found) return { kitYears: USUAL_KIT_YEARS };
    return { kitPrice: major(found.priceMinor, found.currency), kitDate: found.from, kitYears: found.lifeYears };
  },
  write: (values, at, held) => {
    const found = newestOf(listed(held, "kitCost"), at.vehicle.id);
    const before = found ?? { ...dated(at), vehicleId: at.vehicle.id, what: "kit", resaleMinor: 0 };
    const put: KitCostRecord = {
      ...before,
      from: String(values.kitDate),
      writtenUtcMs: at.nowUtcMs,
      priceMinor: coins(values.kitPrice, before.currency),
      lifeYears: Number(values.kitYears),
    };
    return [{ kind: "kitCost", put }];
  },
};

const shownMethod = (method: LoanRecord["method"]) => (method === "flat" ? "flat" : "reducing");

const loan: Group = {
  name: "loan",
  fields: ["loanAmount", "loanRate", "loanMonths", "loanFlat", "loanFirst"],
  needs: ["loanAmount", "loanRate", "loanMonths", "loanFirst"],
  read: (book, { vehicle }) => {
    const found = newestOf(listed(book, "loan"), vehicle.id);
    if (!found) return { loanFlat: "reducing" };
    return {
      loanAmount: major(found.principalMinor, found.currency),
      loanRate: Number((found.ratePerYear * 100).toFixed(4)),
      loanMonths: found.payments,
      loanFirst: found.firstDue,
      loanFlat: shownMethod(found.method),
    };
  },
  write: (values, at, held) => {
    const found = newestOf(listed(held, "loan"), at.vehicle.id);
    const before = found ?? {
      ...dated(at),
      from: monthBefore(String(values.loanFirst)),
      vehicleId: at.vehicle.id,
      lender: "",
      every: "month",
      feeMinor: 0,
      instalmentMinor: null,
    };
    const method = (values.loanFlat ?? "reducing") as LoanRecord["method"];
    const put: LoanRecord = {
      ...before,
      writtenUtcMs: at.nowUtcMs,
      principalMinor: coins(values.loanAmount, before.currency),
      ratePerYear: Number(values.loanRate) / 100,
      payments: Number(values.loanMonths),
      firstDue: String(values.loanFirst),
      method: found && shownMethod(found.method) === method ? found.method : method,
    };
    return [{ kind: "loan", put }];
  },
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

type FixedName = "rent" | "insurance";
const PER_YEAR: Readonly<Record<FixedCostRecord["every"], number>> = { month: 12, year: 1 };

/** What a vehicle pays of a kind now: its own cost, or its yard's. */
const runningCost = (of: Book, name: FixedName, { vehicle, yard }: Pick<At, "vehicle" | "yard">) =>
  newest(
    listed(of, "fixedCost").filter(
      (record) =>
        record.cost === name &&
        record.to === null &&
        (record.vehicleId === vehicle.id || (record.vehicleId === null && record.yardId === yard.id)),
    ),
  );

/**
 * A cost that takes another's place from a day on: the old one ends the day before, and one that began no earlier is written over. Where the
 * new one reaches back behind it, those that ran before it give way too.
 */
function inPlaceOf(found: FixedCostRecord, put: FixedCostRecord, held: Book): readonly Change[] {
  const kept = (record: FixedCostRecord): Change => ({ kind: "fixedCost", put: record });
  const ended = (record: FixedCostRecord): Change => kept({ ...record, to: daysLater(put.from, -1) });
  if (put.from > found.from) return [ended(found), kept(put)];
  const { cost, vehicleId, yardId } = found;
  const before = listed(held, "fixedCost").filter(
    (one) => one.cost === cost && one.vehicleId === vehicleId && one.yardId === yardId && one.to !== null,
  );
  const reached = before.filter(({ to }) => to !== null && to >= put.from && to < found.from);
  return [
    ...reached.map((one): Change => (one.from < put.from ? ended(one) : { kind: "fixedCost", drop: one.id })),
    kept({ ...put, id: found.id }),
  ];
}

const fixedCost = (name: FixedName, field: FieldName, every: FixedCostRecord["every"]): Group => ({
  name,
  fields: [field],
  needs: [field],
  read: (book, at) => {
    const found = runningCost(book, name, at);
    if (!found) return {};
    const inOneField = (major(found.amountMinor, found.currency) * PER_YEAR[found.every]) / PER_YEAR[every];
    return { [field]: Number(inOneField.toFixed(4)) };
  },
  write: (values, at, held) => {
    const found = runningCost(held, name, at);
    const put: FixedCostRecord = {
      ...dated(at),
      ...(found && { note: found.note, currency: found.currency }),
      yardId: at.yard.id,
      vehicleId: found ? found.vehicleId : name === "rent" ? null : at.vehicle.id,
      cost: name,
      amountMinor: coins(values[field], found?.currency ?? at.currency),
      every,
      to: null,
    };
    return found ? inPlaceOf(found, put, held) : [{ kind: "fixedCost", put }];
  },
});

const USUAL_DISCOUNT = 0.12;

const plan: Group = {
  name: "plan",
  fields: ["workDaysYear"],
  needs: ["workDaysYear"],
  read: (book, { vehicle }) => {
    const found = listed(book, "moneyPlan").find((record) => record.vehicleId === vehicle.id);
    return { workDaysYear: found?.workDaysPerYear ?? USUAL_WORK_DAYS };
  },
  write: (values, at, held) => {
    const found = listed(held, "moneyPlan").find((record) => record.vehicleId === at.vehicle.id);
    const put: MoneyPlanRecord = {
      ...(found ?? {
        id: `${at.vehicle.id}/money`,
        v: 1,
        vehicleId: at.vehicle.id,
        kmPerDay: null,
        batteryWhPerKm: null,
        sunShare: null,
        discountPerYear: USUAL_DISCOUNT,
      }),
      workDaysPerYear: Number(values.workDaysYear),
    };
    return [{ kind: "moneyPlan", put }];
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
