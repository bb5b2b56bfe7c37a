import type { Curve } from "./curves.js";
import { TINY_KWH, toCents } from "./energy.js";
import { type Menu, NO_CLASS } from "./menu.js";
import type { SocketClass, StayModel, YardModel } from "./model.js";

/** Columns of one stay's place on the board. */
export const KLASS = 0;
export const CURVE = 1;
export const PLUG = 2;
export const START = 3;
export const STOP = 4;
export const UNPLUG = 5;
export const SOCKET = 6;
export const WAKES = 7;
/** The aims follow in their order, for this stay alone (money in hundredths, handling without wakings). */
export const AIM = 8;
export const FIELDS = 16;

export const SHORT = 0;
export const WEIGHT = 1;
export const MISSING = 2;
export const CHANGES = 3;
export const FULL = 4;
export const MONEY = 5;
export const HANDLING = 6;
export const READY = 7;
export const AIM_COUNT = 8;

const SLACK_KWH = 1e-7;
const PAST_KWH = 1e6;
/** A session that has begun must stay in the plan: without it the plan is worth nothing. */
const DROPPED = 1e7;

/**
 * Who hangs where: the plan being worked on, with the power and the sockets still free. On a fresh night sockets of a class are
 * counted (for intervals that is enough); when a published plan is repaired each session holds its own socket, because promises name one.
 */
export class Board {
  readonly menu: Menu;
  readonly model: YardModel;
  readonly cur: Float64Array;
  /** kWh still free by slot. */
  readonly free: Float64Array;
  readonly wakeCount: Int16Array;
  readonly totals = new Float64Array(AIM_COUNT);
  readonly #given: Float64Array;
  readonly #unserved: Float64Array;
  readonly #named: boolean;
  /** Sessions by place (class or socket) and slot. */
  readonly #busy: Int16Array;
  readonly #room: Int16Array;
  readonly #stale: Uint8Array;
  readonly #socketRoom: Int16Array;

  constructor(menu: Menu) {
    const { model } = menu;
    this.menu = menu;
    this.model = model;
    this.#named = model.replanning;
    const places = this.#named ? model.night.sockets.length : model.classes.length;
    this.cur = new Float64Array(model.stays.length * FIELDS);
    this.#unserved = new Float64Array(model.stays.length * FIELDS);
    // what is past cannot be changed, so it does not bind either
    this.#given = model.usableKw.map((kw, t) => (t < model.now ? PAST_KWH : kw * model.hours));
    this.free = this.#given.slice();
    this.wakeCount = new Int16Array(model.slots + 1);
    this.#busy = new Int16Array(places * model.slots);
    this.#room = new Int16Array(model.classes.length * (model.slots + 1));
    this.#stale = new Uint8Array(model.classes.length).fill(1);
    this.#socketRoom = new Int16Array(this.#named ? places * (model.slots + 1) : 0);
    for (let place = 0; this.#named && place < places; place++) this.#measureSocket(place);
    for (let v = 0; v < model.stays.length; v++) this.#writeUnserved(v, model.stays[v] as StayModel);
    this.cur.set(this.#unserved);
    for (let v = 0; v < model.stays.length; v++)
      for (let aim = 0; aim < AIM_COUNT; aim++) add(this.totals, aim, this.cur[v * FIELDS + AIM + aim] as number);
  }

  #writeUnserved(v: number, stay: StayModel): void {
    const { endKwh, readySlots } = this.menu.outcome(v, null, stay.arrive, stay.arrive);
    const row = v * FIELDS;
    const into = this.#unserved;
    into[row + KLASS] = NO_CLASS;
    into[row + CURVE] = -1;
    into[row + SOCKET] = -1;
    for (const field of [PLUG, START, STOP, UNPLUG]) into[row + field] = stay.arrive;
    this.writeAims(into, row, endKwh, stay);
    into[row + AIM + CHANGES] = stay.promised ? 1 : 0;
    into[row + AIM + READY] = readySlots;
    if (stay.promised?.begun) into[row + AIM + MISSING] = (into[row + AIM + MISSING] as number) + DROPPED;
  }

  /** Writes what a level at departure means for the first aims. */
  writeAims(into: Float64Array, from: number, endKwh: number, stay: StayModel): void {
    const row = from + AIM;
    const short = endKwh < stay.targetKwh - TINY_KWH;
    into[row + SHORT] = short ? 1 : 0;
    into[row + WEIGHT] = short ? stay.weight : 0;
    into[row + MISSING] = short ? toCents(stay.targetKwh - endKwh) : 0;
    into[row + FULL] = stay.fullDue && endKwh < stay.fullKwh - TINY_KWH ? 1 : 0;
  }

  curve(place: number): Curve {
    return this.menu.curves.all[place] as Curve;
  }

  isServed(v: number): boolean {
    return (this.cur[v * FIELDS + KLASS] as number) !== NO_CLASS;
  }

  isShort(v: number): boolean {
    return this.cur[v * FIELDS + AIM + SHORT] === 1;
  }

  /** Takes a stay off the board. */
  lift(v: number): void {
    this.#count(v, -1);
    const row = v * FIELDS;
    for (let field = 0; field < FIELDS; field++) this.cur[row + field] = this.#unserved[row + field] as number;
    this.#count(v, 1);
  }

  /** Puts a stay where `row` says; the stay must be off the board, or stand where the same row said. */
  put(v: number, fields: Float64Array, from: number): void {
    this.#count(v, -1);
    const row = v * FIELDS;
    for (let field = 0; field < FIELDS; field++) this.cur[row + field] = fields[from + field] as number;
    this.#count(v, 1);
  }

  #count(v: number, sign: number): void {
    const { cur, free, totals, wakeCount } = this;
    const row = v * FIELDS;
    for (let aim = 0; aim < AIM_COUNT; aim++) add(totals, aim, sign * (cur[row + AIM + aim] as number));
    const klass = cur[row + KLASS] as number;
    if (klass === NO_CLASS) return;
    const start = cur[row + START] as number;
    const stop = cur[row + STOP] as number;
    const stay = this.model.stays[v] as StayModel;
    const kwh = this.menu.curves.kwh;
    const offset = (this.curve(cur[row + CURVE] as number).offsets[start - stay.arrive] as number) - start;
    for (let t = start; t < stop; t++) add(free, t, -sign * (kwh[offset + t] as number));
    this.#occupy(row, klass, sign);
    const wakes = cur[row + WAKES] as number;
    if (wakes & 1) this.#wake(cur[row + PLUG] as number, sign, wakeCount);
    if (wakes & 2) this.#wake(cur[row + UNPLUG] as number, sign, wakeCount);
  }

  #wake(at: number, sign: number, wakeCount: Int16Array): void {
    const before = wakeCount[at] as number;
    wakeCount[at] = before + sign;
    if (before === 0 || before + sign === 0) add(this.totals, HANDLING, sign * this.model.wakeWeight);
  }

  #occupy(row: number, klass: number, sign: number): void {
    const { slots } = this.model;
    const place = this.#named ? (this.cur[row + SOCKET] as number) : klass;
    const unplug = this.cur[row + UNPLUG] as number;
    const busy = this.#busy;
    for (let t = this.cur[row + PLUG] as number; t < unplug; t++) add(busy, place * slots + t, sign);
    this.#stale[klass] = 1;
    if (this.#named) this.#measureSocket(place);
  }

  #measureSocket(place: number): void {
    const { slots } = this.model;
    const room = this.#socketRoom;
    let next = slots;
    room[place * (slots + 1) + slots] = slots;
    for (let t = slots - 1; t >= 0; t--) {
      if ((this.#busy[place * slots + t] as number) > 0) next = t;
      room[place * (slots + 1) + t] = next;
    }
  }

  /** Until when a socket of the class is free, by boundary: `rooms()[klass * (slots + 1) + from]`. */
  rooms(klass: number): Int16Array {
    if (this.#stale[klass]) this.#measureClass(klass);
    return this.#room;
  }

  #measureClass(klass: number): void {
    this.#stale[klass] = 0;
    const { slots, classes } = this.model;
    const { sockets } = classes[klass] as SocketClass;
    const row = klass * (slots + 1);
    const room = this.#room;
    if (this.#named) {
      for (let t = 0; t <= slots; t++) room[row + t] = t;
      for (const place of sockets) {
        const from = place * (slots + 1);
        for (let t = 0; t < slots; t++) {
          const until = this.#socketRoom[from + t] as number;
          if (until > (room[row + t] as number)) room[row + t] = until;
        }
      }
      return;
    }
    let next = slots;
    room[row + slots] = slots;
    for (let t = slots - 1; t >= 0; t--) {
      if ((this.#busy[klass * slots + t] as number) >= sockets.length) next = t;
      room[row + t] = next;
    }
  }

  /** Until when one socket is free from a boundary on; only when sockets are named. */
  socketRoom(place: number, from: number): number {
    return this.#socketRoom[place * (this.model.slots + 1) + from] as number;
  }

  get named(): boolean {
    return this.#named;
  }

  /** The socket of a class that fits a holding most tightly; -1 when sockets are only counted. */
  chooseSocket(klass: number, plug: number, unplug: number): number {
    if (!this.#named) return -1;
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const place of (this.model.classes[klass] as SocketClass).sockets) {
      const until = this.socketRoom(place, plug);
      if (until < unplug) continue;
      let since = plug;
      while (since > 0 && (this.#busy[place * this.model.slots + since - 1] as number) === 0) since--;
      const loose = until - unplug + (plug - since);
      if (loose < least) {
        least = loose;
        best = place;
      }
    }
    return best;
  }

  /** kW on the meter in a slot, with the other users of it. */
  meterKw(t: number): number {
    const { model, free } = this;
    return (model.baseKw[t] as number) + ((this.#given[t] as number) - (free[t] as number)) / model.hours;
  }

  /** Highest kW on the meter outside cuts, never below what is billed anyway. */
  peakKw(): number {
    let peak = this.model.floorKw;
    for (let t = 0; t < this.model.slots; t++) if (!this.model.cut[t]) peak = Math.max(peak, this.meterKw(t));
    return peak;
  }

  /** Holds the site below a peak (or lifts that again with Infinity); sessions already there stay. */
  holdBelow(capKw: number): void {
    const { model, free } = this;
    for (let t = model.now; t < model.slots; t++) {
      const kw = Math.min(model.usableKw[t] as number, Math.max(0, capKw - (model.baseKw[t] as number)));
      const given = kw * model.hours;
      add(free, t, given - (this.#given[t] as number));
      this.#given[t] = given;
    }
  }

  /** Money per peak above what is billed, in hundredths. */
  demandCents(): number {
    return this.model.demandPerKw > 0 ? this.model.demandPerKw * (this.peakKw() - this.model.floorKw) * 100 : 0;
  }

  /** First boundary up to which a run finds its power, looking from `from` to `until`. */
  reach(offset: number, start: number, until: number, from = start): number {
    const { free } = this;
    const kwh = this.menu.curves.kwh;
    let t = from;
    while (t < until && (kwh[offset + t - start] as number) <= (free[t] as number) + SLACK_KWH) t++;
    return t;
  }
}

const add = (row: Float64Array | Int16Array, at: number, value: number): void => {
  row[at] = (row[at] as number) + value;
};
