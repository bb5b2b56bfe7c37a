import { beforeEach, expect, test, vi } from "vitest";
import type { Change, Shelf } from "../../src/app/fleet.js";
import type { Sky, Vehicle } from "../../src/records/index.js";
import { newVehicle } from "../../src/records/new-vehicle.js";
import { bad, good } from "../../src/units/outcome.js";
import { examples } from "../records/examples.js";

vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
vi.stubGlobal("navigator", {});
vi.stubGlobal("document", { documentElement: { dataset: {} } });

const { book, keep, listed, shiftOn, trouble, useShelf, vehicleOf } = await import("../../src/app/fleet.js");
const { edited } = await import("../../src/app/edited.js");
const { typeIn } = await import("../../src/app/screens/edit/typing.js");
const { painted } = await import("../../src/app/screens/sky/cover.js");

const vehicle = newVehicle({
  id: "v1",
  yardId: "y1",
  plate: "07",
  class: "goodsLarge",
  chemistry: "floodedLead",
  nominalV: 48,
});

/** A phone on which every write takes its time, and the writes it was given. */
let refuses = false;
let written: (readonly Change[])[] = [];
const write: Shelf["write"] = async (changes) => {
  await new Promise((done) => setTimeout(done, 10));
  if (refuses) return bad({ code: "storageFull", where: "" });
  written.push(changes);
  return good({ changes, back: async () => [] });
};
beforeEach(() => {
  refuses = false;
  written = [];
  useShelf({ write }, { vehicle: [vehicle], sky: [examples.sky] });
});
const now = () => vehicleOf("v1") as Vehicle;
const sky = () => listed(book.value, "sky")[0] as Sky;

test("of two taps on one record, the second before the first is on disk, both stay", async () => {
  const both = [
    keep(edited("vehicle", "v1", (old) => ({ ...old, status: "offRoad" }))),
    keep(edited("vehicle", "v1", (old) => ({ ...old, plate: "08" }))),
  ];
  expect(await Promise.all(both)).toEqual([true, true]);
  expect(now()).toMatchObject({ status: "offRoad", plate: "08" });
  expect(written).toHaveLength(2);
});

test("hours painted one after the other without waiting are all painted", async () => {
  const paint = (hour: number) =>
    keep(
      edited("sky", sky().id, (old) => ({
        ...old,
        cover: painted(old.cover ?? undefined, hour, { okta: 8, thin: false }),
      })),
    );
  await Promise.all([8, 9, 10].map(paint));
  const { cover } = sky();
  expect(cover?.kind === "hours" && [8, 9, 10].map((hour) => cover.oktas[hour])).toEqual([8, 8, 8]);
});

test("figures typed into a record that a screen read long ago leave what was typed meanwhile", async () => {
  const old = now(); // as a place that takes 20 s to come holds it
  await typeIn("vehicle", old, [{ path: "kerbKg", value: 455 }], "");
  await Promise.all([
    typeIn("vehicle", old, [{ path: "fullLoadKg", value: 380 }], ""),
    typeIn("vehicle", old, ({ drive }) => [{ path: "drive.gears", value: [...drive.gears, 4] }], ""),
    typeIn("vehicle", old, ({ drive }) => [{ path: "drive.gears", value: [...drive.gears, 2] }], ""),
  ]);
  expect(now()).toMatchObject({ kerbKg: 455, fullLoadKg: 380 });
  expect(now().drive.gears).toEqual([...vehicle.drive.gears, 4, 2]);
});

test("what the phone refuses does not hold up what comes after, nor does a mistake of ours", async () => {
  refuses = true;
  expect(await keep(edited("vehicle", "v1", (old) => ({ ...old, plate: "08" })))).toBe(false);
  expect(trouble.value?.code).toBe("storageFull");
  expect(now().plate).toBe("07");
  refuses = false;
  const broken = keep(() => {
    throw new Error("a mistake");
  });
  const next = keep(edited("vehicle", "v1", (old) => ({ ...old, plate: "09" })));
  await expect(broken).rejects.toThrow("a mistake");
  expect(await next).toBe(true);
  expect(now().plate).toBe("09");
});

test("a change to a record that is gone by then writes nothing", async () => {
  const both = [keep([{ kind: "vehicle", drop: "v1" }]), keep(edited("vehicle", "v1", (old) => old))];
  expect(await Promise.all(both)).toEqual([true, true]);
  expect(written).toHaveLength(1);
  expect(vehicleOf("v1")).toBeUndefined();
});

test("of two shifts of a day the first stays the one that is changed", async () => {
  const first = { ...examples.shift, id: "a", vehicleId: "v1", leaveMinute: 360 };
  const second = { ...first, id: "b", leaveMinute: 840 };
  useShelf({ write }, { shift: [first, second] });
  const later = () => {
    const shift = shiftOn("v1", first.date);
    return keep(shift ? [{ kind: "shift", put: { ...shift, leaveMinute: shift.leaveMinute + 30 } }] : []);
  };
  await later();
  await later();
  expect(listed(book.value, "shift").map(({ id, leaveMinute }) => [id, leaveMinute])).toEqual([
    ["a", 420],
    ["b", 840],
  ]);
});
