import { type SetUse, type Span, setLife } from "./life.js";
import type { Battery } from "./types.js";

/** Below this no set is driven. */
const LEAST_HEALTH = 0.3;
const HALVINGS = 24;
const ANY_DAY = "2000-01-01";

/**
 * Share of the rated charge that a set should still have after `ageDays` of this use, by the models of setLife; `low` is the poor one.
 * Found backwards from the days that the set needs to fade so far. 0.3..1.
 */
export function healthAfter(battery: Battery, use: SetUse, ageDays: number): Span {
  const lasts = (untilHealth: number) => setLife(battery, use, { today: ANY_DAY, untilHealth }).lifeDays;
  const at = (edge: keyof Span): number => {
    let low = LEAST_HEALTH;
    let high = 1;
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (lasts(middle)[edge] >= ageDays) low = middle;
      else high = middle;
    }
    return low;
  };
  return { low: at("low"), likely: at("likely"), high: at("high") };
}
