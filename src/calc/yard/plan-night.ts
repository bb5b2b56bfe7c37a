import type { Problem } from "../../units/outcome.js";
import { SHORT } from "./board.js";
import { type Floors, floorsOf } from "./floors.js";
import { planOf } from "./hang.js";
import { Menu } from "./menu.js";
import { type YardModel, yardModel } from "./model.js";
import type { Night, Plan, Score } from "./night.js";
import { Ascent } from "./prices.js";
import { dearestCents, ownCosts, ranked, type Weights, weightsOf } from "./rankings.js";
import { Schedule } from "./schedule.js";
import { scorePlan } from "./score.js";
import { Search } from "./search.js";

/** What no plan can go below, each proved; `money` only among plans that are equal in every aim before it. */
export interface Bounds {
  readonly short: number;
  readonly missingKwh: number;
  readonly fullMissed: number;
  readonly money: number | null;
}

export interface PlanOptions {
  readonly seed: number;
  /** A clock for the budget only; the plan after a number of steps is the same on every machine. */
  readonly clockMs: () => number;
  readonly budgetMs: number;
  /** Ends the search after so many steps, whatever the clock says. */
  readonly steps?: number;
  /** Hears the first plan and every better one, with what is proved by then. */
  readonly onBetter?: (plan: Plan, score: Score, bounds: Bounds) => void;
  readonly cancelled?: () => boolean;
}

export interface NightAnswer {
  readonly plan: Plan;
  readonly score: Score;
  readonly bounds: Bounds;
  /** What was left out of the plan or read otherwise than written, each with its place. */
  readonly problems: readonly Problem[];
  readonly steps: number;
}

/** Plans a night: a first plan at once, then better ones until the budget is spent, nothing better comes, or it is called off. */
export function planNight(night: Night, options: PlanOptions): NightAnswer {
  const planner = new NightPlanner(night, options);
  while (planner.advance());
  return planner.answer();
}

const CHUNK = 50;
const FIRST_ROUNDS = 100;
const MOST_ROUNDS = 1200;
const TELL_EVERY_MS = 150;

/** The planning of one night in small steps, so that a worker can listen in between. */
export class NightPlanner {
  readonly #options: PlanOptions;
  readonly #model: YardModel;
  readonly #problems: readonly Problem[];
  readonly #menu: Menu;
  readonly #search: Search;
  readonly #schedule: Schedule;
  readonly #weights: Weights;
  readonly #floors: Floors;
  /** The same bound with nothing but short stays in the sum. */
  readonly #shortAscent: Ascent;
  readonly #endMs: number;
  #toldMs = Number.NEGATIVE_INFINITY;
  #untold = true;
  #rounds = 0;
  #steps = 0;

  constructor(night: Night, options: PlanOptions) {
    this.#endMs = options.clockMs() + options.budgetMs;
    this.#options = options;
    const { model, problems } = yardModel(night);
    this.#model = model;
    this.#problems = problems;
    this.#menu = new Menu(model);
    this.#weights = weightsOf(dearestCents(this.#menu), model.swapWorthCents);
    const plain = ranked(this.#menu, ownCosts(this.#menu, this.#weights));
    this.#floors = floorsOf(this.#menu);
    this.#search = new Search(this.#menu, this.#floors.leastMissing, options.seed);
    this.#search.firstPlan(plain);
    this.#schedule = new Schedule(this.#search, plain);
    this.#shortAscent = new Ascent(this.#menu, new Float64Array(this.#menu.klass.length), 1);
    this.#tell();
  }

  /** Goes on for a moment; false when there is nothing more to do. */
  advance(): boolean {
    const { clockMs, cancelled, steps } = this.#options;
    const spent = this.#steps >= (steps ?? Number.POSITIVE_INFINITY) || this.#schedule.tired;
    if (this.#model.stays.length === 0 || spent || cancelled?.() || clockMs() >= this.#endMs) return this.#finish();
    if (this.#rounds < FIRST_ROUNDS) this.#prove(10);
    else {
      if (this.#schedule.run(CHUNK)) this.#untold = true;
      this.#steps += CHUNK;
      if (this.#steps % (20 * CHUNK) === 0 && this.#rounds < MOST_ROUNDS) this.#prove(5);
    }
    if (this.#untold && clockMs() - this.#toldMs >= TELL_EVERY_MS) this.#tell();
    return true;
  }

  answer(): NightAnswer {
    const plan = planOf(this.#menu, this.#search.best);
    const { score } = scorePlan(this.#model, plan);
    return { plan, score, bounds: this.#bounds(score), problems: this.#problems, steps: this.#steps };
  }

  #finish(): false {
    if (this.#untold) this.#tell();
    return false;
  }

  /** Rounds of the bound on the weighed sum, and on the number of short ones while that is open. */
  #prove(rounds: number): void {
    const cost = this.#search.bestCost(this.#weights);
    const short = this.#search.bestAims[SHORT] as number;
    const open = short > this.#leastShort();
    for (let k = 0; k < rounds; k++) {
      this.#schedule.ascent.round(cost);
      if (open) this.#shortAscent.round(short);
    }
    this.#rounds += rounds;
  }

  #leastShort(): number {
    return Math.max(this.#floors.short, Math.ceil(this.#shortAscent.bound - 1e-6));
  }

  #tell(): void {
    this.#untold = false;
    this.#toldMs = this.#options.clockMs();
    if (!this.#options.onBetter) return;
    const { plan, score, bounds } = this.answer();
    this.#options.onBetter(plan, score, bounds);
  }

  /**
   * No plan's weighed sum is below the ascent's bound. Among plans with as many short, changed and not full, taking off what those weigh
   * leaves the money, but for swaps and readiness, which weigh next to nothing and are taken at their most.
   */
  #bounds(score: Score): Bounds {
    const { missingKwh, fullMissed } = this.#floors;
    const { bound } = this.#schedule.ascent;
    const { short, full, changes, swap, ready } = this.#weights;
    const { stays, slots } = this.#model;
    const fixed = short * score.short + full * score.fullMissed + changes * score.changes;
    const loose = swap * stays.length + ready * stays.length * slots;
    const money = Number.isFinite(bound) ? Math.min(score.money, Math.max(0, (bound - fixed - loose) / 100)) : null;
    return { short: Math.min(score.short, this.#leastShort()), missingKwh, fullMissed, money };
  }
}
