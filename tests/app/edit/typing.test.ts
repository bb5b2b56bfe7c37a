import { beforeEach, describe, expect, test, vi } from "vitest";
import type { Shelf } from "../../../src/app/fleet.js";
import type { Vehicle } from "../../../src/records/index.js";
import { newVehicle } from "../../../src/records/new-vehicle.js";
import { bad, good } from "../../../src/units/outcome.js";

// The screens keep a few things in the browser's own store; here it is a map.
const kept = new Map<string, string>();
vi.stubGlobal("localStorage", {
  getItem: (key: string) => kept.get(key) ?? null,
  setItem: (key: string, value: string) => void kept.set(key, value),
});
vi.stubGlobal("navigator", {});
vi.stubGlobal("document", { documentElement: { dataset: {} } });

const fleet = await import("../../../src/app/fleet.js");
const typing = await import("../../../src/app/screens/edit/typing.js");

const vehicle = newVehicle({
  id: "v1",
  yardId: "y1",
  plate: "07",
  class: "goodsLarge",
  chemistry: "floodedLead",
  nominalV: 48,
});
const now = (): Vehicle => fleet.vehicleOf("v1") as Vehicle;
let full = false;
beforeEach(() => {
  full = false;
  const write: Shelf["write"] = async (changes) =>
    full ? bad({ code: "storageFull", where: "" }) : good({ changes, back: async () => [] });
  fleet.useShelf({ write }, { vehicle: [vehicle] });
  for (const held of typing.heldOf("vehicle", "v1")) typing.leaveOut("vehicle", "v1", held.path);
});
const type = (path: string, value: unknown) => typing.typeIn("vehicle", now(), [{ path, value }], "Kept.");

describe("typing into a record", () => {
  test("a value that fits is kept and is no guess any more", async () => {
    await type("kerbKg", 455);
    expect(now().kerbKg).toBe(455);
    expect(now().guesses).not.toContain("kerbKg");
    expect(typing.heldOf("vehicle", "v1")).toEqual([]);
  });

  test("a value out of range is refused with its limit before it is kept", () => {
    const why = typing.refusal("vehicle", now(), { path: "kerbKg", value: 20 });
    expect(why).toMatchObject({ code: "tooSmall", figures: { least: 80 } });
  });

  test("a value that clashes with another one is held, told, and kept together with the one that settles it", async () => {
    // A controller that lets go at 44 V cannot belong to a 24 V set
    await type("battery.nominalV", 24);
    expect(now().battery.nominalV).toBe(48);
    expect(typing.clashes("vehicle", now())[0]?.code).toBe("cutOffAboveSet");
    expect(JSON.parse(kept.get("noonplug-held") ?? "{}")).toEqual({
      "vehicle/v1": [{ path: "battery.nominalV", value: 24 }],
    });
    await type("drive.cutOffV", 20);
    expect(now().battery.nominalV).toBe(24);
    expect(now().drive.cutOffV).toBe(20);
    expect(typing.heldOf("vehicle", "v1")).toEqual([]);
  });

  test("a held value can be left out, and the record stays as it was", async () => {
    await type("drive.motorPeakW", 200);
    expect(typing.heldOf("vehicle", "v1")).toHaveLength(1);
    typing.leaveOut("vehicle", "v1", "drive.motorPeakW");
    expect(typing.heldOf("vehicle", "v1")).toEqual([]);
    expect(now()).toEqual(vehicle);
  });

  test("what a full phone does not take stays held until it does", async () => {
    full = true;
    await type("kerbKg", 500);
    expect(now().kerbKg).toBe(vehicle.kerbKg);
    expect(typing.heldOf("vehicle", "v1")).toEqual([{ path: "kerbKg", value: 500 }]);
    expect(typing.clashes("vehicle", now())).toEqual([]);
    expect(fleet.trouble.value?.code).toBe("storageFull");
    full = false;
    await typing.typeIn("vehicle", now(), [], "Kept.");
    expect(now().kerbKg).toBe(500);
    expect(typing.heldOf("vehicle", "v1")).toEqual([]);
  });
});
