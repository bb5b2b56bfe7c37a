import type { Dice } from "../../units/dice.js";
import {
  AIM,
  type Board,
  CHANGES,
  CURVE,
  FIELDS,
  FULL,
  HANDLING,
  KLASS,
  MISSING,
  MONEY,
  PLUG,
  READY,
  SHORT,
  SOCKET,
  START,
  STOP,
  UNPLUG,
  WAKES,
  WEIGHT,
} from "./board.js";
import { type Menu, NO_CLASS } from "./menu.js";
import type { StayModel } from "./model.js";
import type { Ranking } from "./rankings.js";

/** What one swap weighs against a hundredth of money: too little to outweigh it in one session. */
const SWAP_CENTS = 0.02;

/** Finds a stay its cheapest session that still fits. */
export class Inserter {
  readonly board: Board;
  readonly menu: Menu;
  readonly #row = new Float64Array(FIELDS);
  readonly #reach: Int32Array;
  readonly #stamp: Int32Array;
  #round = 0;
  #peakRound = 0;
  #peakKw = 0;

  constructor(board: Board) {
    this.board = board;
    this.menu = board.menu;
    const size = (board.model.classes.length + 1) * (board.model.slots + 1);
    this.#reach = new Int32Array(size);
    this.#stamp = new Int32Array(size);
  }

  /**
   * Puts a stay on the board with the best session by `ranking` for which power, socket and hands are there; each candidate is
   * passed over with chance `blink`. False when none fits.
   */
  insert(v: number, ranking: Ranking, blink: number, dice: Dice): boolean {
    const { menu, board } = this;
    const stay = board.model.stays[v] as StayModel;
    const to = menu.from[v + 1] as number;
    this.#round++;
    let best = -1;
    let bestCost = Number.POSITIVE_INFINITY;
    for (let k = menu.from[v] as number; k < to; k++) {
      const i = ranking.order[k] as number;
      const key = ranking.key[i] as number;
      if (key >= bestCost) break;
      if (blink > 0 && dice() < blink) continue;
      if (!this.fits(stay, i)) continue;
      const cost = key + this.#extra(stay, i);
      if (cost < bestCost) {
        bestCost = cost;
        best = i;
      }
    }
    if (best < 0) return false;
    this.#write(best);
    board.put(v, this.#row, 0);
    return true;
  }

  /** Like `insert`, but each session's key is blurred by Gumbel noise of a temperature: a heat bath over what fits. */
  insertWarm(v: number, ranking: Ranking, heat: number, dice: Dice): boolean {
    const { menu, board } = this;
    const stay = board.model.stays[v] as StayModel;
    const to = menu.from[v + 1] as number;
    this.#round++;
    let best = -1;
    let bestCost = Number.POSITIVE_INFINITY;
    const reach = heat * NOISE_MOST;
    for (let k = menu.from[v] as number; k < to; k++) {
      const i = ranking.order[k] as number;
      const key = ranking.key[i] as number;
      if (key - reach >= bestCost) break;
      const cost = key - heat * (NOISE[(dice() * NOISE.length) | 0] as number);
      if (cost >= bestCost || !this.fits(stay, i)) continue;
      const whole = cost + this.#extra(stay, i);
      if (whole < bestCost) {
        bestCost = whole;
        best = i;
      }
    }
    if (best < 0) return false;
    this.#write(best);
    board.put(v, this.#row, 0);
    return true;
  }

  /** Starts a round of look-ups with `fits`: the board has changed, or another stay is meant. */
  begin(): void {
    this.#round++;
  }

  /** Whether a session of a stay finds socket and power on the board as it is (see `begin`). */
  fits(stay: StayModel, i: number): boolean {
    const { menu, board } = this;
    const klass = menu.klass.values[i] as number;
    if (klass === NO_CLASS) return true;
    const plug = menu.plug.values[i] as number;
    const unplug = menu.unplug.values[i] as number;
    const pinned = menu.pinned.values[i] as number;
    const room =
      board.named && pinned >= 0
        ? board.socketRoom(pinned, plug)
        : (board.rooms(klass)[klass * (board.model.slots + 1) + plug] as number);
    return room >= unplug && this.#hasPower(stay, i);
  }

  /** Many sessions of a stay share a start: how far its power reaches is looked up once. */
  #hasPower(stay: StayModel, i: number): boolean {
    const { menu, board } = this;
    const start = menu.start.values[i] as number;
    const stop = menu.stop.values[i] as number;
    const place = menu.curve.values[i] as number;
    const slot = (place - (menu.firstCurve[stay.index] as number)) * (board.model.slots + 1) + start;
    if (this.#stamp[slot] !== this.#round) {
      this.#stamp[slot] = this.#round;
      this.#reach[slot] = start;
    }
    const known = this.#reach[slot] as number;
    if (known < 0) return stop <= -known; // blocked in slot -known
    if (known >= stop) return true;
    const offset = board.curve(place).offsets[start - stay.arrive] as number;
    const reached = board.reach(offset, start, stop, known);
    this.#reach[slot] = reached < stop ? -reached : reached;
    return reached >= stop;
  }

  /** What depends on who is on the board already: a waking nobody else needs, and a higher peak. */
  #extra(stay: StayModel, i: number): number {
    const { menu, board } = this;
    const { wakeWeight, swapWorthCents, demandPerKw } = board.model;
    const wakeCents = wakeWeight * (SWAP_CENTS + swapWorthCents);
    const wakes = menu.wakes.values[i] as number;
    let cost = 0;
    if (wakes & 1 && board.wakeCount[menu.plug.values[i] as number] === 0) cost += wakeCents;
    if (wakes & 2 && board.wakeCount[menu.unplug.values[i] as number] === 0) cost += wakeCents;
    if (demandPerKw > 0 && menu.klass.values[i] !== NO_CLASS) cost += demandPerKw * 100 * this.#higherKw(stay, i);
    return cost;
  }

  /** kW by which a session lifts the peak of the night. */
  #higherKw(stay: StayModel, i: number): number {
    const { menu, board } = this;
    if (this.#peakRound !== this.#round) {
      this.#peakRound = this.#round;
      this.#peakKw = board.peakKw();
    }
    const start = menu.start.values[i] as number;
    const offset = (board.curve(menu.curve.values[i] as number).offsets[start - stay.arrive] as number) - start;
    const kwh = menu.curves.kwh;
    let peak = this.#peakKw;
    for (let t = start; t < (menu.stop.values[i] as number); t++) {
      const kw = board.meterKw(t) + (kwh[offset + t] as number) / board.model.hours;
      if (kw > peak) peak = kw;
    }
    return peak - this.#peakKw;
  }

  #write(i: number): void {
    const { menu, board } = this;
    const row = this.#row;
    const klass = menu.klass.values[i] as number;
    const plug = menu.plug.values[i] as number;
    const unplug = menu.unplug.values[i] as number;
    const pinned = menu.pinned.values[i] as number;
    row[KLASS] = klass;
    row[CURVE] = menu.curve.values[i] as number;
    row[PLUG] = plug;
    row[START] = menu.start.values[i] as number;
    row[STOP] = menu.stop.values[i] as number;
    row[UNPLUG] = unplug;
    row[SOCKET] = pinned >= 0 ? pinned : klass === NO_CLASS ? -1 : board.chooseSocket(klass, plug, unplug);
    row[WAKES] = menu.wakes.values[i] as number;
    row[AIM + SHORT] = 0;
    row[AIM + WEIGHT] = 0;
    row[AIM + MISSING] = 0;
    row[AIM + CHANGES] = menu.change.values[i] as number;
    row[AIM + FULL] = menu.fullMissed.values[i] as number;
    row[AIM + MONEY] = menu.cents.values[i] as number;
    row[AIM + HANDLING] = menu.swap.values[i] as number;
    row[AIM + READY] = menu.ready.values[i] as number;
  }
}

/** Quantiles of the Gumbel distribution, evenly spaced: drawing one at random is drawing from it. */
const NOISE = Float64Array.from({ length: 4096 }, (_, k) => -Math.log(-Math.log((k + 0.5) / 4096)));
const NOISE_MOST = NOISE[4095] as number;
