import { BOOK, walkDay } from "../day/simulate.js";
import { type StoreTable, storeTable } from "../day/store-table.js";
import { type PlugTable, plugTable } from "./plug.js";
import { type DrawnDays, type ReadyCase, type ReadyMonth, TRIES } from "./ready.js";
import { SKY_WORDS, sharesOf, tomorrow } from "./sky-chain.js";

/** A vehicle is plugged in when it would otherwise go below the reserve one day in ten: the low guess of the day's own answer. */
const ASKS_WORSE = 0.1;
/** Once it hangs on the plug, it is charged for all but one day in fifty. Common practice, no source. */
const FILLS_WORSE = 0.02;

/** A size of kit made ready: its set and plug in each month, and what it needs before each day. */
export interface ReadyKit {
  readonly roofW: number;
  readonly packWh: number;
  readonly driveFactor: number;
  readonly stores: readonly StoreTable[];
  readonly plugs: readonly PlugTable[];
  /** Levels on coming home, by month and today's sky (months x 3), which is what an owner can know in the evening. */
  readonly needs: Needs;
}

export interface Needs {
  /** Below this tomorrow is not sure enough: plug in. */
  readonly asks: Float64Array;
  /** And charge to this. */
  readonly fills: Float64Array;
}

export function readyKit(ready: ReadyCase, size: { readonly roofW: number; readonly packWh: number }): ReadyKit {
  const { of } = ready;
  const models = of.months.map((month) => month.storeOf(size.packWh));
  const kit = {
    ...size,
    driveFactor: of.driveFactor(size.roofW, size.packWh),
    stores: models.map(storeTable),
    plugs: models.map((model) => plugTable(model, of.charger)),
  };
  const places = ready.months.length * SKY_WORDS.length;
  const needs = { asks: new Float64Array(places), fills: new Float64Array(places) };
  ready.months.forEach((_, m) => {
    noteNeeds(ready, kit, m, needs);
  });
  return { ...kit, needs };
}

type Kit = Omit<ReadyKit, "needs">;

function noteNeeds(ready: ReadyCase, kit: Kit, m: number, needs: Needs): void {
  const { of } = ready;
  const month = ready.months[m] as ReadyMonth;
  const store = kit.stores[m] as StoreTable;
  const shares = sharesOf((of.months[m] as (typeof of.months)[number]).usualSky);
  const from = (start: number) => month.tries.map((days) => dropsOf(days, kit, month, store, start));
  const need = (drops: readonly Float64Array[], today: number, worse: number): number =>
    of.reserveShare + badDrop(drops, tomorrow(shares, today), worse);
  // a full set cannot take the sun before leaving, so a second look starts from about what is needed
  const rough = need(from(1), SKY_WORDS.length - 1, ASKS_WORSE);
  const drops = from(Math.min(1, rough));
  SKY_WORDS.forEach((_, today) => {
    needs.asks[m * SKY_WORDS.length + today] = need(drops, today, ASKS_WORSE);
    needs.fills[m * SKY_WORDS.length + today] = need(drops, today, FILLS_WORSE);
  });
}

/** How far the level falls below its start on each drawn day, as a share of the set. */
function dropsOf(days: DrawnDays, kit: Kit, month: ReadyMonth, store: StoreTable, start: number): Float64Array {
  const book = new Float64Array(BOOK.size);
  const rows = days.sun.length / TRIES;
  const sunW = new Float64Array(rows);
  return days.drive.map((drive, day) => {
    for (let r = 0; r < rows; r++) sunW[r] = kit.roofW * (days.sun[day * rows + r] as number);
    const startWh = start * store.usableWh;
    walkDay(month.work.columns, store, { startWh, drive: drive * kit.driveFactor, other: 1, sunW }, book);
    // what an empty set could not give belongs to the drop as well
    return (startWh - (book[BOOK.lowest] as number) + (book[BOOK.missing] as number)) / store.usableWh;
  });
}

/** Drop that a tomorrow with these chances of the three words goes beyond in a share `worse` of cases. */
function badDrop(drops: readonly Float64Array[], chances: readonly number[], worse: number): number {
  const all = drops.flatMap((of, word) =>
    Array.from(of, (drop) => ({ drop, weight: (chances[word] as number) / of.length })),
  );
  all.sort((a, b) => b.drop - a.drop);
  let beyond = 0;
  for (const { drop, weight } of all) {
    beyond += weight;
    if (beyond > worse) return drop;
  }
  return all[all.length - 1]?.drop ?? 0;
}
