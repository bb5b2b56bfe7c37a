import { acceptanceW, storedShare } from "./store.js";
import type { Charger, PowerAtShare, StoreModel } from "./types.js";

/** Power at a stored energy; straight between the points. */
export interface PowerAtLevel {
  readonly levelWh: number;
  /** DC at the terminals. */
  readonly w: number;
}

/**
 * DC power a charger gives a set by level, W at the terminals: the smaller of the charger's own and what the set takes. Concave: flat, then falling
 * in straight pieces. Empty levels and a cold lithium set give points of 0 W.
 */
export function chargerCurve(store: StoreModel, charger: Charger): readonly PowerAtLevel[] {
  const points: PowerAtLevel[] = [];
  const push = (share: number, w: number) => points.push({ levelWh: share * store.usableWh, w });
  store.acceptance.forEach((at, i) => {
    const before = store.acceptance[i - 1];
    if (before) pushMeeting(before, at, charger.ratedW, push);
    push(at.share, Math.min(at.w, charger.ratedW));
  });
  return points;
}

/** Where the charger's own limit cuts a straight piece of the acceptance. */
function pushMeeting(a: PowerAtShare, b: PowerAtShare, limitW: number, push: (share: number, w: number) => void): void {
  if ((a.w - limitW) * (b.w - limitW) >= 0) return;
  push(a.share + ((b.share - a.share) * (a.w - limitW)) / (a.w - b.w), limitW);
}

/** DC power at a level, W at the terminals. */
export const chargeW = (store: StoreModel, charger: Charger, share: number): number =>
  Math.min(charger.ratedW, acceptanceW(store, share));

export interface Refill {
  /** Infinity where the set takes nothing. */
  readonly hours: number;
  readonly terminalWh: number;
  readonly gridWh: number;
}
const STEPS = 200;

/** Time and energy to charge from one level to another (shares 0..1); nothing when `to` is not above `from`. Mid-point steps of 1/200 of the way. */
export function refill(store: StoreModel, charger: Charger, between: { from: number; to: number }): Refill {
  const step = (between.to - between.from) / STEPS;
  let hours = 0;
  let terminalWh = 0;
  if (step > 0)
    for (let i = 0; i < STEPS; i++) {
      const share = between.from + (i + 0.5) * step;
      const intoWh = (step * store.usableWh) / storedShare(store, share);
      terminalWh += intoWh;
      const w = chargeW(store, charger, share);
      hours = w > 0 ? hours + intoWh / w : Number.POSITIVE_INFINITY;
    }
  return { hours, terminalWh, gridWh: terminalWh / charger.efficiency };
}

/** Hours to charge between two levels (shares 0..1); Infinity for a lithium set below 0 C. */
export const chargeTimeH = (store: StoreModel, charger: Charger, between: { from: number; to: number }): number =>
  refill(store, charger, between).hours;
