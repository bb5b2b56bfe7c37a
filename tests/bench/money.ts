import {
  always,
  type DayLine,
  type DayLog,
  dateOfDay,
  dayLine,
  dayLines,
  dayNumber,
  fleetByMonth,
  fleetByVehicle,
  type MonthPack,
  monthEnds,
  monthPack,
  nextMonth,
  replaceDay,
  type Terms,
} from "../../src/calc/money/index.js";
import { type Dice, diceOf } from "../../src/units/dice.js";
import { bestMs } from "./table.js";

export interface Timed {
  readonly name: string;
  readonly ms: number;
  /** What a phone four times as slow may take. */
  readonly limitMs: number | null;
}

const VEHICLES = 1000;
const MONTHS = 36;
const FIRST = "2025-01";

const terms: Terms = {
  currency: always("INR"),
  baseline: always({ fuel: "diesel", per100Km: 4, doubtShare: 0.1, upkeepPerKmMinor: 60 }),
  fuelPrice: { diesel: always({ perUnitMinor: 9000, currency: "INR" }) },
  tariff: always({
    kind: "bands",
    bands: [{ fromMinute: 1320, toMinute: 360, perKwhMinor: 500 }],
    otherwisePerKwhMinor: 900,
    feeMinor: 0,
    currency: "INR",
  }),
  upkeepNow: always({ perUnitMinor: 25, currency: "INR" }),
  set: always({
    priceMinor: 4_500_000,
    scrapMinor: 900_000,
    lifeKmLow: 12_000,
    lifeKm: 18_000,
    lifeKmHigh: 24_000,
    currency: "INR",
  }),
  fixed: Array.from({ length: MONTHS }, (_, i) => ({
    kind: "instalment",
    amountMinor: 470_735,
    currency: "INR",
    ...monthEnds(nextMonth(FIRST, i)),
  })),
  grid: [],
  gridToBatteryEfficiency: 0.85,
};

const logOf = (date: string, dice: Dice): DayLog => ({
  date,
  state: "worked",
  km: 30 + Math.round(dice() * 600) / 10,
  kmHow: "odometer",
  charges: [{ kwh: 3 + dice() * 6, kwhHow: "meter", fromMinute: 1380, toMinute: 240, paidMinor: null }],
  sun: { kwh: dice(), how: "estimated" },
});

function monthLogs(month: string, dice: Dice): readonly DayLog[] {
  const { from, to } = monthEnds(month);
  return Array.from({ length: dayNumber(to) - dayNumber(from) + 1 }, (_, i) =>
    logOf(dateOfDay(dayNumber(from) + i), dice),
  );
}

/** The money of 1,000 vehicles over three years, as a phone keeps it: a pack a vehicle and month, made once, added up on asking. */
export function run(): readonly Timed[] {
  const dice = diceOf(1);
  const few = Array.from({ length: MONTHS }, (_, m) => monthLogs(nextMonth(FIRST, m), dice));
  const packs = new Map<string, MonthPack>();
  for (const [m, logs] of few.entries()) {
    const made = monthPack("", logs, terms, { month: nextMonth(FIRST, m) });
    for (let v = 0; v < VEHICLES; v++)
      packs.set(`v${v}/${made.month}`, { ...structuredClone(made), vehicleId: `v${v}` });
  }
  const last = nextMonth(FIRST, MONTHS - 1);
  const view = () => {
    const months = fleetByMonth(packs.values());
    const vehicles = fleetByVehicle([...packs.values()].filter((pack) => pack.month === last));
    return [months, vehicles];
  };
  const [logs = []] = few.slice(-1);
  const old = dayLine(logs[10] as DayLog, terms) as DayLine;
  const changed = dayLine({ ...(logs[10] as DayLog), km: 77 }, terms);
  const oneDay = () => {
    const key = `v500/${last}`;
    packs.set(key, replaceDay(packs.get(key) as MonthPack, old, changed));
    return view();
  };
  const { from, to } = monthEnds(last);
  const oneMonth = () => {
    for (let v = 0; v < VEHICLES; v++) dayLines(logs, terms, from, to);
  };
  return [
    { name: "month view, 1,000 vehicles x 36 months", ms: bestMs(5, view), limitMs: 300 / 4 },
    { name: "one day written anew and the view again", ms: bestMs(5, oneDay), limitMs: 300 / 4 },
    { name: "31,000 day lines of one month worked out", ms: bestMs(3, oneMonth), limitMs: null },
  ];
}
