import type { Night } from "../../../src/calc/yard/night.js";
import { planNight } from "../../../src/calc/yard/plan-night.js";
import { diceOf } from "../../../src/units/dice.js";
import { inventNight, lateArrival } from "./nights.js";

/** A small night of a kind that its seed decides. */
export function smallNight(seed: number): Night {
  const dice = diceOf(seed * 31 + 5);
  const one = <T>(of: readonly T[]): T => of[Math.floor(dice() * of.length)] as T;
  const night = inventNight({
    seed,
    vehicles: one([2, 3, 3, 4]),
    sockets: one([1, 2, 2, 3]),
    power: one([0.7, 1, 1.3, 2]),
    slots: one([12, 14]),
    slotMinutes: one([30, 45]),
    tariff: one(["evening", "evening", "day", "flatFee", "none", "demand"]),
    awake: one(["evening", "evening", "always", "never"]),
    wakes: one([0, 0, 1, 2]),
    cuts: one([0, 0, 1]),
    roofs: dice() < 0.25,
    plugs: one([["A"], ["A"], ["A", "B"]]),
    timers: one([1, 1, 0.5, 0]),
  });
  if (dice() > 0.25) return night;
  const { plan } = planNight(night, { seed: 3, clockMs: () => 0, budgetMs: 1, steps: 1000 });
  const nowSlot = 3 + Math.floor(dice() * 3);
  const nowUtcMs = night.startUtcMs + nowSlot * night.slotMinutes * 60_000;
  const open = (id: string): boolean =>
    !plan.sessions.some((session) => session.stay === id && session.plugUtcMs < nowUtcMs);
  const late = night.stays.findIndex((stay) => stay.arriveUtcMs >= nowUtcMs && open(stay.id));
  return lateArrival(night, plan.sessions, { nowSlot, stay: late, slots: 1 });
}
