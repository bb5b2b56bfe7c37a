import { type Curve, Curves, type Unplugged } from "./curves.js";
import { TINY_KWH, toCents } from "./energy.js";
import { type Hand, Hands } from "./hands.js";
import type { Promised, SocketClass, StayModel, YardModel } from "./model.js";
import { IntPool } from "./pool.js";

/** No socket: the stay meets its target without the grid. */
export const NO_CLASS = -1;

/** How a run ends for the stay: what it costs and whether it satisfies. */
export interface RunResult {
  readonly endKwh: number;
  readonly cents: number;
  /** Slots from arrival until the target is reached; the whole stay if never. */
  readonly readySlots: number;
}

/**
 * Every session worth having, by stay: those that reach the target (or full, when that is due) with no more grid than needed, at the
 * latest and earliest handling moments. All columns are parallel; the sessions of stay v stand from `from[v]` to `from[v + 1]`.
 */
export class Menu {
  readonly model: YardModel;
  readonly hands: Hands;
  readonly curves: Curves;
  readonly from: Int32Array;
  /** Place of the first curve of each stay; those of its other socket limits follow. */
  readonly firstCurve: Int32Array;
  readonly klass = new IntPool();
  readonly curve = new IntPool();
  readonly plug = new IntPool();
  readonly start = new IntPool();
  readonly stop = new IntPool();
  readonly unplug = new IntPool();
  readonly cents = new IntPool();
  readonly swap = new IntPool();
  /** 1: the plug-in wakes somebody, 2: the unplugging does. */
  readonly wakes = new IntPool();
  readonly change = new IntPool();
  readonly fullMissed = new IntPool();
  readonly ready = new IntPool();
  /** Socket that a promise or a begun session is bound to; -1 for any of its class. */
  readonly pinned = new IntPool();

  constructor(model: YardModel) {
    this.model = model;
    this.hands = new Hands(model);
    this.curves = new Curves(model);
    this.from = new Int32Array(model.stays.length + 1);
    this.firstCurve = new Int32Array(model.stays.length);
    for (let v = 0; v < model.stays.length; v++) {
      this.from[v] = this.klass.length;
      this.firstCurve[v] = this.curves.all.length;
      this.#list(v, model.stays[v] as StayModel);
    }
    this.from[model.stays.length] = this.klass.length;
  }

  /** Energy, money and readiness of a stay charged from `start` to `stop` on a curve; `start === stop` for never. */
  outcome(v: number, curve: Curve | null, start: number, stop: number): RunResult {
    const stay = this.model.stays[v] as StayModel;
    const idle = this.curves.unplugged(v);
    const kwh = this.curves.kwh;
    const offset = curve && start < stop ? (curve.offsets[start - stay.arrive] as number) - start : 0;
    let level = idle.levelKwh[start - stay.arrive] as number;
    let money = 0;
    let ready = firstReady(idle.levelKwh, stay, start);
    for (let t = start; t < stop; t++) {
      const drawn = kwh[offset + t] as number;
      level = Math.min(stay.fullKwh, level + this.#roofKwh(stay, t)) + drawn;
      if (stay.fullKwh - level < TINY_KWH) level = stay.fullKwh;
      money += drawn * (this.model.pricePerKwh[t] as number);
      if (ready < 0 && level >= stay.targetKwh - TINY_KWH) ready = t + 1 - stay.arrive;
    }
    const endKwh = endLevel(stay, idle, level, stop);
    if (ready < 0) ready = readyAfter(stay, idle, level, stop);
    return { endKwh, cents: toCents(money + (start < stop ? this.model.feePerCharge : 0)), readySlots: ready };
  }

  #roofKwh(stay: StayModel, t: number): number {
    return stay.roofKw * (this.model.sunKwPerKw[t] as number) * this.model.hours;
  }

  #list(v: number, stay: StayModel): void {
    const { promised } = stay;
    if (promised?.begun) {
      this.#listBegun(v, stay, promised);
      return;
    }
    this.#listNone(v, stay);
    for (const index of stay.classes) {
      const kind = this.model.classes[index] as SocketClass;
      const { curve, place } = this.curves.curveOf(v, kind.limitKw);
      if (kind.timer) this.#listTimed(v, stay, { index, curve, place });
      else this.#listUntimed(v, stay, { index, curve, place });
    }
    if (promised) this.#listKept(v, stay, promised);
  }

  #listNone(v: number, stay: StayModel): void {
    const { endKwh, readySlots } = this.outcome(v, null, stay.arrive, stay.arrive);
    if (endKwh < stay.targetKwh - TINY_KWH) return;
    this.klass.push(NO_CLASS);
    this.curve.push(-1);
    for (const column of [this.plug, this.start, this.stop, this.unplug]) column.push(stay.arrive);
    for (const column of [this.cents, this.swap, this.wakes]) column.push(0);
    this.change.push(stay.promised ? 1 : 0);
    this.fullMissed.push(stay.fullDue && endKwh < stay.fullKwh - TINY_KWH ? 1 : 0);
    this.ready.push(readySlots);
    this.pinned.push(-1);
  }

  #listTimed(v: number, stay: StayModel, on: Place): void {
    const change = stay.promised ? 1 : 0;
    const kwh = this.curves.kwh;
    for (let start = Math.max(stay.arrive, this.model.now); start < stay.depart; start++) {
      if (kwh[on.curve.offsets[start - stay.arrive] as number] === 0) continue; // in a cut, or full already: a later start is as good
      const plugIns = this.hands.plugIns(stay, start);
      for (const stop of this.#stops(v, stay, on.curve, start)) {
        const outcome = this.outcome(v, on.curve, start, stop);
        for (const unplug of this.hands.unplugs(stay, stop))
          for (const plug of plugIns) this.#add(stay, on, outcome, { plug, start, stop, unplug, change });
      }
    }
  }

  #listUntimed(v: number, stay: StayModel, on: Place): void {
    const change = stay.promised ? 1 : 0;
    for (const plug of this.hands.allPlugIns(stay)) {
      const ends = new Map<number, Hand>();
      for (const stop of this.#stops(v, stay, on.curve, plug.at))
        for (const unplug of this.hands.unplugs(stay, stop)) ends.set(unplug.at, unplug);
      for (const unplug of ends.values()) {
        const outcome = this.outcome(v, on.curve, plug.at, unplug.at);
        this.#add(stay, on, outcome, { plug, start: plug.at, stop: unplug.at, unplug, change });
      }
    }
  }

  /** Whether a promised session can still be kept as it was told. */
  canKeep(stay: StayModel, promised: Promised): boolean {
    const { now, classOfSocket, classes } = this.model;
    const index = classOfSocket[promised.socket] as number;
    return (
      stay.classes.includes(index) &&
      promised.plug >= Math.max(now, stay.arrive) &&
      promised.unplug <= stay.depart &&
      this.hands.isPlugIn(stay, promised.plug) &&
      this.hands.isUnplug(stay, promised.unplug) &&
      ((classes[index] as SocketClass).timer || promised.start === promised.plug)
    );
  }

  /** A promise kept: same socket, plug-in, start and unplugging; only the stop is free. */
  #listKept(v: number, stay: StayModel, promised: Promised): void {
    if (!this.canKeep(stay, promised)) return;
    const index = this.model.classOfSocket[promised.socket] as number;
    const kind = this.model.classes[index] as SocketClass;
    const { curve, place } = this.curves.curveOf(v, kind.limitKw);
    for (const stop of this.#keptStops(v, stay, { curve, kind, start: promised.start, unplug: promised.unplug }))
      this.#addBound(v, stay, { index, curve, place }, { ...promised, stop, change: 0 });
  }

  /** A session that is plugged in already: its past is fixed, and only what is still open may move. */
  #listBegun(v: number, stay: StayModel, promised: Promised): void {
    const { now, classOfSocket, classes } = this.model;
    const index = classOfSocket[promised.socket] as number;
    const kind = classes[index] as SocketClass;
    const { curve, place } = this.curves.curveOf(v, kind.limitKw);
    for (const start of this.begunStarts(stay, promised)) {
      const unplugs =
        promised.unplug < now ? [promised.unplug] : this.#begunUnplugs(v, stay, { curve, kind, start, promised });
      for (const unplug of unplugs) {
        const change = start === promised.start && unplug === promised.unplug ? 0 : 1;
        const stops =
          promised.stop < now
            ? [promised.stop]
            : this.#keptStops(v, stay, { curve, kind, start, unplug }).filter((b) => b >= now);
        for (const stop of stops)
          this.#addBound(
            v,
            stay,
            { index, curve, place },
            { plug: promised.plug, start, stop, unplug, socket: promised.socket, change },
          );
      }
    }
  }

  begunStarts(stay: StayModel, promised: Promised): number[] {
    const { now, classOfSocket, classes } = this.model;
    const kind = classes[classOfSocket[promised.socket] as number] as SocketClass;
    if (promised.start < now || !kind.timer) return [promised.start];
    return Array.from({ length: Math.max(0, stay.depart - now) }, (_, k) => now + k);
  }

  #begunUnplugs(v: number, stay: StayModel, on: Begun): Set<number> {
    const { now } = this.model;
    const { curve, start, promised } = on;
    const ends = new Set<number>(promised.unplug >= now && promised.unplug <= stay.depart ? [promised.unplug] : []);
    for (const stop of this.#stops(v, stay, curve, start))
      for (const hand of this.hands.unplugs(stay, Math.max(stop, now))) ends.add(hand.at);
    return ends;
  }

  /** Stops that satisfy before a fixed unplugging. Without a timer the charge runs to the unplugging. */
  #keptStops(
    v: number,
    stay: StayModel,
    on: { curve: Curve; kind: SocketClass; start: number; unplug: number },
  ): number[] {
    const { curve, kind, start, unplug } = on;
    const stops = this.#stops(v, stay, curve, start).filter((stop) => stop <= unplug);
    return kind.timer ? stops : stops.length > 0 ? [unplug] : [];
  }

  /**
   * Stops worth having for a start: the first that reaches the target by departure, and the first that reaches full when that is due.
   * With a roof that would do the rest later, every stop up to the target itself: ready earlier, where it costs nothing.
   */
  #stops(v: number, stay: StayModel, curve: Curve, start: number): number[] {
    const idle = this.curves.unplugged(v);
    const kwh = this.curves.kwh;
    const offset = (curve.offsets[start - stay.arrive] as number) - start;
    const goal = stay.targetKwh - TINY_KWH;
    const stops: number[] = [];
    let level = idle.levelKwh[start - stay.arrive] as number;
    let reached = false;
    let ready = false;
    let filled = !stay.fullDue;
    for (let t = start; t < stay.depart && !(reached && ready && filled); t++) {
      level = Math.min(stay.fullKwh, level + this.#roofKwh(stay, t)) + (kwh[offset + t] as number);
      if (stay.fullKwh - level < TINY_KWH) level = stay.fullKwh;
      const endKwh = endLevel(stay, idle, level, t + 1);
      if (endKwh < goal) continue;
      const fills = endKwh >= stay.fullKwh - TINY_KWH;
      if (!reached || !ready || (fills && !filled)) stops.push(t + 1);
      reached = true;
      ready = level >= goal;
      filled ||= fills;
    }
    return stops;
  }

  #add(stay: StayModel, on: Place, outcome: RunResult, run: Listed): void {
    const { plug, start, stop, unplug, change } = run;
    this.#push(stay, on, outcome, { plug: plug.at, start, stop, unplug: unplug.at, change, socket: -1 });
    this.swap.push(plug.swap ? 1 : 0);
    this.wakes.push((plug.wake ? 1 : 0) + (unplug.wake ? 2 : 0));
  }

  #addBound(v: number, stay: StayModel, on: Place, run: Bound): void {
    this.#push(stay, on, this.outcome(v, on.curve, run.start, run.stop), run);
    this.swap.push(run.plug === stay.arrive ? 0 : 1);
    this.wakes.push(
      (this.hands.wakesToPlug(stay, run.plug) ? 1 : 0) + (this.hands.wakesToUnplug(stay, run.unplug) ? 2 : 0),
    );
  }

  #push(stay: StayModel, on: Place, { endKwh, cents, readySlots }: RunResult, run: Bound): void {
    this.klass.push(on.index);
    this.curve.push(on.place);
    this.plug.push(run.plug);
    this.start.push(run.start);
    this.stop.push(run.stop);
    this.unplug.push(run.unplug);
    this.cents.push(cents);
    this.change.push(run.change);
    this.fullMissed.push(stay.fullDue && endKwh < stay.fullKwh - TINY_KWH ? 1 : 0);
    this.ready.push(readySlots);
    this.pinned.push(run.socket);
  }
}

interface Place {
  readonly index: number;
  readonly curve: Curve;
  readonly place: number;
}
interface Listed {
  readonly plug: Hand;
  readonly start: number;
  readonly stop: number;
  readonly unplug: Hand;
  readonly change: number;
}
interface Bound {
  readonly plug: number;
  readonly start: number;
  readonly stop: number;
  readonly unplug: number;
  readonly socket: number;
  readonly change: number;
}
interface Begun {
  readonly curve: Curve;
  readonly kind: SocketClass;
  readonly start: number;
  readonly promised: Promised;
}

function endLevel(stay: StayModel, idle: Unplugged, levelKwh: number, at: number): number {
  const end = levelKwh + (idle.roofAfterKwh[at - stay.arrive] as number);
  return stay.fullKwh - end < TINY_KWH ? stay.fullKwh : end;
}

function firstReady(levels: Float64Array, stay: StayModel, until: number): number {
  for (let k = 0; k <= until - stay.arrive; k++) if ((levels[k] as number) >= stay.targetKwh - TINY_KWH) return k;
  return -1;
}

function readyAfter(stay: StayModel, idle: Unplugged, levelKwh: number, from: number): number {
  const here = idle.roofAfterKwh[from - stay.arrive] as number;
  for (let k = from - stay.arrive; k <= stay.depart - stay.arrive; k++) {
    const level = Math.min(stay.fullKwh, levelKwh + here - (idle.roofAfterKwh[k] as number));
    if (level >= stay.targetKwh - TINY_KWH) return k;
  }
  return stay.depart - stay.arrive;
}
