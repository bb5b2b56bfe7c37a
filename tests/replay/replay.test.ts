import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { type ReplayOptions, replay } from "../../src/cli/replay-run.js";
import { type Scores, score } from "../../src/cli/replay-score.js";
import { knowingOther } from "./knowing.js";
import { otherWorld } from "./other-world.js";
import { simulateWorld } from "./simulate.js";
import { CLIMATES } from "./world.js";

// Simulated fleets with drivers, wet days, dirt, wrong gauges, missing and mistyped entries, lived by code of their own: one by simulate.ts on our
// physics, one by other-world.ts on nothing of ours. REPLAY_SEEDS, REPLAY_VEHICLES and REPLAY_DAYS make the run larger: the figures in the notes
// come from 1,2,3,4,5,6 with 8 and 60.
const seeds = (process.env.REPLAY_SEEDS ?? "2,3,5").split(",").map(Number);
const vehicles = Number(process.env.REPLAY_VEHICLES ?? 6);
const days = Number(process.env.REPLAY_DAYS ?? 30);
const DRAWS = 64;

type How = "off" | "on" | "oracle";
type Both = Record<"evening" | "morning", Scores[]>;

function scored(of: "ours" | "other", how: How): Both {
  const all = seeds.map((seed) => {
    const wish = { seed, vehicles, days };
    const world = of === "ours" ? simulateWorld(wish) : otherWorld(wish);
    const know = "oracle" in world ? world.oracle : knowingOther(world, DRAWS);
    const options: ReplayOptions = {
      learn: how === "off" ? "off" : "on",
      draws: DRAWS,
      ...(how === "oracle" ? { know } : {}),
    };
    const { forecasts } = replay(world.file, options);
    return (["evening", "morning"] as const).map((when) => score(forecasts, world.file.truth, { when, fromDay: 10 }));
  });
  return { evening: all.map((pair) => pair[0] as Scores), morning: all.map((pair) => pair[1] as Scores) };
}

const mean = (of: readonly Scores[], field: keyof Scores): number =>
  of.reduce((sum, scores) => sum + (scores[field] ?? 0) * scores.days, 0) / of.reduce((sum, { days }) => sum + days, 0);

/**
 * The aim is two thirds of the way, and 77 to 83 and 86 to 94 % within the bands. A few hundred days leave a doubt of some points; and of the other
 * fleet three vehicles in five are a quarter and more off the physics, so that their first weeks weigh more in a short run.
 */
const LEAST = {
  ours: { closed: 0.6, inside80: 0.72, inside90: 0.82 },
  other: { closed: 0.5, inside80: 0.68, inside90: 0.79 },
} as const;

test.each(["ours", "other"] as const)(
  "what is learned closes most of the way to knowing the slow truth: %s",
  {
    timeout: 1_800_000,
  },
  (of) => {
    const [off, on, oracle] = [scored(of, "off"), scored(of, "on"), scored(of, "oracle")];
    for (const when of ["evening", "morning"] as const) {
      for (const field of ["chargeError", "pinball", "brier", "driveError"] as const) {
        const [a, now, b] = [off, on, oracle].map((each) => mean(each[when], field)) as [number, number, number];
        const closed = (a - now) / (a - b);
        console.log(
          `${of} ${when} ${field}: nominal ${a.toFixed(4)}, learned ${now.toFixed(4)}, knowing ${b.toFixed(4)}, closed ${(100 * closed).toFixed(0)} %`,
        );
        expect(closed, `${when} ${field}`).toBeGreaterThan(LEAST[of].closed);
      }
      const [inside80, inside90] = [mean(on[when], "inside80"), mean(on[when], "inside90")];
      console.log(
        `${of} ${when}: 80 % band holds ${(100 * inside80).toFixed(1)} %, 90 % ${(100 * inside90).toFixed(1)} %`,
      );
      expect(inside80, "an overconfident band").toBeGreaterThan(LEAST[of].inside80);
      expect(inside90, "an overconfident band").toBeGreaterThan(LEAST[of].inside90);
      if (when === "evening") continue; // uncharged, many sets are empty before they are home, and every band holds that
      expect(inside80, "a band too wide").toBeLessThan(0.9);
      expect(inside90, "a band too wide").toBeLessThan(0.97);
    }
  },
);

// The bar of anchors A1: below the mean of the last 30 days and below yesterday's value (nobody says a sky, the roofs have meters).
test.each(CLIMATES)(
  "with no sky said, the sun of $name is forecast nearer than by last month or by yesterday",
  {
    timeout: 600_000,
  },
  (climate) => {
    const off = { said: 0, month: 0, yesterday: 0 };
    for (const seed of [1, 2]) {
      const { file } = simulateWorld({ seed, vehicles: 2, days: 50, climate, skySaid: "never", metered: true });
      const evenings = replay(file, { learn: "on", draws: DRAWS }).forecasts.filter(({ when }) => when === "evening");
      for (const { id } of file.fleet.vehicles) {
        const said = evenings.filter(({ vehicleId }) => vehicleId === id).map(({ sunWh }) => sunWh.mean);
        const suns = file.truth.filter(({ vehicleId }) => vehicleId === id).map(({ sunWh }) => sunWh as number);
        suns.forEach((sun, d) => {
          if (d < 10) return;
          const month = suns.slice(Math.max(0, d - 30), d);
          off.said += Math.abs((said[d] as number) - sun);
          off.month += Math.abs(month.reduce((sum, each) => sum + each, 0) / month.length - sun);
          off.yesterday += Math.abs((suns[d - 1] as number) - sun);
        });
      }
    }
    expect(off.said).toBeLessThan(off.month);
    expect(off.said).toBeLessThan(off.yesterday);
  },
);

test("the shell replays a fleet file and prints quantiles and scores", () => {
  const ran = spawnSync(process.execPath, ["src/tools/run.mjs", "replay", "shared/demo/cart.json", "--json"], {
    encoding: "utf8",
    maxBuffer: 1e9,
    env: { ...process.env, NODE_ENV: "" },
  });
  expect(ran.status, ran.stderr).toBe(0);
  const out = JSON.parse(ran.stdout);
  expect(out.format).toBe("noonplug-replay/1");
  expect(out.forecasts.length).toBeGreaterThan(20);
  const first = out.forecasts[0];
  expect(Object.keys(first.lowest).sort()).toEqual(["p05", "p10", "p50", "p90", "p95"]);
  expect(out.learned[0].days).toBeGreaterThan(5);
});
