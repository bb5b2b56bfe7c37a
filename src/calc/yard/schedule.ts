import { Ascent } from "./prices.js";
import { dearestCents, ownCosts, type Ranking, ranked, type Weights, weightsOf } from "./rankings.js";
import type { Search } from "./search.js";

const SHAKE = 0.5;
const REFRESH = 2000;
const PATIENCE = 24;

/** Leads a search through cycles of cooling, each longer than the one before, with prices of scarcity as a guide. */
export class Schedule {
  readonly #search: Search;
  readonly ascent: Ascent;
  readonly #dearest: number;
  readonly #hot: number;
  readonly #most: number;
  #cycle = 0;
  #length: number;
  #at = 0;
  #steps = 0;
  #idle = 0;
  #weights: Weights;
  readonly #plain: Ranking;
  #guided: Ranking | null = null;
  #shaken: Ranking | null = null;

  constructor(search: Search, plain: Ranking) {
    const { menu } = search;
    this.#search = search;
    this.#dearest = dearestCents(menu);
    this.#weights = weightsOf(this.#dearest);
    this.#plain = plain;
    this.ascent = new Ascent(menu, ownCosts(menu, this.#weights), this.#weights.short);
    this.#hot = 0.2 * this.#dearest;
    this.#most = 6;
    this.#length = 1000 + 40 * menu.model.stays.length;
  }

  /** Goes on for a number of steps; true when a better plan was found. */
  run(steps: number): boolean {
    let better = false;
    for (let k = 0; k < steps; k++) {
      if (this.#at === 0) this.#startCycle();
      if (this.#steps++ % REFRESH === 0) this.#refresh();
      const heat = this.#heat(this.#at / this.#length);
      if (this.#search.step({ ranking: this.#ranking(), weights: this.#weights, heat, most: this.#most }))
        better = true;
      if (++this.#at >= this.#length) this.#at = 0;
    }
    return better;
  }

  /** Many cycles have gone by without a better plan. */
  get tired(): boolean {
    return this.#idle > PATIENCE;
  }

  /** Cools first through what money is moved by, then through swaps, then through readiness; between them nothing happens. */
  #heat(share: number): number {
    const { swap, ready } = this.#weights;
    if (share < FOR_MONEY) return between(this.#hot, 20, share / FOR_MONEY);
    if (share < FOR_SWAPS) return between(3 * swap, 0.2 * swap, (share - FOR_MONEY) / (FOR_SWAPS - FOR_MONEY));
    return between(5 * ready, 0.1 * ready, (share - FOR_SWAPS) / (1 - FOR_SWAPS));
  }

  #startCycle(): void {
    this.#idle++;
    if (this.#cycle > 0) {
      this.#search.restore();
      this.#length = Math.min(40_000 + 40 * this.#search.model.stays.length, Math.round(this.#length * 1.5));
    }
    const gentle = { missing: this.#cycle % 2 === 0 ? 0.006 : 0.012, swap: 0.02 };
    this.#weights = weightsOf(this.#dearest, gentle);
    this.#cycle++;
  }

  #refresh(): void {
    const { menu, dice } = this.#search;
    const own = this.#plain.key;
    this.#guided = ranked(
      menu,
      this.ascent.keys(own, () => 1),
    );
    this.#shaken = ranked(
      menu,
      this.ascent.keys(own, () => 1 + SHAKE * (2 * dice() - 1)),
    );
  }

  #ranking(): Ranking {
    // prices are coarser than swaps and readiness
    if (this.#at > FOR_MONEY * this.#length) return this.#plain;
    const draw = this.#search.dice();
    if (draw < 0.5 && this.#guided) return this.#guided;
    return draw < 0.8 && this.#shaken ? this.#shaken : this.#plain;
  }
}

const FOR_MONEY = 0.95;
const FOR_SWAPS = 0.97;
const between = (from: number, to: number, share: number): number => from * (to / from) ** share;
