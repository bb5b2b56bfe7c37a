import { spawnSync } from "node:child_process";

interface Limited {
  readonly name: string;
  readonly ms: number;
  readonly limitMs: number | null;
}

/** The records of a thousand vehicles in a real browser (scale.mjs); SCALE_DAYS makes it shorter. */
export function run(): readonly Limited[] {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ["tests/bench/scale.mjs", process.env.SCALE_VEHICLES ?? "1000", process.env.SCALE_DAYS ?? "1000", "--json"],
    { encoding: "utf8", maxBuffer: 1e8 },
  );
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout) as readonly Limited[];
}
