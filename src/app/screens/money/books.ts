import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { nextMonth } from "../../../calc/money/calendar.js";
import type { Entry, KindName, Vehicle } from "../../../records/index.js";
import { type BookCase, type MoneyBook, moneyBookOf } from "../../../records/map/money-book.js";
import { type Book, book, listed, roundOf, vehicles, yardOf } from "../../fleet.js";
import { loadKind, openedStore } from "../../shelf.js";
import { here } from "../../state.js";

/** Kinds that only money asks for; read whole, as there are few of each. */
const KINDS: readonly KindName[] = [
  "baseline",
  "price",
  "setCost",
  "kitCost",
  "fixedCost",
  "loan",
  "lease",
  "standstill",
  "moneyPlan",
];

/** Written days by vehicle, as they were last read; null while a vehicle's are not read yet. */
const entries = signal<ReadonlyMap<string, readonly Entry[]>>(new Map());
const kindsRead = signal(false);
/** Filling missing days is a wish for as long as the money is looked at. */
export const filling = signal(false);

/** Counts the times that days were written from within the money screens. */
const turn = signal(0);
export const readAgain = (): void => {
  turn.value++;
};

const FIRST_DAY = "2000-01-01";
const LAST_DAY = "2100-12-31";

/** Reads what the money of some vehicles rests on, anew each time a screen opens: other screens and windows write days meanwhile. */
async function read(of: readonly Vehicle[], from: string): Promise<void> {
  const store = await openedStore();
  if (!kindsRead.value) await Promise.all(KINDS.map(loadKind));
  kindsRead.value = true;
  const [one] = of;
  const found =
    one && of.length === 1
      ? await store.history("entry", one.id, from, LAST_DAY)
      : await store.between("entry", from, LAST_DAY);
  if (!found.ok) return;
  const byVehicle = new Map(of.map((vehicle) => [vehicle.id, [] as Entry[]]));
  for (const entry of found.value.records) byVehicle.get(entry.vehicleId)?.push(entry);
  entries.value = new Map([...entries.value, ...byVehicle]);
}

/** Days back that a list of many vehicles reads: this month and the one before. */
const listFrom = (today: string): string => `${nextMonth(today.slice(0, 7), -1)}-01`;

/** The books of some vehicles; empty until they are read. A single vehicle is read from its first day. */
export function useBooks(of: readonly Vehicle[]): readonly MoneyBook[] {
  const ids = of.map(({ id }) => id).join(" ");
  const { date: today } = here.value;
  const again = turn.value;
  useEffect(() => {
    void read(of, of.length === 1 ? FIRST_DAY : listFrom(today));
  }, [ids, today, again]);
  if (!kindsRead.value) return [];
  return of.flatMap((vehicle) => bookFor(vehicle, today) ?? []);
}

interface Kept {
  readonly book: Book;
  readonly entries: readonly Entry[];
  readonly today: string;
  readonly fill: boolean;
  readonly made: MoneyBook;
}
/** A book is kept until a record, a day or the wish to fill changes. */
const kept = new Map<string, Kept>();

function bookFor(vehicle: Vehicle, today: string): MoneyBook | null {
  const own = entries.value.get(vehicle.id);
  const yard = yardOf(vehicle);
  if (!own || !yard) return null;
  const held = kept.get(vehicle.id);
  const fill = filling.value;
  if (held && held.book === book.value && held.entries === own && held.today === today && held.fill === fill)
    return held.made;
  const made = moneyBookOf({
    yard,
    vehicle,
    vehicleIds: vehicles.value.filter(({ yardId }) => yardId === yard.id).map(({ id }) => id),
    round: roundOf(vehicle.usual.roundId) ?? null,
    entries: own,
    skies: listed(book.value, "sky"),
    ...moneyRecords(book.value),
    today,
    fill,
  });
  kept.set(vehicle.id, { book: book.value, entries: own, today, fill, made });
  return made;
}

type MoneyRecords = Pick<
  BookCase,
  "standstills" | "baselines" | "prices" | "setCosts" | "fixedCosts" | "loans" | "leases" | "kitCosts" | "moneyPlans"
>;
export const moneyRecords = (of: Book): MoneyRecords => ({
  standstills: listed(of, "standstill"),
  baselines: listed(of, "baseline"),
  prices: listed(of, "price"),
  setCosts: listed(of, "setCost"),
  fixedCosts: listed(of, "fixedCost"),
  loans: listed(of, "loan"),
  leases: listed(of, "lease"),
  kitCosts: listed(of, "kitCost"),
  moneyPlans: listed(of, "moneyPlan"),
});
