import type { fairMonth, Gap, Sums } from "../../../../calc/money/index.js";
import { SUM_FIELDS } from "../../../../calc/money/index.js";
import type { Body, Fields } from "../../../../store/body.js";
import type { Store } from "../../../../store/index.js";
import { type Marks, readMarks } from "../../../../store/marks.js";
import { CLOCK_KEY, clockRow } from "../../../../store/writing.js";
import type { Outcome } from "../../../../units/outcome.js";
import type { DayShown } from "../day-model.js";

// Months added up beforehand, so that a yard of a thousand vehicles need not read a million days to show one month. They lie in rows of the
// store's own, can be thrown away at any time, and count only while they are of the records as they stand.

/** Climbs whenever `calc/money` or the mapping onto it changes what a day comes to, or the rows change their shape. */
const REVISION = 1;
export const VERSION = `${REVISION} ${SUM_FIELDS.join(" ")}`;

/** A month of a vehicle or of all, in one currency; its sums stand in the row's `sums`, one after the other, in the order of the months. */
export interface MonthHead {
  readonly month: string;
  readonly currency: string;
  readonly gaps: readonly Gap[];
  /** Charges paid on the spot, of all currencies, with the first of them. */
  readonly fair: ReturnType<typeof fairMonth> | null;
}
export interface Months {
  readonly heads: readonly MonthHead[];
  readonly sums: Float64Array;
}

/** All months of one vehicle. */
export interface VehicleRow extends Months {
  readonly id: string;
  /** Version and epoch it was made under, and who shared the yard's costs then. */
  readonly under: string;
  readonly currency: string;
  /** First and last day with a line; null while nothing is written. */
  readonly first: string | null;
  readonly through: string | null;
  /** Last day of the log, which may lie after today. */
  readonly lastLog: string | null;
  /** The last two days, as the list shows them. */
  readonly shown: readonly DayShown[];
}

/** A vehicle in the list of all. */
export interface ListRow {
  readonly id: string;
  readonly currency: string;
  readonly days: readonly [DayShown, DayShown];
  /** All-in of this month; null while it has no day. */
  readonly allIn: number | null;
}

/** What the sums of all were made of. */
export interface Made {
  readonly version: string;
  readonly epoch: string;
  readonly today: string;
}

export const WIDTH = SUM_FIELDS.length;
export const flat = (sums: Sums): readonly number[] => SUM_FIELDS.map((field) => sums[field]);
export const sumsAt = ({ sums }: Months, n: number): Sums =>
  Object.fromEntries(SUM_FIELDS.map((field, i) => [field, sums[n * WIDTH + i] ?? 0])) as unknown as Sums;

const OWN = "~money";
export const KEYS = { made: `${OWN}/made`, months: `${OWN}/months`, list: `${OWN}/list` } as const;
export const vehicleKey = (id: string): string => `${OWN}/v/${id}`;
const vehicleRange = (): IDBKeyRange => IDBKeyRange.bound(`${OWN}/v/`, `${OWN}/v0`, false, true);
export const rowOf = (key: string, value: object): Body => ({ key, k: OWN, f: value as Fields, t: "" });

/** What was made and what no longer holds, at one moment. */
export interface Standing {
  readonly made: Made | null;
  readonly marks: Marks | null;
}

export const standing = (store: Store): Promise<Outcome<Standing>> =>
  store.inside.database.run(async (records) => {
    const [clock, made] = await Promise.all([records.get(CLOCK_KEY), records.get(KEYS.made)]);
    return { marks: clock ? readMarks(clock.f) : null, made: (made?.f as unknown as Made | undefined) ?? null };
  });

/** The sums hold for the records and the day as they stand. */
export const isFresh = ({ made, marks }: Standing, today: string): boolean =>
  made !== null &&
  marks !== null &&
  made.version === VERSION &&
  made.epoch === marks.epoch &&
  made.today === today &&
  Object.keys(marks.from).length === 0;

export interface FleetSums {
  readonly months: Months;
  readonly list: readonly ListRow[];
}

/** The sums of all, when they are fresh. */
export async function readFresh(store: Store, today: string): Promise<FleetSums | null> {
  const got = await store.inside.database.run(async (records) => {
    const rows = await Promise.all([CLOCK_KEY, KEYS.made, KEYS.months, KEYS.list].map((key) => records.get(key)));
    return rows.map((row) => row?.f as unknown);
  });
  if (!got.ok) return null;
  const [clock, made, months, list] = got.value;
  const at: Standing = { marks: readMarks((clock ?? {}) as Fields), made: (made as Made | undefined) ?? null };
  if (!isFresh(at, today) || !months || !list) return null;
  return { months: months as Months, list: (list as { readonly rows: readonly ListRow[] }).rows };
}

export const vehicleRows = async (store: Store): Promise<Outcome<Map<string, VehicleRow>>> => {
  const got = await store.inside.database.run((records) => records.getAll(vehicleRange()));
  return got.ok
    ? { ok: true, value: new Map(got.value.map(({ f }) => [String(f.id), f as unknown as VehicleRow])) }
    : got;
};

export const putVehicles = (store: Store, rows: readonly VehicleRow[], gone: readonly string[]) =>
  store.inside.database.change("relaxed", async (records) => {
    await Promise.all([
      ...rows.map((row) => records.put(rowOf(vehicleKey(row.id), row))),
      ...gone.map((id) => records.delete(vehicleKey(id))),
    ]);
  });

/** Puts the sums of all, unless something was marked meanwhile; false then. */
export const putSums = (store: Store, of: FleetSums & { readonly made: Made }, count: number) =>
  store.inside.database.change("relaxed", async (records) => {
    const clock = await records.get(CLOCK_KEY);
    const marks = clock ? readMarks(clock.f) : null;
    if (!clock || !marks || marks.epoch !== of.made.epoch || marks.count !== count) return false;
    await Promise.all([
      records.put(rowOf(KEYS.made, of.made)),
      records.put(rowOf(KEYS.months, of.months)),
      records.put(rowOf(KEYS.list, { rows: of.list })),
      records.put(clockRow(clock.f.device, clock.f.last, { ...marks, from: {} })),
    ]);
    return true;
  });

/** Begins to mark changes; whatever was made before counts no more. */
export const beginMarks = (store: Store, epoch: string) =>
  store.inside.write("relaxed", async (records, clock) => {
    clock.stamp();
    await clock.keep([]);
    const row = await records.get(CLOCK_KEY);
    await records.put(clockRow(row?.f.device, row?.f.last, { epoch, count: 0, from: {} }));
    return { outcome: { ok: true, value: null }, keys: [] };
  });
