import type { StayModel, YardModel } from "./model.js";

/** A moment at which a plug may be moved. */
export interface Hand {
  readonly at: number;
  /** A plug-in that is not the driver's own at his arrival. */
  readonly swap: boolean;
  /** Somebody must be woken for it. */
  readonly wake: boolean;
}

/** When plugs can be moved: somebody is awake, can be woken, or the driver comes or goes. */
export class Hands {
  readonly #model: YardModel;
  readonly #latestAwake: Int32Array;
  readonly #earliestAwake: Int32Array;
  readonly #wakeable: readonly number[];
  constructor(model: YardModel) {
    const { slots, awake, wakeable } = model;
    this.#model = model;
    this.#latestAwake = new Int32Array(slots + 1);
    this.#earliestAwake = new Int32Array(slots + 1);
    for (let b = 0, latest = -1; b <= slots; b++) this.#latestAwake[b] = latest = awake[b] ? b : latest;
    for (let b = slots, next = slots + 1; b >= 0; b--) this.#earliestAwake[b] = next = awake[b] ? b : next;
    this.#wakeable = Array.from({ length: slots + 1 }, (_, b) => b).filter((b) => wakeable[b]);
  }

  /** Plug-ins worth having for a charge that starts at `start`: at arrival, as late as somebody is awake, or by waking later still. */
  plugIns(stay: StayModel, start: number): Hand[] {
    const { now } = this.#model;
    const hands: Hand[] = [];
    if (stay.arrive >= now) hands.push({ at: stay.arrive, swap: false, wake: false });
    const awake = this.#latestAwake[start] as number;
    if (awake > stay.arrive && awake >= now) hands.push({ at: awake, swap: true, wake: false });
    const after = Math.max(stay.arrive, awake, now - 1);
    for (const at of this.#wakeable) if (at > after && at <= start) hands.push({ at, swap: true, wake: true });
    return hands;
  }

  /** Every moment at which the vehicle can be plugged in. */
  allPlugIns(stay: StayModel): Hand[] {
    const { now, awake, wakeable } = this.#model;
    const hands: Hand[] = [];
    for (let at = Math.max(stay.arrive, now); at < stay.depart; at++) {
      if (at === stay.arrive) hands.push({ at, swap: false, wake: false });
      else if (awake[at]) hands.push({ at, swap: true, wake: false });
      else if (wakeable[at]) hands.push({ at, swap: true, wake: true });
    }
    return hands;
  }

  /** Unpluggings worth having after a charge that stops at `stop`: as early as somebody is awake (or at departure), or by waking earlier. */
  unplugs(stay: StayModel, stop: number): Hand[] {
    const awake = Math.min(this.#earliestAwake[stop] as number, stay.depart);
    const hands: Hand[] = [{ at: awake, swap: false, wake: false }];
    for (const at of this.#wakeable) if (at >= stop && at < awake) hands.push({ at, swap: false, wake: true });
    return hands;
  }

  /** Latest unplugging at or before `until` that wakes nobody; -1 when there is none. */
  latestUnplug(stay: StayModel, until: number): number {
    if (until >= stay.depart) return stay.depart;
    return until < 0 ? -1 : (this.#latestAwake[until] as number);
  }

  isPlugIn = (stay: StayModel, at: number): boolean =>
    at === stay.arrive || this.#model.awake[at] === 1 || this.#model.wakeable[at] === 1;
  isUnplug = (stay: StayModel, at: number): boolean =>
    at === stay.depart || this.#model.awake[at] === 1 || this.#model.wakeable[at] === 1;
  /** Plugging in at `at` needs somebody woken. */
  wakesToPlug = (stay: StayModel, at: number): boolean => at !== stay.arrive && this.#model.wakeable[at] === 1;
  wakesToUnplug = (stay: StayModel, at: number): boolean => at !== stay.depart && this.#model.wakeable[at] === 1;
}
