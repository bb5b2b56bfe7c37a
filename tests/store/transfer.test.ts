import "fake-indexeddb/auto";
import { afterEach, describe, expect, test, vi } from "vitest";
import { readFleetFile, writeFleetFile } from "../../src/records/fleet-file.js";
import { fleetOf } from "../../src/records/index.js";
import { emptyDeleted, previewRestore, readBackup, restoreBackup, writeBackup } from "../../src/store/backup.js";
import { openStore, type Store } from "../../src/store/index.js";
import { exportFleet, importFleet, previewImport } from "../../src/store/transfer.js";
import type { Outcome } from "../../src/units/outcome.js";
import { examples } from "../records/examples.js";

let count = 0;
const open: Store[] = [];
const store = (now?: () => number): Store => {
  const made = openStore({ name: `transfer-${count++}`, newDevice: () => `phone${count}`, ...(now ? { now } : {}) });
  open.push(made);
  return made;
};
afterEach(() => {
  for (const made of open.splice(0)) made.close();
  vi.restoreAllMocks();
});
const must = async <T>(outcome: Promise<Outcome<T>>): Promise<T> => {
  const seen = await outcome;
  if (!seen.ok) throw new Error(JSON.stringify(seen.problems));
  return seen.value;
};
const whole = fleetOf(
  { title: "Test", invented: true },
  {
    yards: [examples.yard],
    sockets: [examples.socket],
    vehicles: [examples.vehicle],
    rounds: [examples.round],
    shifts: [examples.shift],
    skies: [examples.sky],
    readings: [examples.reading],
    entries: [examples.entry],
  },
);
const head = { title: "Test", invented: true };

describe("a fleet file into the store", () => {
  test("says first what it would do, then does it whole, and twice is once", async () => {
    const here = store();
    expect((await must(previewImport(here, whole))).added).toHaveLength(8);
    await must(importFleet(here, whole, "merge"));
    expect(await must(previewImport(here, whole))).toEqual({ added: [], changed: [], same: 8, onlyHere: [] });
    const heard = vi.fn();
    here.subscribe(heard);
    await must(importFleet(here, whole, "merge"));
    expect(heard).not.toHaveBeenCalled();
    const back = await must(exportFleet(here, head));
    expect(back).toEqual({ fleet: whole, leftOut: [] });
    expect(readFleetFile(writeFleetFile(back.fleet))).toEqual({ ok: true, value: whole });
  });

  test("names what would be changed and what is only here; merging keeps that, replacing removes it", async () => {
    const here = store();
    await must(importFleet(here, whole, "merge"));
    await must(here.put("vehicle", { ...examples.vehicle, id: "v2", plate: "02" }));
    await must(here.edit("vehicle", "v1", { plate: "99" }));
    expect(await must(previewImport(here, whole))).toEqual({
      added: [],
      changed: ["vehicle/v1"],
      same: 7,
      onlyHere: ["vehicle/v2"],
    });
    await must(importFleet(here, whole, "merge"));
    expect((await must(here.list("vehicle"))).records.map((vehicle) => vehicle.plate)).toEqual(["01", "02"]);
    await must(importFleet(here, whole, "replace"));
    expect((await must(here.list("vehicle"))).records.map((vehicle) => vehicle.plate)).toEqual(["01"]);
  });

  test("killed midway leaves everything as it was", async () => {
    const here = store();
    await must(here.put("vehicle", { ...examples.vehicle, plate: "42" }));
    const original = IDBObjectStore.prototype.put;
    let puts = 0;
    const spy = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, ...args) {
      if (++puts % 5 === 0) throw new DOMException("", "QuotaExceededError");
      return original.apply(this, args);
    });
    expect(await importFleet(here, whole, "replace")).toMatchObject({ ok: false, problems: [{ code: "storageFull" }] });
    spy.mockRestore();
    expect((await must(here.list("vehicle"))).records.map((vehicle) => vehicle.plate)).toEqual(["42"]);
    expect((await must(here.list("entry"))).records).toEqual([]);
  });

  test("a file written here holds only what it can: history of a vehicle that is gone stays behind, and is named", async () => {
    const here = store();
    await must(importFleet(here, whole, "merge"));
    await must(here.remove("vehicle", "v1"));
    const { fleet, leftOut } = await must(exportFleet(here, head));
    expect(readFleetFile(writeFleetFile(fleet)).ok).toBe(true);
    expect(leftOut.map((problem) => problem.code)).toEqual(["noSuchVehicle", "noSuchVehicle", "noSuchVehicle"]);
    expect(fleet.rounds).toHaveLength(1);
  });
});

describe("a backup", () => {
  test("brings everything back on an empty phone", async () => {
    const [old, fresh] = [store(), store()];
    await must(importFleet(old, whole, "merge"));
    await must(old.remove("entry", examples.entry.id));
    const text = await must(writeBackup(old, 1.8e12));
    const backup = readBackup(text);
    if (!backup.ok) throw new Error(JSON.stringify(backup.problems));
    expect((await must(previewRestore(fresh, backup.value))).added).toHaveLength(7);
    await must(restoreBackup(fresh, backup.value));
    expect(await must(writeBackup(fresh, 1.8e12))).toBe(text);
    expect((await must(fresh.listEntries("v1", "2020-01-01", "2030-01-01"))).records).toEqual([]);
    expect((await must(fresh.history("shift", "v1", "2027-02-10", "2027-02-10"))).records).toEqual([examples.shift]);
  });

  test("restored twice, or over newer work, doubles nothing and takes nothing newer back", async () => {
    let nowMs = 1.8e12;
    const here = store(() => nowMs);
    await must(importFleet(here, whole, "merge"));
    const backup = readBackup(await must(writeBackup(here, nowMs)));
    if (!backup.ok) throw new Error("unreadable");
    nowMs += 86_400_000;
    await must(here.edit("vehicle", "v1", { plate: "77" }));
    await must(here.remove("entry", examples.entry.id));
    await must(here.put("vehicle", { ...examples.vehicle, id: "v2", plate: "02" }));
    const before = await must(writeBackup(here, nowMs));
    const seen = await must(previewRestore(here, backup.value));
    expect(seen).toEqual({ added: [], changed: [], removed: [], gone: [`entry/${examples.entry.id}`], same: 7 });
    await must(restoreBackup(here, backup.value));
    await must(restoreBackup(here, backup.value));
    expect(await must(writeBackup(here, nowMs))).toBe(before);
  });

  test("brings back what was removed here since, when it is asked to, and the other phone follows", async () => {
    let nowMs = 1.8e12;
    const [here, there] = [store(() => nowMs), store(() => nowMs)];
    await must(importFleet(here, whole, "merge"));
    const copyOf = async (from: Store) => {
      const backup = readBackup(await must(writeBackup(from, nowMs)));
      if (!backup.ok) throw new Error("unreadable");
      return backup.value;
    };
    const copy = await copyOf(here);
    nowMs += 31 * 86_400_000;
    await must(importFleet(here, { ...whole, vehicles: [], shifts: [], readings: [], entries: [] }, "replace"));
    await must(emptyDeleted(here, nowMs, 0));
    await must(restoreBackup(there, await copyOf(here)));
    const { gone } = await must(previewRestore(here, copy));
    expect(gone).toEqual(expect.arrayContaining(["vehicle/v1", `entry/${examples.entry.id}`]));
    await must(restoreBackup(here, copy));
    expect(await must(here.get("vehicle", "v1"))).toBeNull();
    await must(restoreBackup(here, copy, true));
    expect(await must(here.get("vehicle", "v1"))).toEqual(examples.vehicle);
    expect((await must(here.listEntries("v1", "2020-01-01", "2030-01-01"))).records).toEqual([examples.entry]);
    expect((await must(previewRestore(here, copy))).gone).toEqual([]);
    await must(restoreBackup(there, await copyOf(here)));
    expect(await must(there.get("vehicle", "v1"))).toEqual(examples.vehicle);
  });

  test("two phones that exchange backups end alike, both keep what they typed", async () => {
    const [a, b] = [store(), store()];
    await must(importFleet(a, whole, "merge"));
    const exchange = async (from: Store, to: Store) => {
      const backup = readBackup(await must(writeBackup(from, 1.8e12)));
      if (!backup.ok) throw new Error("unreadable");
      await must(restoreBackup(to, backup.value));
    };
    await exchange(a, b);
    await must(a.edit("vehicle", "v1", { plate: "77" }));
    await must(b.edit("vehicle", "v1", { kerbKg: 490 }));
    await must(b.remove("round", "r1"));
    await exchange(a, b);
    await exchange(b, a);
    expect(await must(a.get("vehicle", "v1"))).toMatchObject({ plate: "77", kerbKg: 490 });
    expect(await must(writeBackup(a, 0))).toBe(await must(writeBackup(b, 0)));
    expect((await must(a.list("round"))).records).toEqual([]);
  });

  test("from a phone whose clock runs a year ahead does not stop this one from writing", async () => {
    const [ahead, here] = [store(() => 1.8e12 + 365 * 86_400_000), store(() => 1.8e12)];
    await must(importFleet(ahead, whole, "merge"));
    const backup = readBackup(await must(writeBackup(ahead, 0)));
    if (!backup.ok) throw new Error("unreadable");
    await must(restoreBackup(here, backup.value));
    await must(here.edit("vehicle", "v1", { plate: "55" }));
    await must(restoreBackup(here, backup.value));
    expect(await must(here.get("vehicle", "v1"))).toMatchObject({ plate: "55" });
  });

  test("carries records nobody here can read", async () => {
    const text = JSON.stringify({
      format: "noonplug-backup",
      version: 1,
      madeUtcMs: 1.8e12,
      records: [{ key: "balloon/b1", k: "balloon", f: { v: 3 }, t: "0mxxxxxxx001phone1" }],
    });
    const backup = readBackup(text);
    if (!backup.ok) throw new Error("unreadable");
    const here = store();
    await must(restoreBackup(here, backup.value));
    expect((await must(here.setAside())).map(({ problems }) => problems[0]?.code)).toEqual(["unknownKind"]);
    expect(JSON.parse(await must(writeBackup(here, 1.8e12)))).toEqual(JSON.parse(text));
  });

  test("of an older version climbs before it meets newer fields", async () => {
    const { leaveMinute: _minute, id, ...f } = examples.shift;
    const row = { key: `shift/${id}`, k: "shift", f: { ...f, v: 0, leave: "05:45" }, t: "0000000a0001phone1" };
    const backup = readBackup(JSON.stringify({ format: "noonplug-backup", version: 1, madeUtcMs: 0, records: [row] }));
    if (!backup.ok) throw new Error("unreadable");
    const here = store();
    await must(here.put("shift", { ...examples.shift, driver: "second driver" }));
    await must(restoreBackup(here, backup.value));
    expect(await must(here.get("shift", id))).toEqual({ ...examples.shift, driver: "second driver" });
  });

  test.each([
    ["", "notJson"],
    ["[]", "notABackup"],
    ["null", "notABackup"],
    ['{"format":"noonplug-backup","version":2,"madeUtcMs":0,"records":[]}', "newerVersion"],
    ['{"format":"noonplug-backup","version":1,"madeUtcMs":0,"records":{}}', "wrongType"],
    ['{"format":"noonplug-backup","version":1,"madeUtcMs":0,"records":[{}]}', "brokenRow"],
  ])("that is none is refused with a code: %s", (text, code) => {
    expect(readBackup(text)).toMatchObject({ ok: false, problems: [{ code }] });
  });

  test("deleted records are emptied after a month, and stay deleted", async () => {
    let nowMs = 1.8e12;
    const here = store(() => nowMs);
    await must(here.put("entry", examples.entry));
    await must(here.put("vehicle", examples.vehicle));
    await must(here.remove("entry", examples.entry.id));
    expect(await must(emptyDeleted(here, nowMs))).toBe(0);
    nowMs += 31 * 86_400_000;
    const backup = readBackup(await must(writeBackup(here, nowMs)));
    expect(await must(emptyDeleted(here, nowMs))).toBe(1);
    expect(await must(writeBackup(here, nowMs))).not.toContain("odometerKm");
    if (!backup.ok) throw new Error("unreadable");
    await must(restoreBackup(here, backup.value));
    expect(await must(here.get("entry", examples.entry.id))).toBeNull();
    expect(await must(here.get("vehicle", "v1"))).toEqual(examples.vehicle);
  });
});
