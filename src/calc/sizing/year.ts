import type { Dice } from "../../units/dice.js";
import { BOOK, walkDay } from "../day/simulate.js";
import type { StoreTable } from "../day/store-table.js";
import { DAY_MARK } from "./input.js";
import type { ReadyKit } from "./kit.js";
import { gridBetween, type PlugTable, reached } from "./plug.js";
import { type DrawnDays, drawDay, type ReadyCase, type ReadyMonth, WARM_UP } from "./ready.js";
import { drawWords, SKY_WORDS, sharesOf } from "./sky-chain.js";

/** One drawn year of sky and traffic, the same for every size of kit. */
export interface DrawnYear extends DrawnDays {
  /** Places in SKY_WORDS. */
  readonly words: Uint8Array;
}

export function drawYear(ready: ReadyCase, dice: Dice): DrawnYear {
  const { monthOfDay, months, rows } = ready;
  const words = drawWords({ shares: ready.of.months.map((month) => sharesOf(month.usualSky)), monthOfDay, dice });
  const sun = new Float64Array(words.length * rows);
  const drive = new Float64Array(words.length);
  for (let day = 0; day < words.length; day++) {
    const month = months[monthOfDay[day] as number] as ReadyMonth;
    const light = ready.worksOn(day) ? month.work : month.rest;
    drive[day] = drawDay(light, words[day] as number, dice, sun.subarray(day * rows, (day + 1) * rows));
  }
  return { words, sun, drive };
}

/** What one drawn year does to one kit: a mark for each day, and sums by month in Wh. */
export interface KitYear {
  readonly marks: Uint8Array;
  readonly gridWh: Float64Array;
  readonly sunTakenWh: Float64Array;
  readonly sunSpilledWh: Float64Array;
  readonly usedWh: Float64Array;
}

/** Walks a kit through a year: each evening it plugs in if tomorrow's low guess asks for it, or its own care does. */
export function walkYear(ready: ReadyCase, kit: ReadyKit, year: DrawnYear): KitYear {
  const { of, monthOfDay } = ready;
  const done = emptyYear(monthOfDay.length - WARM_UP);
  const book = new Float64Array(BOOK.size);
  const sunW = new Float64Array(ready.rows);
  let share = (1 + of.reserveShare) / 2;
  let sinceFull = 0;
  for (let day = 0; day < monthOfDay.length; day++) {
    const m = monthOfDay[day] as number;
    const month = ready.months[m] as ReadyMonth;
    const store = kit.stores[m] as StoreTable;
    const plug = kit.plugs[m] as PlugTable;
    const works = ready.worksOn(day);
    const place = m * SKY_WORDS.length + (year.words[Math.max(0, day - 1)] as number);
    const care = of.fullChargeEveryDays !== null && sinceFull >= of.fullChargeEveryDays;
    const plugs = care || (works && share < (kit.needs.asks[place] as number));
    const fills = care || of.plugTo === "full" ? 1 : Math.min(1, kit.needs.fills[place] as number);
    const wanted = plugs ? fills : share;
    const filled = reached(plug, share, wanted, month.homeHours);
    for (let r = 0; r < sunW.length; r++) sunW[r] = kit.roofW * (year.sun[day * sunW.length + r] as number);
    const drive = kit.driveFactor * (year.drive[day] as number);
    const { columns } = works ? month.work : month.rest;
    walkDay(columns, store, { startWh: filled * store.usableWh, drive, other: 1, sunW }, book);
    const short = works && (book[BOOK.lowest] as number) < of.reserveShare * store.usableWh - 1e-6;
    if (day >= WARM_UP) {
      done.marks[day - WARM_UP] = short ? DAY_MARK.short : plugs ? DAY_MARK.plug : works ? DAY_MARK.sun : DAY_MARK.rest;
      note(done, m, book, gridBetween(plug, share, filled));
    }
    const gotFull = filled >= 0.999 || (book[BOOK.fullUtcMs] as number) >= 0;
    sinceFull = gotFull ? 0 : sinceFull + 1;
    share = (book[BOOK.level] as number) / store.usableWh;
  }
  return done;
}

function emptyYear(days: number): KitYear {
  const sums = () => new Float64Array(12);
  return { marks: new Uint8Array(days), gridWh: sums(), sunTakenWh: sums(), sunSpilledWh: sums(), usedWh: sums() };
}

function note(done: KitYear, m: number, book: Float64Array, gridWh: number): void {
  (done.gridWh[m] as number) += gridWh;
  (done.sunTakenWh[m] as number) += book[BOOK.sunTaken] as number;
  (done.sunSpilledWh[m] as number) += (book[BOOK.sunOffered] as number) - (book[BOOK.sunTaken] as number);
  (done.usedWh[m] as number) += (book[BOOK.drive] as number) + (book[BOOK.other] as number);
}
