import type { Dice } from "../../units/dice.js";
import {
  AIM,
  AIM_COUNT,
  type Board,
  CHANGES,
  CURVE,
  FIELDS,
  HANDLING,
  KLASS,
  MISSING,
  MONEY,
  PLUG,
  READY,
  SOCKET,
  START,
  STOP,
  UNPLUG,
  WAKES,
} from "./board.js";
import type { Curve } from "./curves.js";
import { toCents } from "./energy.js";
import type { Menu } from "./menu.js";
import type { Promised, SocketClass, StayModel } from "./model.js";

/** A start from which a partial run may go. */
interface Begin {
  readonly klass: number;
  readonly curve: Curve;
  readonly place: number;
  readonly timer: boolean;
  readonly plug: number;
  readonly start: number;
  /** Socket it is bound to, -1 for any of the class. */
  readonly socket: number;
  /** The only unplugging allowed; -1 for any moment somebody is there. */
  readonly unplug: number;
  readonly earliestStop: number;
  readonly latestStop: number;
  readonly kept: boolean;
}

/** A stay that cannot be served in full gets the run that leaves the least missing, and among those the cheapest. */
export class PartialRuns {
  readonly #board: Board;
  readonly #menu: Menu;
  readonly #best = new Float64Array(FIELDS);
  readonly #row = new Float64Array(FIELDS);
  readonly #latestAny: Int32Array;
  readonly #begins: (readonly Begin[] | null)[];
  /** The same begins as numbers, `STRIDE` each, most promising first: the loop over them is hot. */
  readonly #rows: (Int32Array | null)[];
  readonly #reach: Int32Array;
  readonly #stamp: Int32Array;
  #round = 0;
  #found = false;

  constructor(board: Board) {
    this.#board = board;
    this.#menu = board.menu;
    const { slots, awake, wakeable, stays } = board.model;
    this.#latestAny = new Int32Array(slots + 1);
    for (let b = 0, latest = -1; b <= slots; b++) this.#latestAny[b] = latest = awake[b] || wakeable[b] ? b : latest;
    this.#begins = stays.map(() => null);
    this.#rows = stays.map(() => null);
    this.#reach = new Int32Array((board.model.classes.length + 1) * (slots + 1));
    this.#stamp = new Int32Array(this.#reach.length);
  }

  /** A partial run of chance: it stops at a random boundary at the latest, and half of the starts are passed over. */
  insertLoosely(v: number, dice: Dice): boolean {
    const { arrive, depart } = this.#board.model.stays[v] as StayModel;
    const limit = dice() < 0.5 ? depart : arrive + 1 + Math.floor(dice() * (depart - arrive));
    return this.insert(v, limit, dice);
  }

  /** Puts the best partial run on the board, charging no further than `limit`; false when there is nothing to give. */
  insert(v: number, limit = this.#board.model.slots, dice: Dice | null = null): boolean {
    const stay = this.#board.model.stays[v] as StayModel;
    const rows = this.#rows[v] ?? this.#prepare(v, stay);
    const begins = this.#begins[v] as readonly Begin[];
    this.#found = false;
    this.#round++;
    for (let row = 0; row < rows.length; row += STRIDE) {
      // no later begin can leave less missing
      if (this.#found && (rows[row + LEAST_MISSING] as number) > (this.#best[AIM + MISSING] as number)) break;
      if (dice && dice() < 0.5) continue;
      this.#try(v, stay, begins[rows[row + BEGIN] as number] as Begin, rows, row, limit);
    }
    if (!this.#found) return false;
    const best = this.#best;
    if (best[SOCKET] === -1)
      best[SOCKET] = this.#board.chooseSocket(best[KLASS] as number, best[PLUG] as number, best[UNPLUG] as number);
    this.#board.put(v, best, 0);
    return true;
  }

  /** A begun session that finds no power any more still hangs there: it is stopped as soon as can be. */
  force(v: number): void {
    const stay = this.#board.model.stays[v] as StayModel;
    if (!stay.promised?.begun) return;
    this.#found = false;
    for (const begin of this.#listBegins(v, stay)) {
      const stop = Math.max(begin.start + 1, begin.earliestStop);
      const unplug = begin.unplug >= 0 ? begin.unplug : this.#earliestUnplug(stay, stop, stay.depart);
      if (unplug >= stop) this.#offer(v, stay, begin, begin.timer ? stop : unplug, unplug);
    }
    if (this.#found) this.#board.put(v, this.#best, 0);
  }

  #prepare(v: number, stay: StayModel): Int32Array {
    const begins = this.#listBegins(v, stay);
    const least = begins.map((begin) => {
      const furthest = Math.min(stay.depart, begin.latestStop, begin.unplug >= 0 ? begin.unplug : stay.depart);
      const offset = begin.curve.offsets[begin.start - stay.arrive] as number;
      return this.#missing(stay, this.#endKwh(v, stay, begin.start, offset + furthest - begin.start - 1));
    });
    const order = begins
      .map((_, k) => k)
      .sort((one, other) => (least[one] as number) - (least[other] as number) || one - other);
    const rows = new Int32Array(begins.length * STRIDE);
    for (const [k, place] of order.entries()) {
      const begin = begins[place] as Begin;
      const memo = (begin.place - (this.#menu.firstCurve[v] as number)) * (this.#board.model.slots + 1) + begin.start;
      const offset = begin.curve.offsets[begin.start - stay.arrive] as number;
      const { klass, plug, start, socket, unplug, earliestStop, latestStop } = begin;
      const most = Math.min(latestStop, this.#board.model.slots);
      rows.set(
        [
          place,
          least[place] as number,
          klass,
          plug,
          start,
          socket,
          unplug,
          earliestStop,
          most,
          begin.timer ? 1 : 0,
          memo,
          offset,
        ],
        k * STRIDE,
      );
    }
    this.#begins[v] = begins;
    this.#rows[v] = rows;
    return rows;
  }

  #listBegins(v: number, stay: StayModel): Begin[] {
    const { promised } = stay;
    if (promised?.begun) return this.#begun(v, stay, promised);
    const { model, menu } = this.#board;
    const kept = promised ? this.#kept(v, stay, promised) : [];
    const free = stay.classes.flatMap((klass) => {
      const { limitKw, timer } = model.classes[klass] as SocketClass;
      const on = { klass, timer, ...menu.curves.curveOf(v, limitKw), ...FREE };
      if (!timer) return menu.hands.allPlugIns(stay).map(({ at }) => ({ ...on, plug: at, start: at }));
      const starts = Array.from({ length: stay.depart - stay.arrive }, (_, k) => stay.arrive + k).filter(
        (start) => start >= model.now && menu.curves.kwh[on.curve.offsets[start - stay.arrive] as number] !== 0,
      );
      return starts.flatMap((start) => menu.hands.plugIns(stay, start).map(({ at }) => ({ ...on, plug: at, start })));
    });
    return [...kept, ...free];
  }

  #kept(v: number, stay: StayModel, promised: Promised): Begin[] {
    const { model, menu } = this.#board;
    if (!menu.canKeep(stay, promised)) return [];
    const klass = model.classOfSocket[promised.socket] as number;
    const { limitKw, timer } = model.classes[klass] as SocketClass;
    return [{ klass, timer, ...menu.curves.curveOf(v, limitKw), ...FREE, ...promised, kept: true }];
  }

  #begun(v: number, stay: StayModel, promised: Promised): Begin[] {
    const { model, menu } = this.#board;
    const { now } = model;
    const klass = model.classOfSocket[promised.socket] as number;
    const { limitKw, timer } = model.classes[klass] as SocketClass;
    const past = promised.stop < now;
    const { plug, socket, unplug } = promised;
    const earliestStop = past ? promised.stop : now;
    const latestStop = past ? promised.stop : 30_000;
    return menu.begunStarts(stay, promised).flatMap((start) => {
      const on = { klass, timer, ...menu.curves.curveOf(v, limitKw), plug, start, socket, earliestStop, latestStop };
      const kept = unplug <= stay.depart ? [{ ...on, unplug, kept: start === promised.start }] : [];
      return unplug < now ? kept : [...kept, { ...on, unplug: -1, kept: false }];
    });
  }

  /** Longest run of one start that power and sockets allow, compared with the best so far. */
  #try(v: number, stay: StayModel, begin: Begin, rows: Int32Array, row: number, limit: number): void {
    const start = rows[row + BEGIN_START] as number;
    const earliestStop = rows[row + EARLIEST] as number;
    const unplugAt = rows[row + BEGIN_UNPLUG] as number;
    const timer = rows[row + TIMER] === 1;
    const offset = rows[row + OFFSET] as number;
    const room = this.#roomUntil(rows, row);
    const latest = unplugAt >= 0 ? (unplugAt <= room ? unplugAt : -1) : this.#latestUnplug(stay, room);
    if (latest <= start || latest < earliestStop) return;
    const furthest = Math.min(latest, limit, rows[row + LATEST] as number);
    let stop = Math.min(furthest, this.#reached(offset, start, rows[row + MEMO] as number, stay.depart));
    if (!timer) stop = this.#untimedStop(stay, unplugAt, stop, latest);
    if (stop <= start || stop < earliestStop) return;
    const endKwh = this.#endKwh(v, stay, start, offset + stop - start - 1);
    if (this.#found && this.#missing(stay, endKwh) > (this.#best[AIM + MISSING] as number)) return;
    if (timer) stop = this.#trimmed(offset, begin, stop);
    const unplug = !timer ? stop : unplugAt >= 0 ? unplugAt : this.#earliestUnplug(stay, stop, room);
    if (unplug >= stop) this.#offer(v, stay, begin, stop, unplug);
  }

  #reached(offset: number, start: number, memo: number, until: number): number {
    if (this.#stamp[memo] === this.#round) return this.#reach[memo] as number;
    this.#stamp[memo] = this.#round;
    const reached = this.#board.reach(offset, start, until);
    this.#reach[memo] = reached;
    return reached;
  }

  #missing = (stay: StayModel, endKwh: number): number => Math.max(0, toCents(stay.targetKwh - endKwh));

  /** Level at departure of a run whose last slot stands at `last` in the pool. */
  #endKwh(v: number, stay: StayModel, start: number, last: number): number {
    const { levelKwh, roofAfterKwh } = this.#menu.curves.unplugged(v);
    const k = start - stay.arrive;
    const drawn = this.#menu.curves.sumKwh[last] as number;
    return Math.min(stay.fullKwh, (levelKwh[k] as number) + (roofAfterKwh[k] as number) + drawn);
  }

  #roomUntil(rows: Int32Array, row: number): number {
    const socket = rows[row + BEGIN_SOCKET] as number;
    const plug = rows[row + BEGIN_PLUG] as number;
    if (this.#board.named && socket >= 0) return this.#board.socketRoom(socket, plug);
    const klass = rows[row + BEGIN_KLASS] as number;
    return this.#board.rooms(klass)[klass * (this.#board.model.slots + 1) + plug] as number;
  }

  #latestUnplug(stay: StayModel, until: number): number {
    return until >= stay.depart ? stay.depart : (this.#latestAny[until] as number);
  }

  /** Without a timer the charge ends when the plug is pulled, so it must be pulled where the power still reaches. */
  #untimedStop(stay: StayModel, unplugAt: number, reached: number, latest: number): number {
    if (reached >= latest) return latest;
    return unplugAt >= 0 ? -1 : this.#latestUnplug(stay, reached);
  }

  /** A charge that draws nothing any more can end earlier. */
  #trimmed(offset: number, begin: Begin, stop: number): number {
    const kwh = this.#menu.curves.kwh;
    let end = stop;
    while (end - 1 > begin.start && end > begin.earliestStop && kwh[offset + end - 1 - begin.start] === 0) end--;
    return end;
  }

  #earliestUnplug(stay: StayModel, stop: number, room: number): number {
    let wake = -1;
    for (const hand of this.#menu.hands.unplugs(stay, stop)) {
      if (hand.at > room) continue;
      if (!hand.wake) return hand.at;
      if (wake < 0 || this.#board.wakeCount[hand.at] !== 0) wake = hand.at;
    }
    return wake;
  }

  #offer(v: number, stay: StayModel, begin: Begin, stop: number, unplug: number): void {
    const { endKwh, cents, readySlots } = this.#menu.outcome(v, begin.curve, begin.start, stop);
    const row = this.#row;
    const { hands } = this.#menu;
    this.#board.writeAims(row, 0, endKwh, stay);
    row[KLASS] = begin.klass;
    row[CURVE] = begin.place;
    row[PLUG] = begin.plug;
    row[START] = begin.start;
    row[STOP] = stop;
    row[UNPLUG] = unplug;
    row[SOCKET] = begin.socket;
    row[WAKES] = (hands.wakesToPlug(stay, begin.plug) ? 1 : 0) + (hands.wakesToUnplug(stay, unplug) ? 2 : 0);
    row[AIM + CHANGES] = stay.promised && !begin.kept ? 1 : 0;
    row[AIM + MONEY] = cents;
    row[AIM + HANDLING] = begin.plug === stay.arrive ? 0 : 1;
    row[AIM + READY] = readySlots;
    if (this.#found && !this.#isBetter()) return;
    this.#found = true;
    this.#best.set(row);
  }

  #isBetter(): boolean {
    for (let aim = 0; aim < AIM_COUNT; aim++) {
      const difference = this.#aim(this.#row, aim) - this.#aim(this.#best, aim);
      if (difference !== 0) return difference < 0;
    }
    return false;
  }

  /** An aim of a row; money with what the handling is worth, handling with the wakings nobody else needs. */
  #aim(row: Float64Array, aim: number): number {
    const own = row[AIM + aim] as number;
    const { swapWorthCents } = this.#board.model;
    if (aim === MONEY && swapWorthCents > 0) return own + swapWorthCents * this.#aim(row, HANDLING);
    if (aim !== HANDLING) return own;
    const wakes = row[WAKES] as number;
    const { wakeCount, model } = this.#board;
    const plug = wakes & 1 && wakeCount[row[PLUG] as number] === 0 ? model.wakeWeight : 0;
    const unplug = wakes & 2 && wakeCount[row[UNPLUG] as number] === 0 ? model.wakeWeight : 0;
    return own + plug + unplug;
  }
}

const FREE = { socket: -1, unplug: -1, earliestStop: 0, latestStop: 30_000, kept: false };

const STRIDE = 12;
const BEGIN = 0;
const LEAST_MISSING = 1;
const BEGIN_KLASS = 2;
const BEGIN_PLUG = 3;
const BEGIN_START = 4;
const BEGIN_SOCKET = 5;
const BEGIN_UNPLUG = 6;
const EARLIEST = 7;
const LATEST = 8;
const TIMER = 9;
const MEMO = 10;
const OFFSET = 11;
