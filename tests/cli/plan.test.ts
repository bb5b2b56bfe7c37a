import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { planDay } from "../../src/calc/day/plan-day.js";
import { readFleetFile } from "../../src/records/fleet-file.js";
import { dayInputOf } from "../../src/records/map/day.js";
import { newVehicle } from "../../src/records/new-vehicle.js";
import { examples } from "../records/examples.js";

const folder = mkdtempSync(join(tmpdir(), "noonplug-"));
const at = "2027-02-09T13:00:00Z";
const fleet = {
  format: "noonplug-fleet",
  version: 1,
  title: "Made up",
  invented: true,
  yards: [examples.yard],
  vehicles: [examples.vehicle],
  rounds: [examples.round],
  readings: [
    {
      ...examples.reading,
      vehicleId: examples.vehicle.id,
      atUtcMs: Date.parse(at),
      kind: "percent",
      value: 60,
      perBlock: false,
    },
  ],
};
const file = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const plan = (...args: string[]) =>
  spawnSync(process.execPath, ["src/tools/run.mjs", "plan", ...args], {
    encoding: "utf8",
    env: { ...process.env, NODE_ENV: "" },
  });

test("the shell prints what the screens show, from the same code", () => {
  const ran = plan(file("fleet.json", JSON.stringify(fleet)), "--at", at, "--json");
  expect(ran.stderr.split("\n").filter((said) => said !== "" && !said.startsWith("odd: "))).toEqual([]);
  expect(ran.status).toBe(0);
  const out = JSON.parse(ran.stdout);
  expect(out).toMatchObject({ format: "noonplug-plan", version: 1, atUtcMs: Date.parse(at) });
  const read = readFleetFile(JSON.stringify(fleet));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const [yard, vehicle] = [read.value.yards[0], read.value.vehicles[0]];
  if (!yard || !vehicle) throw new Error("the example holds a yard and a vehicle");
  const own = planDay(dayInputOf({ ...read.value, yard, vehicle, date: "2027-02-10", nowUtcMs: Date.parse(at) }));
  expect(out.vehicles).toHaveLength(1);
  expect(out.vehicles[0]).toMatchObject(JSON.parse(JSON.stringify(own)));
  const table = plan(join(folder, "fleet.json"), "--at", at);
  expect(table.stdout).toContain(`${vehicle.plate} `);
});

// E-rickshaws were reported as unfit for hill country (Kathmandu Post, 30 Aug 2017): 3 km of 14 % asks for more than they have.
test("a hill that no gear holds is named and is never enough; volts that say little and a socket on the way are named too", () => {
  const leg = { ...examples.round.parts.find((part) => part.kind === "leg"), km: 3, minutes: 15, climbM: 0, dropM: 0 };
  const stop = { ...examples.round.parts.find((part) => part.kind === "stop"), name: "Mill", socketKw: 1 };
  const of = { yardId: examples.yard.id, chemistry: "lfp", nominalV: 48 } as const;
  const usual = { roundId: "flat", leaveMinute: 360, loadClass: "full" } as const;
  const rickshaw = (plate: string, roundId: string) => ({
    ...newVehicle({ id: plate, plate, class: "eRickshaw", ...of }),
    usual: { ...usual, roundId },
  });
  const reading = { ...fleet.readings[0], kind: "volts", value: 49.2, restedMin: 60 };
  const hilly = {
    ...fleet,
    vehicles: [rickshaw("F", "flat"), rickshaw("H", "hill")],
    rounds: [
      { ...examples.round, id: "flat", parts: [leg, stop] },
      { ...examples.round, id: "hill", parts: [{ ...leg, name: "Temple hill", climbM: 420 }] },
    ],
    readings: ["F", "H"].map((vehicleId) => ({ ...reading, id: vehicleId, vehicleId })),
  };
  const path = file("hilly.json", JSON.stringify(hilly));
  const [flat, hill] = JSON.parse(plan(path, "--at", at, "--json").stdout).vehicles;
  expect(flat).toMatchObject({ stuck: false, legNotes: [], countsOnSockets: ["Mill"], readingDoubt: "voltsSayLittle" });
  expect(hill).toMatchObject({ verdict: "short", stuck: true, chance: 0, countsOnSockets: [] });
  const [, first, ...others] = plan(path, "--at", at).stdout.trimEnd().split("\n");
  const from = others.findIndex((row) => row.startsWith("H "));
  expect(first).toMatch(/^F /);
  expect(others.slice(0, from)).toEqual([
    expect.stringContaining("volts say little"),
    expect.stringContaining("counts on the socket at Mill"),
  ]);
  expect(others[from]).not.toContain("enough");
  expect(others.slice(from + 1).join("\n")).toContain("Temple hill: too steep with");
});

test("a bad file is refused with its places and exit code 2", () => {
  const broken = { ...fleet, vehicles: [{ ...examples.vehicle, kerbKg: -5, colour: "red" }] };
  const ran = plan(file("broken.json", JSON.stringify(broken)), "--at", at);
  expect(ran.status).toBe(2);
  expect(ran.stderr).toContain("vehicles.0.kerbKg");
  expect(ran.stderr).toContain("vehicles.0");
  expect(plan(join(folder, "none.json")).status).toBe(2);
  expect(plan(join(folder, "fleet.json"), "--at", "tomorrow").status).toBe(2);
});
