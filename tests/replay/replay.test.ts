import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { type ReplayOptions, replay } from "../../src/cli/replay-run.js";
import { type Scores, score } from "../../src/cli/replay-score.js";
import { simulateWorld } from "./simulate.js";

// The simulated fleets are lived by code of their own (world.ts, simulate.ts): drivers, wet days, dirt, wrong gauges, missing and mistyped
// entries. REPLAY_SEEDS, REPLAY_VEHICLES and REPLAY_DAYS make the run larger: the figures in the notes come from 1,2,3,4,5,6 with 8 and 60.
const seeds = (process.env.REPLAY_SEEDS ?? "1,2").split(",").map(Number);
const vehicles = Number(process.env.REPLAY_VEHICLES ?? 4);
const days = Number(process.env.REPLAY_DAYS ?? 30);
const DRAWS = 64;

function scored(how: "off" | "on" | "oracle"): Record<"evening" | "morning", Scores[]> {
  const all = seeds.map((seed) => {
    const world = simulateWorld({ seed, vehicles, days });
    const options: ReplayOptions = {
      learn: how === "off" ? "off" : "on",
      draws: DRAWS,
      ...(how === "oracle" ? { know: world.oracle } : {}),
    };
    const { forecasts } = replay(world.file, options);
    return (["evening", "morning"] as const).map((when) => score(forecasts, world.file.truth, { when, fromDay: 10 }));
  });
  return { evening: all.map((pair) => pair[0] as Scores), morning: all.map((pair) => pair[1] as Scores) };
}

const mean = (of: readonly Scores[], field: keyof Scores): number =>
  of.reduce((sum, scores) => sum + (scores[field] ?? 0) * scores.days, 0) / of.reduce((sum, { days }) => sum + days, 0);

test("what is learned closes most of the way from nominal figures to knowing the slow truth", {
  timeout: 1_800_000,
}, () => {
  const [off, on, oracle] = [scored("off"), scored("on"), scored("oracle")];
  for (const when of ["evening", "morning"] as const) {
    const closed = (field: keyof Scores) => {
      const [a, now, b] = [off, on, oracle].map((each) => mean(each[when], field)) as [number, number, number];
      return { a, now, b, share: (a - now) / (a - b) };
    };
    for (const field of ["chargeError", "pinball", "brier", "driveError"] as const) {
      const { a, now, b, share } = closed(field);
      console.log(
        `${when} ${field}: nominal ${a.toFixed(4)}, learned ${now.toFixed(4)}, knowing ${b.toFixed(4)}, closed ${(100 * share).toFixed(0)} %`,
      );
      expect(now, `${when} ${field}`).toBeLessThan(a);
    }
    const [inside80, inside90] = [mean(on[when], "inside80"), mean(on[when], "inside90")];
    console.log(
      `${when}: 80 % band holds ${(100 * inside80).toFixed(1)} %, 90 % band ${(100 * inside90).toFixed(1)} %`,
    );
    expect(inside80, "an overconfident band").toBeGreaterThan(0.72);
    expect(inside90, "an overconfident band").toBeGreaterThan(0.82);
  }
});

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
