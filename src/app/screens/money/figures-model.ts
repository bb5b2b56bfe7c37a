import type { FixedCostRecord, KitCostRecord, LoanRecord, MoneyPlanRecord } from "../../../records/index.js";
import { type Change, listed } from "../../fleet.js";
import type { FieldName, Group, Values } from "./figures-fields.js";
import { baseline, fuelPrice, setCost, upkeepNow } from "./figures-prices.js";
import { coins, dated, major, newest } from "./figures-write.js";

export * from "./figures-fields.js";

const USUAL_KIT_YEARS = 6;
export const USUAL_WORK_DAYS = 300;

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
