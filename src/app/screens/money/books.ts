import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Entry, KindName, Sky, Vehicle } from "../../../records/index.js";
import { type BookCase, type MoneyBook, moneyBookOf } from "../../../records/map/money-book.js";
import type { Store } from "../../../store/index.js";
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

/** Kinds that a sum rests on. */
const TOUCHING: readonly string[] = [...KINDS, "entry", "sky", "vehicle", "yard", "round"];

/** Written days by vehicle and skies by yard, each from its first day on; what is not read yet is missing. */
interface Days {
  readonly entries: ReadonlyMap<string, readonly Entry[]>;
  readonly skies: ReadonlyMap<string, readonly Sky[]>;
}
const NO_DAYS: Days = { entries: new Map(), skies: new Map() };
const days = signal<Days>(NO_DAYS);

/** Climbs whenever something is written that money rests on, here, in another window or by a file. */
export const moneyTurn = signal(0);
let looking = 0;
const stale = new Set<KindName>();
let followed: Store | null = null;

/** What is written here, in another window or by a file is read again; another store has nothing in common with the one before. */
export function follow(store: Store): void {
  if (store === followed) return;
  followed = store;
  days.value = NO_DAYS;
  moneyTurn.value++;
  for (const kind of KINDS) stale.add(kind);
  store.subscribe((change) => {
    if (change.kind !== "changed") return;
    const touched = change.keys && new Set(change.keys.map((key) => key.split("/")[0]));
    for (const kind of KINDS) if (!touched || touched.has(kind)) stale.add(kind);
    if (touched && !TOUCHING.some((kind) => touched.has(kind))) return;
    if (looking === 0) days.value = NO_DAYS;
    moneyTurn.value++;
  });
}

const FIRST_DAY = "2000-01-01";
const LAST_DAY = "2100-12-31";
let newest = 0;

/** Reads what the money of some vehicles rests on, each from its first day; a read that a later one overtook shows nothing. */
export async function readBooks(of: readonly Vehicle[]): Promise<void> {
  const mine = ++newest;
  const store = await openedStore();
  follow(store);
  const kinds = KINDS.filter((kind) => stale.has(kind) || !book.value[kind]);
  for (const kind of kinds) stale.delete(kind);
  await Promise.all(kinds.map(loadKind));
  const [one] = of;
  const [entries, ...skies] = await Promise.all([
    one && of.length === 1
      ? store.history("entry", one.id, FIRST_DAY, LAST_DAY)
      : store.between("entry", FIRST_DAY, LAST_DAY),
    ...[...new Set(of.map(({ yardId }) => yardId))].map(async (yardId) => {
      const found = await store.history("sky", yardId, FIRST_DAY, LAST_DAY);
      return [yardId, found.ok ? found.value.records : []] as const;
    }),
  ]);
  if (!entries.ok || mine !== newest) return;
  const byVehicle = new Map(of.map((vehicle) => [vehicle.id, [] as Entry[]]));
  for (const entry of entries.value.records) byVehicle.get(entry.vehicleId)?.push(entry);
  days.value = {
    entries: new Map([...days.value.entries, ...byVehicle]),
    skies: new Map([...days.value.skies, ...skies]),
  };
}

/** The books of some vehicles, as far as they are read. */
export function heldBooks(of: readonly Vehicle[], fill: boolean): readonly MoneyBook[] {
  if (!KINDS.every((kind) => book.value[kind])) return [];
  return of.flatMap((vehicle) => bookFor(vehicle, here.value.date, fill) ?? []);
}

/**
 * The books of some vehicles; empty until they are read. With `fill` missing days are filled with guesses: only where the owner asked for it
 * and sees it said.
 */
export function useBooks(of: readonly Vehicle[], { fill = false, wanted = true } = {}): readonly MoneyBook[] {
  const ids = of.map(({ id }) => id).join(" ");
  const again = moneyTurn.value;
  useEffect(() => {
    looking++;
    return () => {
      looking--;
    };
  }, []);
  useEffect(() => {
    if (wanted) void readBooks(of);
  }, [ids, again, wanted]);
  return wanted ? heldBooks(of, fill) : [];
}

interface Kept {
  readonly book: Book;
  readonly entries: readonly Entry[];
  readonly skies: readonly Sky[];
  readonly today: string;
  readonly made: MoneyBook;
}
/** A book is kept until a record, a day or the date changes; one with filled days beside the one without. */
const kept = { plain: new Map<string, Kept>(), filled: new Map<string, Kept>() };

function bookFor(vehicle: Vehicle, today: string, fill: boolean): MoneyBook | null {
  const entries = days.value.entries.get(vehicle.id);
  const skies = days.value.skies.get(vehicle.yardId);
  const yard = yardOf(vehicle);
  if (!entries || !skies || !yard) return null;
  const own = fill ? kept.filled : kept.plain;
  const held = own.get(vehicle.id);
  if (held && held.book === book.value && held.entries === entries && held.skies === skies && held.today === today)
    return held.made;
  const made = moneyBookOf({
    yard,
    vehicle,
    vehicleIds: vehicles.value.filter(({ yardId }) => yardId === yard.id).map(({ id }) => id),
    round: roundOf(vehicle.usual.roundId) ?? null,
    entries,
    skies,
    ...moneyRecords(book.value),
    today,
    fill,
  });
  own.set(vehicle.id, { book: book.value, entries, skies, today, made });
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
