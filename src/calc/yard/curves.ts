import { slotKwh, TINY_KWH } from "./energy.js";
import type { StayModel, YardModel } from "./model.js";
import { Pool } from "./pool.js";

/** What a stay draws when its charge starts at a boundary and is never stopped, at one ceiling of power. */
export interface Curve {
  readonly ceilingKw: number;
  /** By start - arrival: where the kWh of the slots from the start on begin in the pool. */
  readonly offsets: Int32Array;
}

/** Levels of a stay that is never plugged in; the roof may lift them. */
export interface Unplugged {
  /** Level at every boundary from arrival to departure. */
  readonly levelKwh: Float64Array;
  /** kWh the roof would still add from a boundary until departure, with room for all of it. */
  readonly roofAfterKwh: Float64Array;
}

/** All runs of all stays in one pool: kWh of slot t for a run from s stand at `kwh[offset(s) + t - s]`. */
export class Curves {
  readonly #pool = new Pool(1 << 14);
  readonly #sums = new Pool(1 << 14);
  readonly #model: YardModel;
  readonly #byStay: Map<number, number>[];
  readonly #unplugged: (Unplugged | null)[];
  readonly all: Curve[] = [];
  constructor(model: YardModel) {
    this.#model = model;
    this.#byStay = model.stays.map(() => new Map());
    this.#unplugged = model.stays.map(() => null);
  }

  get kwh(): Float64Array {
    return this.#pool.values;
  }

  /** kWh drawn from the start of a run to the end of each slot, beside `kwh`. */
  get sumKwh(): Float64Array {
    return this.#sums.values;
  }

  /** Place in `all` of the curve of a stay under a socket's limit. */
  curveOf(stayIndex: number, limitKw: number): { readonly curve: Curve; readonly place: number } {
    const stay = this.#model.stays[stayIndex] as StayModel;
    const ceilingKw = Math.min(stay.chargerKw, limitKw);
    const held = this.#byStay[stayIndex] as Map<number, number>;
    const known = held.get(ceilingKw);
    if (known !== undefined) return { curve: this.all[known] as Curve, place: known };
    const curve = this.#build(stayIndex, stay, ceilingKw);
    held.set(ceilingKw, this.all.length);
    this.all.push(curve);
    return { curve, place: this.all.length - 1 };
  }

  unplugged(stayIndex: number): Unplugged {
    const known = this.#unplugged[stayIndex];
    if (known) return known;
    const made = this.#stand(this.#model.stays[stayIndex] as StayModel);
    this.#unplugged[stayIndex] = made;
    return made;
  }

  #stand(stay: StayModel): Unplugged {
    const { sunKwPerKw, hours } = this.#model;
    const length = stay.depart - stay.arrive;
    const levelKwh = new Float64Array(length + 1);
    const roofAfterKwh = new Float64Array(length + 1);
    levelKwh[0] = stay.arriveKwh;
    for (let k = 0; k < length; k++) {
      const lifted = (levelKwh[k] as number) + stay.roofKw * (sunKwPerKw[stay.arrive + k] as number) * hours;
      levelKwh[k + 1] = stay.fullKwh - lifted < TINY_KWH ? stay.fullKwh : lifted;
    }
    for (let k = length - 1; k >= 0; k--)
      roofAfterKwh[k] = (roofAfterKwh[k + 1] as number) + stay.roofKw * (sunKwPerKw[stay.arrive + k] as number) * hours;
    return { levelKwh, roofAfterKwh };
  }

  #build(stayIndex: number, stay: StayModel, ceilingKw: number): Curve {
    const length = stay.depart - stay.arrive;
    const offsets = new Int32Array(length);
    const { levelKwh, roofAfterKwh } = this.unplugged(stayIndex);
    const base = this.#pool.length;
    const slotsToFull = this.#run(stay, ceilingKw, { from: 0, to: length, levelKwh: stay.arriveKwh, plain: true });
    for (let k = 0; k < length; k++) {
      const plain = roofAfterKwh[k] === 0 && levelKwh[k] === stay.arriveKwh;
      if (plain && !this.#cutWithin(stay.arrive + k, stay.arrive + Math.min(length, k + slotsToFull))) {
        offsets[k] = base;
        continue;
      }
      offsets[k] = this.#pool.length;
      this.#run(stay, ceilingKw, { from: k, to: length, levelKwh: levelKwh[k] as number, plain: false });
    }
    return { ceilingKw, offsets };
  }

  #cutWithin(from: number, to: number): boolean {
    for (let t = from; t < to; t++) if (this.#model.cut[t]) return true;
    return false;
  }

  /** Appends the kWh of every slot; `plain` means neither roof nor cuts. Returns the slots until nothing more is drawn. */
  #run(
    stay: StayModel,
    ceilingKw: number,
    { from, to, levelKwh, plain }: { from: number; to: number; levelKwh: number; plain: boolean },
  ): number {
    const { sunKwPerKw, hours, cut } = this.#model;
    let level = levelKwh;
    let sum = 0;
    let last = 0;
    for (let k = from; k < to; k++) {
      const t = stay.arrive + k;
      if (!plain) level = Math.min(stay.fullKwh, level + stay.roofKw * (sunKwPerKw[t] as number) * hours);
      const drawn = !plain && cut[t] ? 0 : slotKwh(level, stay.fullKwh, ceilingKw, stay.acceptance, hours);
      level += drawn;
      if (stay.fullKwh - level < TINY_KWH) level = stay.fullKwh;
      if (drawn > 0) last = k - from + 1;
      sum += drawn;
      this.#pool.push(drawn);
      this.#sums.push(sum);
    }
    return last;
  }
}
