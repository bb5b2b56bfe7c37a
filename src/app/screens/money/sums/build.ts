import {
  type DayLine,
  dayLines,
  daysLater,
  type Gap,
  monthOf,
  packOf,
  type Terms,
} from "../../../../calc/money/index.js";
import type { Round, Sky, Vehicle, Yard } from "../../../../records/index.js";
import { type Ground, groundOf, lastDayOf, termsNow } from "../../../../records/map/money-book.js";
import type { ListedKinds, Store } from "../../../../store/index.js";
import { BEGINNING, EVERYBODY, type Marks } from "../../../../store/marks.js";
import { randomDevice } from "../../../../store/writing.js";
import { seedOf } from "../../../../units/dice.js";
import { good, type Outcome } from "../../../../units/outcome.js";
import { shownOf } from "../day-model.js";
import { fairOfLogs } from "../facts-model.js";
import {
  beginMarks,
  flat,
  type Made,
  type MonthHead,
  type Months,
  putSums,
  putVehicles,
  standing,
  VERSION,
  type VehicleRow,
  vehicleRows,
  WIDTH,
} from "./rows.js";
import { fleetSums } from "./total.js";

export const KINDS = [
  "yard",
  "vehicle",
  "round",
  "baseline",
  "price",
  "setCost",
  "fixedCost",
  "loan",
  "lease",
  "standstill",
] as const;
type Base = ListedKinds<(typeof KINDS)[number]>;

export const FIRST_DAY = "2000-01-01";
export const LAST_DAY = "2100-12-31";
const MOST_TURNS = 5;
const AT_ONCE = 40;

/**
 * Brings the months of all vehicles up to the records and to today: works out anew what was marked since, lets the rest run on, and adds up
 * all. What is written meanwhile is taken in by another turn. Good once the sums are fresh.
 */
export async function bringUpToDate(
  store: Store,
  today: string,
  onShare: (share: number) => void,
): Promise<Outcome<boolean>> {
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const at = await standing(store);
    if (!at.ok) return at;
    const { marks } = at.value;
    if (!marks) {
      const begun = await beginMarks(store, randomDevice());
      if (!begun.ok) return begun;
      continue;
    }
    const done = await oneTurn(store, { today, marks }, onShare);
    if (!done.ok || done.value) return done;
  }
  return good(false);
}

interface Turn {
  readonly today: string;
  readonly marks: Marks;
}

async function oneTurn(store: Store, turn: Turn, onShare: (share: number) => void): Promise<Outcome<boolean>> {
  const base = await store.listMany(KINDS);
  if (!base.ok) return base;
  const held = await vehicleRows(store);
  if (!held.ok) return held;
  const { today, marks } = turn;
  const rows = new Map<string, VehicleRow>();
  const grounds = groundsOf(store, base.value, today);
  let fresh: VehicleRow[] = [];
  const all = base.value.vehicle.records;
  for (const [i, vehicle] of all.entries()) {
    const yard = grounds.yard(vehicle);
    if (!yard) continue; // a vehicle without a yard has no prices: the screens leave it out too
    const under = `${VERSION} ${marks.epoch} ${grounds.sharers(yard)}`;
    const old = held.value.get(vehicle.id);
    const row = await nextRow(store, {
      ...turn,
      vehicle,
      yard,
      under,
      grounds,
      old: old?.under === under ? old : undefined,
    });
    if (!row.ok) return row;
    rows.set(vehicle.id, row.value);
    if (row.value !== held.value.get(vehicle.id)) fresh.push(row.value);
    if (fresh.length >= AT_ONCE) {
      const put = await putVehicles(store, fresh, []);
      if (!put.ok) return put;
      fresh = [];
    }
    onShare((i + 1) / all.length);
  }
  const gone = [...held.value.keys()].filter((id) => !rows.has(id));
  const put = await putVehicles(store, fresh, gone);
  if (!put.ok) return put;
  const made: Made = { version: VERSION, epoch: marks.epoch, today };
  return putSums(store, { ...fleetSums([...rows.values()], today), made }, marks.count);
}

interface Grounds {
  readonly yard: (vehicle: Vehicle) => Yard | undefined;
  /** Who shares the costs of a yard, as a number; 0 when it has none to share. */
  readonly sharers: (yard: Yard) => number;
  readonly of: (vehicle: Vehicle, yard: Yard) => Omit<Ground, "entries" | "skies">;
  readonly skies: (yard: Yard) => Promise<readonly Sky[]>;
}

/** Records sorted out by whose they are, once for all vehicles. */
export function groundsOf(store: Store, base: Base, today: string): Grounds {
  const yards = new Map(base.yard.records.map((yard) => [yard.id, yard]));
  const rounds = new Map(base.round.records.map((round) => [round.id, round] as const));
  const ids = new Map<string, string[]>();
  for (const { id, yardId } of base.vehicle.records) {
    const own = ids.get(yardId);
    if (own) own.push(id);
    else ids.set(yardId, [id]);
  }
  for (const own of ids.values()) own.sort();
  const sharing = new Set(base.fixedCost.records.flatMap((cost) => (cost.vehicleId === null ? cost.yardId : [])));
  const sharers = new Map([...sharing].map((yardId) => [yardId, seedOf((ids.get(yardId) ?? []).join(" "))]));
  const owned = <R extends { readonly vehicleId: string | null }>(records: readonly R[]) => {
    const by = new Map<string | null, R[]>();
    for (const record of records) {
      const list = by.get(record.vehicleId);
      if (list) list.push(record);
      else by.set(record.vehicleId, [record]);
    }
    const shared = by.get(null) ?? [];
    return (id: string): readonly R[] =>
      shared.length === 0 ? (by.get(id) ?? []) : [...shared, ...(by.get(id) ?? [])];
  };
  const of = {
    standstills: owned(base.standstill.records),
    baselines: owned(base.baseline.records),
    prices: owned(base.price.records),
    setCosts: owned(base.setCost.records),
    fixedCosts: owned(base.fixedCost.records),
    loans: owned(base.loan.records),
    leases: owned(base.lease.records),
  };
  const skies = new Map<string, readonly Sky[]>();
  return {
    yard: ({ yardId }) => yards.get(yardId),
    sharers: ({ id }) => sharers.get(id) ?? 0,
    of: (vehicle, yard) => ({
      yard,
      vehicle,
      vehicleIds: ids.get(yard.id) ?? [],
      round: (vehicle.usual.roundId === null ? null : (rounds.get(vehicle.usual.roundId) as Round | undefined)) ?? null,
      standstills: of.standstills(vehicle.id),
      baselines: of.baselines(vehicle.id),
      prices: of.prices(vehicle.id),
      setCosts: of.setCosts(vehicle.id),
      fixedCosts: of.fixedCosts(vehicle.id),
      loans: of.loans(vehicle.id),
      leases: of.leases(vehicle.id),
      today,
    }),
    skies: async (yard) => {
      const known = skies.get(yard.id);
      if (known) return known;
      const found = await store.history("sky", yard.id, FIRST_DAY, LAST_DAY);
      const list = found.ok ? found.value.records : [];
      skies.set(yard.id, list);
      return list;
    },
  };
}

interface Asked {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly under: string;
  /** The row as it stands; undefined: from the first day on. */
  readonly old: VehicleRow | undefined;
  readonly grounds: Grounds;
  readonly marks: Marks;
  readonly today: string;
}

/** The row of a vehicle as it should be: the same one where nothing changed. */
async function nextRow(store: Store, asked: Asked): Promise<Outcome<VehicleRow>> {
  const { old, today } = asked;
  if (!old) return remade(store, asked, BEGINNING);
  const from = changedFrom(asked, old);
  if (from !== null) return remade(store, asked, from);
  const { through } = old;
  if (through === null) return good(old);
  const yesterday = daysLater(today, -1);
  if (through > today) return remade(store, asked, BEGINNING); // the phone's day went back
  const more = old.lastLog !== null && old.lastLog > through && through < today;
  if (more) return remade(store, asked, daysLater(through, 1));
  return good(through < yesterday ? ranOn(asked, old, yesterday) : old);
}

/** First day from which a row no longer holds; null when it does. Prices and skies of days to come touch no line yet. */
function changedFrom({ vehicle, yard, marks }: Asked, old: VehicleRow): string | null {
  if (marks.from[EVERYBODY] !== undefined) return BEGINNING;
  const own = marks.from[vehicle.id];
  const shared = [marks.from[yard.id], marks.from[vehicle.usual.roundId ?? ""]].filter(
    (day) => day !== undefined && (own !== undefined || (old.through !== null && day <= old.through)),
  );
  return [own, ...shared].filter((day) => day !== undefined).sort()[0] ?? null;
}

/** Months before the one of `from` stay as they are; the rest is worked out from the log. */
async function remade(store: Store, asked: Asked, from: string): Promise<Outcome<VehicleRow>> {
  const { vehicle, yard, old, grounds, today } = asked;
  const ground = grounds.of(vehicle, yard);
  const open = ground.standstills.some(({ to }) => to === null); // it runs to the last written day, wherever that lies
  const whole = !old || open || from === BEGINNING || from < FIRST_DAY;
  const since = whole ? FIRST_DAY : `${monthOf(from)}-01`;
  // the day before tells where an odometer stood
  const entries = await store.history("entry", vehicle.id, whole ? since : daysLater(since, -1), LAST_DAY);
  if (!entries.ok) return entries;
  const made = groundOf({ ...ground, entries: entries.value.records, skies: await grounds.skies(yard) });
  const logs = made.days.logs.filter(({ date }) => date >= since);
  const before = !whole && old.first !== null && old.first < since;
  const first = before ? old.first : (logs[0]?.date ?? null);
  const last = lastDayOf(logs, today);
  const start = before ? since : first;
  const lines = start === null || start > last ? [] : dayLines(logs, made.laid.terms, start, last);
  const fair = (month: string) =>
    fairOfLogs(
      logs.filter(({ date }) => date.startsWith(month)),
      made.laid.terms,
    );
  const kept = before ? firstMonths(old, monthOf(since)) : NO_MONTHS;
  const months = joined(kept, monthsOf(vehicle.id, lines, fair));
  const shown = [...(before ? old.shown.filter(({ date }) => date < since) : []), ...lines.slice(-2).map(shownOf)];
  const lastLog = logs.at(-1)?.date ?? (before ? old.lastLog : null);
  return good({
    ...months,
    id: vehicle.id,
    under: asked.under,
    currency: made.currency,
    first,
    through: first === null ? null : last,
    lastLog,
    shown: shown.slice(-2),
  });
}

/** Days that nobody wrote: their fixed costs run on. */
function ranOn({ vehicle, yard, grounds }: Asked, old: VehicleRow, to: string): VehicleRow {
  const { laid, currency } = termsNow({ ...grounds.of(vehicle, yard), entries: [], skies: [] });
  const lines = dayLines([], laid.terms as Terms, daysLater(old.through ?? to, 1), to);
  const months = joined(
    old,
    monthsOf(vehicle.id, lines, () => null),
  );
  const shown = [...old.shown, ...lines.slice(-2).map(shownOf)].slice(-2);
  return { ...old, ...months, currency, through: to, shown };
}

const NO_MONTHS: Months = { heads: [], sums: new Float64Array() };

function firstMonths({ heads, sums }: Months, until: string): Months {
  const count = heads.filter(({ month }) => month < until).length; // they stand in order
  return { heads: heads.slice(0, count), sums: sums.slice(0, count * WIDTH) };
}

function monthsOf(id: string, lines: readonly DayLine[], fair: (month: string) => MonthHead["fair"]): Months {
  const byMonth = new Map<string, DayLine[]>();
  for (const line of lines) {
    const month = monthOf(line.date);
    const own = byMonth.get(month);
    if (own) own.push(line);
    else byMonth.set(month, [line]);
  }
  const heads: MonthHead[] = [];
  const sums: number[] = [];
  for (const [month, own] of byMonth) {
    const gaps = gapsOfLines(own);
    for (const [n, { currency, sums: part }] of packOf(id, month, own).byCurrency.entries()) {
      heads.push({ month, currency, gaps: n === 0 ? gaps : [], fair: n === 0 ? fair(month) : null });
      sums.push(...flat(part));
    }
  }
  return { heads, sums: Float64Array.from(sums) };
}

const gapsOfLines = (lines: readonly DayLine[]): readonly Gap[] => [
  ...new Set(lines.filter((line) => !line.counted || line.gaps.length > 0).flatMap((line) => line.gaps)),
];

/** Months one after the other; those that both have are added. */
function joined(a: Months, b: Months): Months {
  const heads = [...a.heads];
  const sums = [...a.sums];
  for (const [n, head] of b.heads.entries()) {
    const part = b.sums.subarray(n * WIDTH, (n + 1) * WIDTH);
    const at = heads.findIndex(({ month, currency }) => month === head.month && currency === head.currency);
    const held = heads[at];
    if (!held) {
      heads.push(head);
      sums.push(...part);
      continue;
    }
    heads[at] = { ...held, gaps: [...new Set([...held.gaps, ...head.gaps])] };
    for (let i = 0; i < WIDTH; i++) sums[at * WIDTH + i] = (sums[at * WIDTH + i] ?? 0) + (part[i] ?? 0);
  }
  return { heads, sums: Float64Array.from(sums) };
}
