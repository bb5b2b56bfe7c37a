// Every reason is tried: what it names as enough is given, the others stay as they are, and the vehicle must then be served.
// The trial uses none of the code that finds the reasons: it enumerates every session of the grid and asks the separate checker.
import { expect, test } from "vitest";
import type { Night, Session, Socket, Stay } from "../../../src/calc/yard/night.js";
import { planNight } from "../../../src/calc/yard/plan-night.js";
import { walkPlan } from "../../../src/calc/yard/walk-plan.js";
import { type WhyShort, whyShort } from "../../../src/calc/yard/why.js";
import { checkPlan } from "../../tools/depot-score.mjs";
import { inventNight } from "./nights.js";

const SEEDS = Array.from({ length: 12 }, (_, k) => 300 + k);
const nightOf = (seed: number): Night =>
  inventNight({
    seed,
    vehicles: 7,
    sockets: [1, 2, 3, 5][seed % 4] as number,
    power: [0.7, 1, 3][seed % 3] as number,
    slots: 18,
    slotMinutes: 45,
    awake: seed % 5 === 0 ? "never" : "evening",
    cuts: seed % 2,
    timers: seed % 6 === 0 ? 0.5 : 1,
    tariff: "none",
  });

/** The first session of the grid that serves a stay beside the others' sessions; null when none does. */
function served(night: Night, others: readonly Session[], stay: Stay): Session | null {
  const stepMs = night.slotMinutes * 60_000;
  const moments: number[] = [];
  for (let utcMs = stay.arriveUtcMs; utcMs <= stay.departUtcMs; utcMs += stepMs) moments.push(utcMs);
  const pairs = moments.flatMap((startUtcMs) =>
    moments.filter((stop) => stop > startUtcMs).map((stopUtcMs) => ({ startUtcMs, stopUtcMs })),
  );
  const before = checkPlan({ format: "depot-night/1", ...night }, plan(night, others)).score.short;
  for (const { startUtcMs, stopUtcMs } of pairs)
    for (const { id: socket, timer } of night.sockets)
      for (const plugUtcMs of timer ? moments.filter((at) => at <= startUtcMs) : [startUtcMs])
        for (const unplugUtcMs of timer ? moments.filter((at) => at >= stopUtcMs) : [stopUtcMs]) {
          const session = { stay: stay.id, socket, plugUtcMs, startUtcMs, stopUtcMs, unplugUtcMs };
          const { broken, score } = checkPlan({ format: "depot-night/1", ...night }, plan(night, [...others, session]));
          if (broken.length === 0 && score.short < before) return session;
        }
  return null;
}
const plan = (night: Night, sessions: readonly Session[]) => ({
  format: "depot-plan/1" as const,
  night: night.id,
  sessions,
});

/** The night with what the reason asks for; null where it asks for nothing that can be given. */
function given(night: Night, why: WhyShort): Night | null {
  switch (why.code) {
    case "siteFull":
      return { ...night, site: { ...night.site, limitKw: night.site.limitKw + why.moreKw } };
    case "socketsHeld": {
      const strongest = night.sockets.reduce((best, one) => (one.limitKw > best.limitKw ? one : best)) as Socket;
      return { ...night, sockets: [...night.sockets, { ...strongest, id: "one more", timer: true }] };
    }
    case "nobodyAwake":
      return { ...night, staff: { ...night.staff, wakeUtcMs: [...night.staff.wakeUtcMs, why.atUtcMs] } };
    case "cutTakesTheTime":
      return { ...night, site: { ...night.site, cuts: [] } };
    case "roomLeft":
      return night;
    default:
      return null;
  }
}

const seen: string[] = [];
test.each(SEEDS)("night of seed %i: what a reason names as enough is enough", (seed) => {
  const night = nightOf(seed);
  // few steps: a plan that is not the best leaves more kinds of reasons
  const { plan: made } = planNight(night, { seed: 1, clockMs: () => 0, budgetMs: 1, steps: seed % 3 === 0 ? 0 : 500 });
  const walked = walkPlan(night, made);
  for (const own of walked.outcomes.filter(({ short }) => short)) {
    const why = whyShort(night, walked, own);
    if (!why) throw new Error("short without a reason");
    seen.push(why.code);
    const more = given(night, why);
    const others = made.sessions.filter(({ stay }) => stay !== own.stay.id);
    if (more && why.code !== "cutTakesTheTime")
      expect(served(more, others, own.stay), `${own.stay.id} ${why.code}`).not.toBeNull();
    if (why.code === "cutTakesTheTime") {
      const alone = {
        ...night,
        stays: [own.stay],
        staff: { ...night.staff, awake: [{ fromUtcMs: night.startUtcMs, toUtcMs: own.stay.departUtcMs }] },
      };
      expect(served(alone, [], own.stay), "the cut").toBeNull();
      expect(served(given(alone, why) as Night, [], own.stay), "without the cut").not.toBeNull();
    }
    if (why.code !== "roomLeft")
      expect(served(night, others, own.stay), `${own.stay.id} ${why.code}: needless`).toBeNull();
  }
});

test("the nights tried hold the common reasons", () => {
  expect([...new Set(seen)]).toEqual(expect.arrayContaining(["siteFull", "socketsHeld", "nobodyAwake"]));
});
