import { Ascent } from "./prices.js";
import { dearestCents, ownCosts, type Ranking, ranked, type Weights, weightsOf } from "./rankings.js";
import type { Search } from "./search.js";

const SHAKE = 0.5;
const REFRESH = 2000;
const PATIENCE = 24;
/** Longest cycle while somebody is short: who it is is found sooner by many short cycles than by few long ones. */
const SHORT_CYCLE = 5000;
const LONG_CYCLE = 40_000;

/**
 * What a cycle is after. `money`: everything by its weight. `kwh` and `wildKwh`: how little may be missing, cooled no further than
 * hundredths of a kWh weigh, the wild one from hot enough to change who is short. `serve`: to serve more in full, without partial runs.
 */
type Kind = "money" | "kwh" | "wildKwh" | "serve";
const FEW_SHORT: readonly Kind[] = ["kwh", "wildKwh", "money"];
const MANY_SHORT: readonly Kind[] = ["serve", "kwh", "serve", "wildKwh", "serve", "money"];

/** Leads a search through cycles of cooling, each longer than the one before, with prices of scarcity as a guide. */
export class Schedule {
  readonly #search: Search;
  readonly ascent: Ascent;
  readonly #dearest: number;
  readonly #worthCents: number;
  readonly #hot: number;
  readonly #most: number;
  #cycle = 0;
  #length: number;
  #at = 0;
  #steps = 0;
  #idle = 0;
  #kind: Kind = "money";
  #turn = 0;
  #served = false;
  #weights: Weights;
  #plain: Ranking;
  readonly #strict: Ranking;
  #lax: Ranking | null = null;
  #guided: Ranking | null = null;
  #shaken: Ranking | null = null;

  constructor(search: Search, plain: Ranking) {
    const { menu } = search;
    this.#search = search;
    this.#dearest = dearestCents(menu);
    this.#worthCents = menu.model.swapWorthCents;
    this.#weights = weightsOf(this.#dearest, this.#worthCents);
    this.#plain = plain;
    this.#strict = plain;
    this.ascent = new Ascent(menu, ownCosts(menu, this.#weights), this.#weights.short);
    this.#hot = 0.2 * this.#dearest;
    this.#most = 6;
    this.#length = 1000 + 15 * menu.model.stays.length;
  }

  /** Goes on for a number of steps; true when a better plan was found. */
  run(steps: number): boolean {
    let better = false;
    for (let k = 0; k < steps; k++) {
      if (this.#at === 0) this.#startCycle();
      if (this.#steps++ % REFRESH === 0) this.#refresh();
      if (this.#at === Math.ceil(this.#forMoney * this.#length) && this.#kind !== "serve") this.#search.restore();
      const heat = this.#heat(this.#at / this.#length);
      if (
        this.#search.step({
          ranking: this.#ranking(),
          weights: this.#weights,
          heat,
          most: this.#most,
          bare: this.#kind === "serve",
        })
      )
        better = this.#served = true;
      if (++this.#at < this.#length) continue;
      this.#at = 0;
      if (this.#kind === "serve" && this.#search.fill()) better = true;
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
    const swapHeat = swap - this.#worthCents; // what a swap is worth has its turn with the money
    const forKwh = this.#kind === "kwh" || this.#kind === "wildKwh";
    const times = this.#kind === "wildKwh" ? WILD : this.#cycle === 1 ? MILD : 1;
    if (share < this.#forMoney) return between(times * this.#hot, forKwh ? this.#coldKwh : 2, share / this.#forMoney);
    const rest = (share - this.#forMoney) / (1 - this.#forMoney);
    if (rest < 0.5) return between(3 * swapHeat, 0.2 * swapHeat, 2 * rest);
    return between(5 * ready, 0.1 * ready, 2 * rest - 1);
  }

  /** While somebody is short, who it is matters most; swaps and readiness can wait. */
  get #forMoney(): number {
    return this.#search.someoneToHelp ? 0.95 : 0.65;
  }

  #startCycle(): void {
    this.#idle++;
    if (this.#cycle > 0) {
      this.#search.restore();
      const most = (this.#search.someoneToHelp ? SHORT_CYCLE : LONG_CYCLE) + 40 * this.#search.model.stays.length;
      this.#length = Math.min(most, Math.round(this.#length * 1.5));
    }
    this.#vary(this.#cycle);
    this.#cycle++;
  }

  /** While somebody is short the weights change with the cycles, so that kWh, full charges and money are traded in more than one way. */
  #vary(cycle: number): void {
    const helps = this.#search.someoneToHelp;
    this.#kind = this.#nextKind();
    const lax = helps && cycle % 8 === 1;
    this.#weights = weightsOf(this.#dearest, this.#worthCents, {
      ...(lax ? { full: 0.2, missing: 0.03 } : {}),
      ...(this.#kind === "serve" ? { missing: 0 } : {}),
    });
    if (lax && this.#lax === null) this.#lax = this.#rankedBy(this.#weights);
    const plain = (lax ? this.#lax : null) ?? this.#strict;
    if (plain !== this.#plain) this.#steps = 0; // the guided rankings rest on it
    this.#plain = plain;
    if (this.#kind === "serve") this.#search.bare();
  }

  /** The kinds take turns; one that has just served more goes on. */
  #nextKind(): Kind {
    const goesOn = this.#served && this.#kind === "serve" && this.#search.manyShort;
    this.#served = false;
    if (goesOn) return "serve";
    if (!this.#search.someoneToHelp) return "money";
    const kinds = this.#search.manyShort ? MANY_SHORT : FEW_SHORT;
    return kinds[this.#turn++ % kinds.length] as Kind;
  }

  /** Where a hundredth of a kWh missing is hardly taken any more. */
  get #coldKwh(): number {
    return COLD_CENTS * weightsOf(this.#dearest, 0).missing;
  }

  #rankedBy(weights: Weights): Ranking {
    return ranked(this.#search.menu, ownCosts(this.#search.menu, weights));
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
    if (this.#at > this.#forMoney * this.#length) return this.#plain;
    const draw = this.#search.dice();
    if (draw < 0.5 && this.#guided) return this.#guided;
    return draw < 0.8 && this.#shaken ? this.#shaken : this.#plain;
  }
}

/** The first cycle starts mildly: it mends the first plan and does not wander. */
const MILD = 0.05;
/** Hundredths of a kWh. */
const COLD_CENTS = 0.8;
/** Hot enough that another one may be short. */
const WILD = 4;
const between = (from: number, to: number, share: number): number => from * (to / from) ** share;
