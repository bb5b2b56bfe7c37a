// The command a depot types: a plan for the checker on standard output, sentences with their place beside it.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { checkPlan } from "../tools/depot-score.mjs";

const folder = mkdtempSync(join(tmpdir(), "noonplug-night-"));
const shown = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(`shared/depot-shown/${name}.json`, "utf8"));

function run(raw: unknown, ...args: string[]) {
  const path = join(folder, `${Math.random()}.json`);
  writeFileSync(path, typeof raw === "string" ? raw : JSON.stringify(raw));
  return spawnSync(process.execPath, ["src/tools/run.mjs", "night", path, "--seconds", "0.3", ...args], {
    encoding: "utf8",
    env: { ...process.env, NODE_ENV: "" },
  });
}

type Raw = { stays: Record<string, unknown>[]; sockets: Record<string, unknown>[]; site: Record<string, unknown> };
/** The fourteen-vehicle night with one thing made wrong. */
const spoilt = (spoil: (night: Raw & Record<string, unknown>) => void): unknown => {
  const night = shown("shown-09") as Raw & Record<string, unknown>;
  spoil(night);
  return night;
};

test("a night becomes a plan the separate checker accepts", () => {
  const night = shown("shown-06");
  const { stdout, stderr, status } = run(night);
  expect(status).toBe(0);
  expect(checkPlan(night, JSON.parse(stdout)).broken).toEqual([]);
  expect(stderr).toContain("Nobody else could be served (proved).");
});

test("--out writes the plan to a file", () => {
  const out = join(folder, "plan.json");
  expect(run(shown("shown-01"), "--out", out).status).toBe(0);
  expect(JSON.parse(readFileSync(out, "utf8")).format).toBe("depot-plan/1");
});

const SPOILT: readonly [string, (night: Raw & Record<string, unknown>) => void, number, RegExp][] = [
  [
    "departure before return",
    (n) => ({
      ...Object.assign(n.stays[2] as object, { departUtcMs: (n.stays[2]?.arriveUtcMs as number) - 3_600_000 }),
    }),
    2,
    /stays\.2: v\d+ departs before it has come/,
  ],
  [
    "a base load above the limit",
    (n) => Object.assign(n.site, { baseLoadKw: (n.site.baseLoadKw as number[]).map((kw, t) => (t < 8 ? 99 : kw)) }),
    0,
    /site\.baseLoadKw\.0: From \d\d:\d\d the other users/,
  ],
  [
    "bands that overlap",
    (n) =>
      Object.assign(n, {
        tariff: {
          kind: "bands",
          bands: [
            { from: "18:00", to: "23:00", perKwh: 10 },
            { from: "22:00", to: "06:00", perKwh: 6 },
          ],
          otherwisePerKwh: 8,
        },
      }),
    0,
    /tariff\.bands: Two price bands hold at 22:00/,
  ],
  [
    "bands with a gap",
    (n) => Object.assign(n, { tariff: { kind: "bands", bands: [{ from: "18:00", to: "23:00", perKwh: 10 }] } }),
    0,
    /tariff\.bands: No price holds at 00:00/,
  ],
  [
    "an unknown zone",
    (n) => Object.assign(n, { zone: "Nowhere/Atall" }),
    2,
    /zone: "Nowhere\/Atall" is no known time zone/,
  ],
  [
    "a socket nobody fits",
    (n) => n.sockets.push({ id: "x1", limitKw: 3.3, plug: "Z", timer: true }),
    0,
    /sockets\.10: Socket x1 has the plug Z/,
  ],
  [
    "a vehicle no socket fits",
    (n) => Object.assign(n.stays[0] as object, { plugs: ["Q"] }),
    0,
    /stays\.0: No socket of the yard fits/,
  ],
  [
    "a stay that is no stay",
    (n) => Object.assign(n.stays[1] as object, { chargerKw: "much" }),
    2,
    /stays\.1\.chargerKw/,
  ],
];

test.each(SPOILT)("%s: a sentence with the place, and a plan for the rest", (_, spoil, status, sentence) => {
  const { stdout, stderr, status: found } = run(spoilt((night) => void spoil(night)));
  expect(stderr).toMatch(sentence);
  expect(found).toBe(status);
  expect(JSON.parse(stdout).sessions.length).toBeGreaterThan(8);
});

test("a thousand vehicles and one socket", () => {
  const night = shown("shown-14") as Raw & Record<string, unknown>;
  const stays = [...night.stays, ...night.stays.map((stay) => ({ ...stay, id: `${stay.id}b` }))];
  const { stdout, status } = run({ ...night, stays, sockets: night.sockets.slice(0, 1) });
  expect(status).toBe(0);
  const plan = JSON.parse(stdout);
  expect(checkPlan({ ...night, stays, sockets: night.sockets.slice(0, 1) }, plan).broken).toEqual([]);
  expect(plan.sessions.length).toBeGreaterThan(0);
});

test("what is no night is refused in words", () => {
  expect(run("[1, 2").stderr).toMatch(/is not JSON/);
  const other = run({ format: "something" });
  expect(other.status).toBe(2);
  expect(other.stderr).toContain("neither a night");
});

test("a fleet's yard gets its night", () => {
  const { stdout, status } = run(readFileSync("shared/demo/stand.json", "utf8"), "--at", "2027-02-10T15:00:00Z");
  expect(status).toBe(0);
  expect(JSON.parse(stdout).format).toBe("depot-plan/1");
});
