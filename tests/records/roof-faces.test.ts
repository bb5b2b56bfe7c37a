import { describe, expect, test } from "vitest";
import { typeInto } from "../../src/records/guesses.js";
import { readRecord } from "../../src/records/index.js";
import { newVehicle } from "../../src/records/new-vehicle.js";
import { newYard } from "../../src/records/new-yard.js";
import { withFace, withoutFace } from "../../src/records/roof-faces.js";

const vehicle = newVehicle({ id: "v1", yardId: "y1", plate: "01", class: "passenger", chemistry: "lfp" });

describe("faces of a roof", () => {
  test("a face that is put on and taken off again leaves the vehicle as it was", () => {
    for (const shape of ["flat", "left", "right", "front", "back"] as const) {
      const more = withFace(vehicle, shape, "new");
      expect(readRecord("vehicle", more).ok).toBe(true);
      expect(withoutFace(more, 1)).toEqual(vehicle);
    }
  });

  test("the side is known by the choice; the lean and the watts are guesses until they are typed", () => {
    const more = withFace(vehicle, "left", "new");
    expect(more.guesses).toContain("roof.faces.1.ratedW");
    expect(more.guesses).toContain("roof.faces.1.tiltDeg");
    expect(more.guesses).not.toContain("roof.faces.1.sideDeg");
    // clockwise from forward: the left side is 270 degrees, as the record says
    expect(more.roof.faces[1]?.sideDeg).toBe(270);
  });

  test("taking the first face off moves what is known of the second with it", () => {
    const typed = typeInto("vehicle", withFace(vehicle, "right", "new"), "roof.faces.1.ratedW", 410);
    if (!typed.ok) throw new Error("410 W is in range");
    const left = withoutFace(typed.value, 0);
    expect(left.roof.faces.map((face) => face.ratedW)).toEqual([410]);
    expect(left.guesses).not.toContain("roof.faces.0.ratedW");
    expect(left.guesses).toContain("roof.faces.0.tiltDeg");
    expect(left.guesses.some((path) => path.startsWith("roof.faces.1"))).toBe(false);
  });

  test("an optional figure can be left out again", () => {
    const typed = typeInto("vehicle", vehicle, "roof.faces.0.openCircuitV", 22);
    if (!typed.ok) throw new Error("22 V is in range");
    const out = typeInto("vehicle", typed.value, "roof.faces.0.openCircuitV", undefined);
    expect(out.ok && "openCircuitV" in (out.value.roof.faces[0] ?? {})).toBe(false);
  });

  test("typing one month leaves the other eleven guesses", () => {
    const made = newYard({ id: "y1", name: "Yard", zone: "Asia/Kolkata" });
    if (!made.ok) throw new Error("the zone exists");
    const typed = typeInto("yard", made.value.yard, "airMinCByMonth.3", 21);
    if (!typed.ok) throw new Error("21 C is in range");
    const months = typed.value.guesses.filter((path) => path.startsWith("airMinCByMonth"));
    expect(months).toHaveLength(11);
    expect(months).not.toContain("airMinCByMonth.3");
    expect(typed.value.guesses).toContain("airMaxCByMonth");
  });
});
