import { type Dice, diceOf } from "../../units/dice.js";
import {
  AIM,
  AIM_COUNT,
  Board,
  CHANGES,
  FIELDS,
  FULL,
  HANDLING,
  MISSING,
  MONEY,
  READY,
  SHORT,
  START,
  WEIGHT,
} from "./board.js";
import { Inserter } from "./insert.js";
import type { Menu } from "./menu.js";
import type { StayModel, YardModel } from "./model.js";
import { PartialRuns } from "./partial.js";
import type { Ranking, Weights } from "./rankings.js";

const MOST_REMOVED = 16;
/** Most short ones taken out in one step. */
const SHORT_REMOVED = 3;
/** A plan worse by so many heats is taken once in a million times: it need not be finished. */
const HOPELESS = 14;

/** How one step of ruin and recreate goes about it. */
export interface Move {
  readonly ranking: Ranking;
  readonly weights: Weights;
  /** Hundredths of money by which a worse plan is still taken now and then, and by which insertions are blurred. */
  readonly heat: number;
  /** Most stays taken out, besides those that are short. */
  readonly most: number;
  /** Gives no partial runs: they would hold the power that the next one needs to be served in full. */
  readonly bare: boolean;
}

/**
 * Ruin and recreate: takes a few stays off the board that stand near each other in time, and puts them back one by one where they fit.
 * Sources: G. Schrimpf et al. (2000), Record breaking optimization results using the ruin and recreate principle, J. Comput. Phys. 159;
 * J. Christiaens, G. Vanden Berghe (2020), Slack induction by string removals, Transp. Sci. 54. Insertion here is a heat bath.
 */
export class Search {
  readonly menu: Menu;
  readonly model: YardModel;
  readonly board: Board;
  readonly dice: Dice;
  /** The best plan so far by the strict order of the aims, and its aims (kWh and money in hundredths). */
  readonly best: Float64Array;
  readonly bestAims = new Float64Array(AIM_COUNT).fill(Number.POSITIVE_INFINITY);
  /** By stay: hundredths of a kWh missing even if it had the yard to itself. */
  readonly #leastMissing: Float64Array;
  readonly #leastSum: number;
  readonly #inserter: Inserter;
  readonly #partials: PartialRuns;
  readonly #saved = new Float64Array(MOST_REMOVED * FIELDS);
  readonly #picked: number[] = [];
  readonly #isPicked: Uint8Array;
  readonly #differs: Uint8Array;
  readonly #different: number[] = [];

  constructor(menu: Menu, leastMissing: Float64Array, seed: number) {
    this.menu = menu;
    this.model = menu.model;
    this.board = new Board(menu);
    this.dice = diceOf(seed);
    this.#inserter = new Inserter(this.board);
    this.#partials = new PartialRuns(this.board);
    const n = this.model.stays.length;
    this.best = this.board.cur.slice();
    this.#isPicked = new Uint8Array(n);
    this.#differs = new Uint8Array(n);
    this.#leastMissing = leastMissing;
    this.#leastSum = leastMissing.reduce((sum, one) => sum + one, 0);
  }

  /** In the best plan somebody misses more than he would if he had the yard to himself. */
  get someoneToHelp(): boolean {
    return (this.bestAims[MISSING] as number) > this.#leastSum;
  }

  /** More are short in the best plan than one step takes out. */
  get manyShort(): boolean {
    return this.someoneToHelp && (this.bestAims[SHORT] as number) > SHORT_REMOVED;
  }

  /** A plan from nothing: stays in the given order, each in its cheapest session that fits; the rest get what is left. */
  build(wanted: readonly number[], ranking: Ranking): void {
    for (let v = 0; v < this.model.stays.length; v++) this.#lift(v);
    const begun = wanted.filter((v) => this.model.stays[v]?.promised?.begun === true);
    const order = begun.length > 0 ? [...begun, ...wanted.filter((v) => !begun.includes(v))] : wanted;
    const failed = order.filter((v) => !this.#inserter.insert(v, ranking, 0, this.dice));
    for (const v of failed) if (!this.#partials.insert(v)) this.#partials.force(v);
    for (const v of order) this.#mark(v);
    this.keepIfBetter();
  }

  /** Three plans, by least slack, earliest departure and earliest arrival; the best of them stays on the board. */
  firstPlan(ranking: Ranking): void {
    const { stays, hours } = this.model;
    const slack = (stay: StayModel): number =>
      stay.depart - stay.arrive - (stay.targetKwh - stay.arriveKwh) / (stay.chargerKw * hours);
    const ranks = [slack, (stay: StayModel) => stay.depart, (stay: StayModel) => stay.arrive];
    for (const rank of ranks) {
      const value = Float64Array.from(stays, rank);
      const order = stays
        .map((_, v) => v)
        .sort((one, other) => (value[one] as number) - (value[other] as number) || one - other);
      this.build(order, ranking);
    }
    this.restore();
  }

  /** Back to the best plan. */
  restore(): void {
    for (const v of this.#different) this.#lift(v);
    for (const v of this.#different) {
      this.board.put(v, this.best, v * FIELDS);
      this.#differs[v] = 0;
    }
    this.#different.length = 0;
  }

  /** Keeps the plan on the board when it is better by the strict order of the aims; true when it was. */
  keepIfBetter(): boolean {
    const { totals } = this.board;
    const demand = this.board.demandCents();
    for (let aim = 0; aim < AIM_COUNT; aim++) {
      const difference =
        (totals[aim] as number) - (this.bestAims[aim] as number) + (aim === MONEY ? demand + this.#worthMore() : 0);
      if (Math.abs(difference) < 1e-3) continue;
      if (difference > 0) return false;
      this.#keep(demand);
      return true;
    }
    return false;
  }

  /** Hundredths of money by which the handling on the board is worth more than that of the best plan. */
  #worthMore(): number {
    const { swapWorthCents } = this.model;
    if (swapWorthCents === 0) return 0;
    return swapWorthCents * ((this.board.totals[HANDLING] as number) - (this.bestAims[HANDLING] as number));
  }

  #keep(demand: number): void {
    this.bestAims.set(this.board.totals);
    this.bestAims[MONEY] = (this.bestAims[MONEY] as number) + demand;
    for (const v of this.#different) {
      for (let k = v * FIELDS; k < (v + 1) * FIELDS; k++) this.best[k] = this.board.cur[k] as number;
      this.#differs[v] = 0;
    }
    this.#different.length = 0;
  }

  #mark(v: number): void {
    if (this.#differs[v]) return;
    this.#differs[v] = 1;
    this.#different.push(v);
  }

  #lift(v: number): void {
    if (this.board.isServed(v)) this.board.lift(v);
  }

  /** The plan on the board by the weights, in hundredths of money. */
  cost(weights: Weights): number {
    return this.#weighed(weights, this.board.totals) + this.board.demandCents();
  }

  bestCost(weights: Weights): number {
    return this.#weighed(weights, this.bestAims);
  }

  #weighed(weights: Weights, totals: Float64Array): number {
    return (
      weights.short * (totals[SHORT] as number) +
      weights.weight * (totals[WEIGHT] as number) +
      weights.missing * (totals[MISSING] as number) +
      weights.changes * (totals[CHANGES] as number) +
      weights.full * (totals[FULL] as number) +
      (totals[MONEY] as number) +
      weights.swap * (totals[HANDLING] as number) +
      weights.ready * (totals[READY] as number)
    );
  }

  /** One ruin and recreate; true when it gave a new best plan. */
  step(move: Move): boolean {
    if (this.model.stays.length === 0) return false;
    const before = this.cost(move.weights);
    this.#pick(move.most);
    const picked = this.#picked;
    for (let k = 0; k < picked.length; k++) {
      const v = picked[k] as number;
      for (let field = 0; field < FIELDS; field++)
        this.#saved[k * FIELDS + field] = this.board.cur[v * FIELDS + field] as number;
      this.#lift(v);
    }
    const most = before + HOPELESS * move.heat;
    const whole = this.#recreate(this.#shuffled(picked), move, most);
    const after = whole ? this.cost(move.weights) : Number.POSITIVE_INFINITY;
    const taken = after <= before || (after < most && this.dice() < Math.exp((before - after) / move.heat));
    if (taken) for (const v of picked) this.#mark(v);
    else {
      for (const v of picked) this.#lift(v);
      for (let k = 0; k < picked.length; k++) this.board.put(picked[k] as number, this.#saved, k * FIELDS);
    }
    for (const v of picked) this.#isPicked[v] = 0;
    return taken && (move.bare ? this.#servesMore() && this.fill() : this.keepIfBetter());
  }

  /** Fewer are short than in the best plan, or less that matters. */
  #servesMore(): boolean {
    const { totals } = this.board;
    const fewer = (totals[SHORT] as number) - (this.bestAims[SHORT] as number);
    return fewer < 0 || (fewer === 0 && (totals[WEIGHT] as number) < (this.bestAims[WEIGHT] as number) - 1e-9);
  }

  /** Takes the partial runs off, so that the search can serve in full. */
  bare(): void {
    for (const [v, { promised }] of this.model.stays.entries()) {
      if (!this.board.isShort(v) || promised?.begun) continue;
      this.#lift(v);
      this.#mark(v);
    }
  }

  /** Gives those left short what is there, looks whether that is the best plan, and takes it back. */
  fill(): boolean {
    for (const [v] of this.model.stays.entries())
      if (this.board.isShort(v) && !this.board.isServed(v) && this.#partials.insert(v)) this.#mark(v);
    const better = this.keepIfBetter();
    this.bare();
    return better;
  }

  /**
   * Puts stays back one by one. What does not fit gets a partial run from what is left; now and then one of them is given up first
   * and takes its partial run before the others, which leaves less missing than the left-overs would. False
   * when the plan is given up half-way, because whatever the partial runs bring it would cost more than `most`.
   */
  #recreate(order: readonly number[], { ranking, heat, weights, bare }: Move, most: number): boolean {
    const given =
      this.#wasShort(0) && this.dice() < 0.3 ? (order[Math.floor(this.dice() * order.length)] as number) : -1;
    if (given >= 0) this.#giveUp(given);
    const failed: number[] = [];
    for (const v of order) if (v !== given && !this.#inserter.insertWarm(v, ranking, heat, this.dice)) failed.push(v);
    if (failed.length === 0 || (bare && !failed.some((v) => this.#mustStay(v)))) return true;
    let missing = 0;
    for (const v of failed) missing += this.board.cur[v * FIELDS + AIM + MISSING] as number;
    if (this.cost(weights) - weights.missing * missing > most) return false;
    for (const v of failed) if (!bare || this.#mustStay(v)) this.#giveUp(v);
    return true;
  }

  #mustStay(v: number): boolean {
    return this.model.stays[v]?.promised?.begun === true;
  }

  /** The best partial run; now and then another, as the best for one may not be the best for all. */
  #giveUp(v: number): void {
    if (this.dice() < 0.2) this.#partials.insertLoosely(v, this.dice);
    else this.#partials.insert(v);
  }

  /** Up to three short ones, one stay at random, and those that start nearest to it in small random draws. */
  #pick(most: number): void {
    const { dice, board } = this;
    const n = this.model.stays.length;
    this.#picked.length = 0;
    if ((board.totals[SHORT] as number) > 0) this.#pickShort();
    const seed = this.#picked.length > 0 && dice() < 0.5 ? (this.#picked[0] as number) : Math.floor(dice() * n);
    this.#choose(seed);
    const count = this.#picked.length + Math.floor(dice() * most);
    const start = this.#startNear(seed);
    for (let tries = 0; this.#picked.length < count && tries < 24; tries++) {
      let nearest = -1;
      let least = Number.POSITIVE_INFINITY;
      for (let draw = 0; draw < 4; draw++) {
        const v = Math.floor(dice() * n);
        const distance = Math.abs((board.cur[v * FIELDS + START] as number) - start);
        if (distance >= least || this.#isPicked[v]) continue;
        least = distance;
        nearest = v;
      }
      if (nearest >= 0) this.#choose(nearest);
    }
  }

  /** Where a stay stands, or now and then, and always when it does not, where it might. */
  #startNear(v: number): number {
    const from = this.menu.from[v] as number;
    const count = (this.menu.from[v + 1] as number) - from;
    if (count === 0 || (this.board.isServed(v) && this.dice() < 0.7))
      return this.board.cur[v * FIELDS + START] as number;
    return this.menu.start.values[from + Math.floor(this.dice() * count)] as number;
  }

  #pickShort(): void {
    const n = this.model.stays.length;
    const from = Math.floor(this.dice() * n);
    for (let k = 0; k < n && this.#picked.length < SHORT_REMOVED; k++) {
      const v = (from + k) % n;
      if ((this.board.cur[v * FIELDS + AIM + MISSING] as number) > (this.#leastMissing[v] as number)) this.#choose(v);
    }
  }

  #choose(v: number): void {
    if (this.#isPicked[v]) return;
    this.#isPicked[v] = 1;
    this.#picked.push(v);
  }

  /** Random order; every second time a short one comes first. */
  #shuffled(picked: readonly number[]): number[] {
    const order = [...picked];
    const first = this.dice() < 0.5 && this.#wasShort(0) ? 1 : 0;
    for (let k = order.length - 1; k > first; k--) {
      const other = first + Math.floor(this.dice() * (k + 1 - first));
      const held = order[k] as number;
      order[k] = order[other] as number;
      order[other] = held;
    }
    return order;
  }

  #wasShort(k: number): boolean {
    return this.#saved[k * FIELDS + AIM + SHORT] === 1;
  }
}
