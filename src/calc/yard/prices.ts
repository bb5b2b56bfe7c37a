import type { Curve } from "./curves.js";
import { type Menu, NO_CLASS } from "./menu.js";
import type { StayModel } from "./model.js";

/** More than any night uses: a row that does not bind. */
const PAST_KWH = 1e6;

/**
 * Lagrangian bound by volume ascent: power and sockets of every slot are priced instead of limited, each stay takes its cheapest
 * session (or none, at `unserved`), and the prices follow the averaged overuse. Whatever the prices, no plan costs less than `bound`.
 * Source: F. Barahona, R. Anbil (2000), The volume algorithm, Math. Program. 87, 385-399.
 */
export class Ascent {
  readonly #menu: Menu;
  readonly #cost: Float64Array;
  readonly #unserved: Float64Array;
  readonly #peakWeight: number;
  readonly #mostKw: number;
  readonly #given: Float64Array;
  readonly #rows: number;
  readonly #used: Float64Array;
  readonly #mean: Float64Array;
  readonly #trial: Float64Array;
  readonly #sums: Float64Array;
  /** Price of a kWh by slot: scarce power, and its share in the peak. */
  readonly #power: Float64Array;
  /** Prices of the best bound: slots of power first, then the slots of each class. */
  readonly prices: Float64Array;
  bound = Number.NEGATIVE_INFINITY;
  #stepShare = 0.05;
  #poor = 0;
  #rounds = 0;

  /** `costs` by session of the menu; a stay without one costs `unserved`. */
  constructor(menu: Menu, costs: Float64Array, unserved: number) {
    const { slots, classes, hours, now, usableKw, baseKw, cut, demandPerKw, floorKw, stays } = menu.model;
    this.#menu = menu;
    this.#cost = costs;
    this.#unserved = new Float64Array(stays.length).fill(unserved);
    this.#peakWeight = 100 * demandPerKw;
    this.#mostKw = usableKw.reduce(
      (most, kw, t) => (cut[t] ? most : Math.max(most, kw + (baseKw[t] as number))),
      floorKw,
    );
    const peakRows = demandPerKw > 0 ? slots : 0;
    this.#rows = slots * (1 + classes.length) + peakRows;
    this.#given = new Float64Array(this.#rows);
    for (let t = 0; t < slots; t++) this.#given[t] = t < now ? PAST_KWH : (usableKw[t] as number) * hours;
    for (const [index, kind] of classes.entries())
      this.#given.fill(kind.sockets.length, slots * (1 + index), slots * (2 + index));
    for (let t = 0; t < peakRows; t++) this.#given[this.#rows - slots + t] = cut[t] ? PAST_KWH : -(baseKw[t] as number);
    this.#used = new Float64Array(this.#rows);
    this.#mean = new Float64Array(this.#rows);
    this.#trial = new Float64Array(this.#rows);
    this.prices = new Float64Array(this.#rows);
    this.#sums = new Float64Array((slots + 1) * classes.length);
    this.#power = new Float64Array(slots);
  }

  /** One round; `target` is the cost of a known plan, which only sets the length of the steps. */
  round(target: number): void {
    const first = this.#rounds++ === 0;
    if (!first) this.#moveTrial(target);
    const bound = this.#solve(this.#trial);
    const share = first ? 1 : 0.1;
    for (let r = 0; r < this.#rows; r++)
      this.#mean[r] = (1 - share) * (this.#mean[r] as number) + share * (this.#used[r] as number);
    if (first || bound > this.bound) {
      this.bound = bound;
      this.prices.set(this.#trial);
      this.#poor = 0;
      this.#stepShare = Math.min(1.5, this.#stepShare * 1.1);
    } else if (++this.#poor >= 5) {
      this.#poor = 0;
      this.#stepShare = Math.max(1e-3, this.#stepShare * 0.66);
    }
  }

  #moveTrial(target: number): void {
    let norm = 0;
    for (let r = 0; r < this.#rows; r++) {
      const over = (this.#mean[r] as number) - (this.#given[r] as number);
      if (over > 0 || (this.prices[r] as number) > 0) norm += over * over;
    }
    if (norm === 0) return;
    const step = (this.#stepShare * Math.max(target - this.bound, 1e-3 * Math.abs(target) + 1e-6)) / norm;
    for (let r = 0; r < this.#rows; r++) {
      const over = (this.#mean[r] as number) - (this.#given[r] as number);
      this.#trial[r] = Math.max(0, (this.prices[r] as number) + step * over);
    }
  }

  /** Cheapest choice of every stay under the trial prices; fills `used` and returns the bound they prove. */
  #solve(prices: Float64Array): number {
    const { model, from } = this.#menu;
    this.#used.fill(0);
    this.#readPrices(prices);
    let total = this.#peak(prices);
    for (let r = 0; r < this.#rows; r++) total -= (prices[r] as number) * (this.#given[r] as number);
    for (let v = 0; v < model.stays.length; v++) {
      const stay = model.stays[v] as StayModel;
      let best = -1;
      let least = this.#unserved[v] as number;
      let lastStart = -1;
      let lastStop = -1;
      let lastCurve = -1;
      let power = 0;
      for (let i = from[v] as number; i < (from[v + 1] as number); i++) {
        const own = this.#cost[i] as number;
        if (own >= least) continue;
        const klass = this.#menu.klass.values[i] as number;
        if (klass === NO_CLASS) {
          least = own;
          best = i;
          continue;
        }
        const start = this.#menu.start.values[i] as number;
        const stop = this.#menu.stop.values[i] as number;
        const curve = this.#menu.curve.values[i] as number;
        if (start !== lastStart || stop !== lastStop || curve !== lastCurve) {
          power = this.#powerPrice(stay, this.#menu.curves.all[curve] as Curve, start, stop);
          lastStart = start;
          lastStop = stop;
          lastCurve = curve;
        }
        const cost = own + power + this.#socketPrice(klass, i);
        if (cost < least) {
          least = cost;
          best = i;
        }
      }
      total += least;
      if (best >= 0) this.#use(stay, best);
    }
    return total;
  }

  #powerPrice(stay: StayModel, curve: Curve, start: number, stop: number): number {
    const kwh = this.#menu.curves.kwh;
    const prices = this.#power;
    const offset = (curve.offsets[start - stay.arrive] as number) - start;
    let price = 0;
    for (let t = start; t < stop; t++) price += (prices[t] as number) * (kwh[offset + t] as number);
    return price;
  }

  /** The peak is bought at its price or held at what is billed anyway, whichever is cheaper under the prices of its slots. */
  #peak(prices: Float64Array): number {
    if (this.#peakWeight === 0) return 0;
    const { slots, floorKw } = this.#menu.model;
    const from = this.#rows - slots;
    let paid = 0;
    for (let t = 0; t < slots; t++) paid += prices[from + t] as number;
    const kw = paid > this.#peakWeight ? this.#mostKw : floorKw;
    this.#used.fill(-kw, from);
    return (this.#peakWeight - paid) * kw - this.#peakWeight * floorKw;
  }

  #readPrices(prices: Float64Array): void {
    const { slots, classes, hours } = this.#menu.model;
    const peaks = this.#rows - slots;
    for (let t = 0; t < slots; t++)
      this.#power[t] = (prices[t] as number) + (this.#peakWeight > 0 ? (prices[peaks + t] as number) / hours : 0);
    for (let c = 0; c < classes.length; c++)
      for (let t = 0, sum = 0; t < slots; t++) {
        sum += prices[slots * (1 + c) + t] as number;
        this.#sums[c * (slots + 1) + t + 1] = sum;
      }
  }

  #socketPrice(klass: number, i: number): number {
    const row = klass * (this.#menu.model.slots + 1);
    return (
      (this.#sums[row + (this.#menu.unplug.values[i] as number)] as number) -
      (this.#sums[row + (this.#menu.plug.values[i] as number)] as number)
    );
  }

  #use(stay: StayModel, i: number): void {
    const { menu, used } = { menu: this.#menu, used: this.#used };
    const peaks = this.#rows - menu.model.slots;
    const klass = menu.klass.values[i] as number;
    if (klass === NO_CLASS) return;
    const start = menu.start.values[i] as number;
    const curve = menu.curves.all[menu.curve.values[i] as number] as Curve;
    const offset = (curve.offsets[start - stay.arrive] as number) - start;
    for (let t = start; t < (menu.stop.values[i] as number); t++) {
      used[t] = (used[t] as number) + (menu.curves.kwh[offset + t] as number);
      if (this.#peakWeight > 0)
        used[peaks + t] = (used[peaks + t] as number) + (menu.curves.kwh[offset + t] as number) / menu.model.hours;
    }
    const row = menu.model.slots * (1 + klass);
    for (let t = menu.plug.values[i] as number; t < (menu.unplug.values[i] as number); t++)
      used[row + t] = (used[row + t] as number) + 1;
  }

  /** Keys of all sessions with what they take of scarce power and sockets, each price multiplied by `shake`. */
  keys(own: Float64Array, shake: (row: number) => number): Float64Array {
    const menu = this.#menu;
    this.#readPrices(this.prices.map((price, r) => price * shake(r)));
    const keys = own.slice();
    for (let v = 0; v < menu.model.stays.length; v++) {
      const stay = menu.model.stays[v] as StayModel;
      for (let i = menu.from[v] as number; i < (menu.from[v + 1] as number); i++) {
        const klass = menu.klass.values[i] as number;
        if (klass === NO_CLASS) continue;
        const curve = menu.curves.all[menu.curve.values[i] as number] as Curve;
        const power = this.#powerPrice(stay, curve, menu.start.values[i] as number, menu.stop.values[i] as number);
        keys[i] = (keys[i] as number) + power + this.#socketPrice(klass, i);
      }
    }
    return keys;
  }
}
