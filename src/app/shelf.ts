import type { KindName } from "../records/index.js";
import type { Store } from "../store/index.js";
import { readQuickly } from "../store/quick.js";
import { holdRecords, useShelf } from "./fleet.js";
import { BY_DAY, databaseName, FEW, LEARNED, nearDays } from "./shelf-lists.js";

type Full = typeof import("./shelf-full.js");
let full: Promise<Full> | null = null;
/** The store with its strict door: fetched after the first paint, or when it is first needed. */
function loadFull(): Promise<Full> {
  full ??= import("./shelf-full.js").catch((problem: unknown) => {
    full = null; // a failed fetch must not stick
    throw problem;
  });
  return full;
}

/** Of so many vehicles the list comes first, and what their answers need while it stands. */
const MANY = 200;

/** Puts the records before the screens as fast as they can be read. */
export async function openRecords(): Promise<void> {
  const days = nearDays();
  const name = databaseName();
  const reading = readQuickly(name, [...LEARNED.map((kind) => ({ kind })), ...BY_DAY.map((kind) => ({ kind, days }))]);
  const lists = await readQuickly(
    name,
    FEW.map((kind) => ({ kind })),
  );
  useShelf({ write: async (changes) => (await loadFull()).write(changes) }, lists ?? {});
  const holdRest = async () => {
    const rest = await reading;
    if (lists && rest) holdRecords(rest);
    else await settleRecords();
  };
  if (lists && lists.vehicle.length > MANY) void holdRest();
  else await holdRest();
}

/** Reads everything again through the strict door and follows what other windows write. */
export const settleRecords = async (): Promise<void> => (await loadFull()).settle();
export const openedStore = async () => (await loadFull()).openedStore();

/** What is read while something is typed is read again, see shelf-full. */
export const readSteadily = async <T>(read: (from: Store) => Promise<T>): Promise<T> =>
  (await loadFull()).readSteadily(read);

/** Reads a kind that is not among those of the first screen, for the screens that show it. */
export async function loadKind(kind: KindName): Promise<void> {
  const list = await readSteadily((from) => from.list(kind));
  if (list.ok) holdRecords({ [kind]: list.value.records });
}
