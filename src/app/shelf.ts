import type { KindName } from "../records/index.js";
import { askToKeep, openStore, type Store, type Writing } from "../store/index.js";
import { good, type Outcome } from "../units/outcome.js";
import { civilDate, plusDays } from "../units/zone.js";
import { type Book, holdRecords, storageTrouble, useShelf } from "./fleet.js";
import { settings } from "./settings.js";

export const DEMO_DATABASE = "noonplug-demo";

/** Kinds of which there are few; read whole. */
const WHOLE = ["yard", "socket", "vehicle", "round"] as const;
/** Days of history that the answers may stand on. */
const DAYS_BACK = 14;
const DAYS_ON = 7;

let store: Store | null = null;
/** The records that are open: the person's own, or those of the yard that is not real. */
export function openedStore(): Store {
  if (!store) throw new Error("The records are not open yet");
  return store;
}

/** Opens the records, puts them before the screens and follows what other windows write. */
export async function openRecords(): Promise<void> {
  store?.close();
  const opened = openStore(settings.value.demo ? { name: DEMO_DATABASE } : {});
  store = opened;
  const read = await readAll(opened);
  useShelf({ write: (changes) => writeAll(opened, changes) }, read.ok ? read.value.book : {});
  storageTrouble.value = read.ok ? null : (read.problems[0] ?? null);
  opened.subscribe((change) => {
    if (change.kind === "changed" && !change.here) void readAgain(opened);
    if (change.kind === "gaveWay") location.reload();
    if (change.kind === "blocked") storageTrouble.value = { code: "storageBlocked", where: "" };
  });
}

interface Read {
  readonly book: Book;
  readonly setAside: number;
}

async function readAll(from: Store): Promise<Outcome<Read>> {
  const today = civilDate(Date.now(), "UTC");
  const [first, last] = [plusDays(today, -DAYS_BACK), plusDays(today, DAYS_ON)];
  const whole = await from.listMany(WHOLE);
  if (!whole.ok) return whole;
  const shifts = await from.between("shift", first, last);
  if (!shifts.ok) return shifts;
  const skies = await from.between("sky", first, last);
  if (!skies.ok) return skies;
  const readings = await from.between("reading", first, last);
  if (!readings.ok) return readings;
  const { yard, socket, vehicle, round } = whole.value;
  const book: Book = {
    yard: yard.records,
    socket: socket.records,
    vehicle: vehicle.records,
    round: round.records,
    shift: shifts.value.records,
    sky: skies.value.records,
    reading: readings.value.records,
  };
  const lists = [yard, socket, vehicle, round, shifts.value, skies.value, readings.value];
  return good({ book, setAside: lists.reduce((total, list) => total + list.setAside, 0) });
}

async function readAgain(from: Store): Promise<void> {
  const read = await readAll(from);
  if (read.ok) holdRecords(read.value.book);
}

let asked = false;

async function writeAll(to: Store, changes: readonly Writing[]): Promise<Outcome<null>> {
  const done = await to.write(changes);
  if (done.ok && !asked && !settings.value.demo) {
    asked = true;
    void askToKeep(); // after the first thing typed, as browsers want to be asked
  }
  return done;
}

/** Reads a kind that is not among those of the first screen, once, for the screens that show it. */
export async function loadKind(kind: KindName): Promise<void> {
  const list = await openedStore().list(kind);
  if (list.ok) holdRecords({ [kind]: list.value.records });
}
