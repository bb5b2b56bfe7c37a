import { allIn } from "../../../../calc/money/index.js";
import { plusDays } from "../../../../units/zone.js";
import { nothingOn } from "../day-model.js";
import { type FleetSums, type ListRow, type MonthHead, type Months, sumsAt, type VehicleRow, WIDTH } from "./rows.js";

interface Adding {
  head: MonthHead;
  readonly sums: Float64Array;
}

/** All vehicles added up, newest month last, and the list of them for today. */
export function fleetSums(rows: readonly VehicleRow[], today: string): FleetSums {
  return {
    months: monthsOfAll(rows),
    list: rows.filter(({ first }) => first !== null).map((row) => listRow(row, today)),
  };
}

function monthsOfAll(rows: readonly Months[]): Months {
  const all = new Map<string, Adding>();
  for (const { heads, sums } of rows)
    for (const [n, head] of heads.entries()) {
      const key = `${head.month} ${head.currency}`;
      const held = all.get(key) ?? { head: { ...head, gaps: [], fair: null }, sums: new Float64Array(WIDTH) };
      all.set(key, held);
      for (let i = 0; i < WIDTH; i++) held.sums[i] = (held.sums[i] ?? 0) + (sums[n * WIDTH + i] ?? 0);
      held.head = { ...held.head, gaps: both(held.head.gaps, head.gaps), fair: added(held.head.fair, head.fair) };
    }
  const made = [...all.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one);
  const sums = new Float64Array(made.length * WIDTH);
  for (const [n, one] of made.entries()) sums.set(one.sums, n * WIDTH);
  return { heads: made.map(({ head }) => head), sums };
}

const both = (a: MonthHead["gaps"], b: MonthHead["gaps"]): MonthHead["gaps"] =>
  b.every((gap) => a.includes(gap)) ? a : [...new Set([...a, ...b])];

function added(a: MonthHead["fair"], b: MonthHead["fair"]): MonthHead["fair"] {
  if (!a || !b) return a ?? b;
  return {
    judged: a.judged + b.judged,
    notJudged: a.notJudged + b.notJudged,
    fairLowMinor: a.fairLowMinor + b.fairLowMinor,
    fairMinor: a.fairMinor + b.fairMinor,
    fairHighMinor: a.fairHighMinor + b.fairHighMinor,
    paidMinor: a.paidMinor + b.paidMinor,
  };
}

function listRow(row: VehicleRow, today: string): ListRow {
  const on = (date: string) => row.shown.find((day) => day.date === date) ?? nothingOn(date);
  const now = row.heads.findIndex(({ month }) => month === today.slice(0, 7));
  return {
    id: row.id,
    currency: row.currency,
    days: [on(plusDays(today, -1)), on(today)],
    allIn: now < 0 ? null : allIn(sumsAt(row, now)),
  };
}
