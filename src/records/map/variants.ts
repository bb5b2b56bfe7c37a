import type { Chemistry } from "../../calc/battery/index.js";
import { classVehicle } from "../../calc/road/index.js";
import type { RoofLink } from "../../calc/roof/index.js";
import type { Reading, Vehicle } from "../index.js";
import { PANEL_KG_PER_W, SET_KG_PER_WH } from "../kit-weights.js";
import { newVehicle } from "../new-vehicle.js";
import type { DayCase } from "./day.js";

/** What may be changed about a vehicle to see it beside itself. */
export type VariantChange =
  | { readonly kind: "asIs" }
  | { readonly kind: "chemistry"; readonly to: Chemistry }
  | { readonly kind: "roof"; readonly to: "none" | "flat" | "twoSided" }
  | { readonly kind: "link"; readonly to: RoofLink }
  | { readonly kind: "gears"; readonly to: "one" | "five" };

/** The vehicle with one part exchanged; its own log no longer counts where the part bears on consumption. */
export function variantOf(vehicle: Vehicle, change: VariantChange): Vehicle {
  switch (change.kind) {
    case "asIs":
      return vehicle;
    case "chemistry":
      return withChemistry(vehicle, change.to);
    case "roof":
      return withRoof(vehicle, change.to);
    case "link":
      return { ...vehicle, roof: { ...vehicle.roof, link: change.to } };
    case "gears":
      return { ...vehicle, drive: { ...vehicle.drive, ...gearsOf(vehicle, change.to) } };
  }
}

/** A set of the same rated energy and age; the vehicle gains or loses the difference in weight. */
function withChemistry(vehicle: Vehicle, chemistry: Chemistry): Vehicle {
  const now = vehicle.battery;
  if (now.chemistry === chemistry) return vehicle;
  const { id, yardId, plate } = vehicle;
  const other = newVehicle({ id, yardId, plate, class: vehicle.class, chemistry });
  const wh = now.nominalV * now.ratedAh;
  return {
    ...vehicle,
    kerbKg: vehicle.kerbKg + wh * (SET_KG_PER_WH[chemistry] - SET_KG_PER_WH[now.chemistry]),
    battery: { ...other.battery, ratedAh: wh / other.battery.nominalV, health: now.health },
    charger: { ...vehicle.charger, efficiency: other.charger.efficiency },
  };
}

/** Differences smaller than the steps of a dial are no change. */
const SAME_W = 5;
const SAME_WH = 10;

/**
 * The vehicle with a roof and a set of other sizes: more of the same panels side by side, more cells side by side, and their weight. A roof on
 * a vehicle that has none lies flat; none is in the kerb weight yet.
 */
export function withSizes(vehicle: Vehicle, sizes: { readonly roofW: number; readonly packWh: number }): Vehicle {
  const { battery, roof } = vehicle;
  const nowW = roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
  const nowWh = battery.nominalV * battery.ratedAh;
  const roofW = Math.abs(sizes.roofW - nowW) < SAME_W ? nowW : sizes.roofW;
  const packWh = Math.abs(sizes.packWh - nowWh) < SAME_WH ? nowWh : sizes.packWh;
  if (roofW === nowW && packWh === nowWh) return vehicle;
  const size = packWh / nowWh;
  const addedKg = (roofW - nowW) * PANEL_KG_PER_W + (packWh - nowWh) * SET_KG_PER_WH[battery.chemistry];
  return {
    ...vehicle,
    kerbKg: vehicle.kerbKg + addedKg,
    battery: { ...battery, ratedAh: battery.ratedAh * size, resistanceOhm: battery.resistanceOhm / size },
    roof: { ...roof, faces: facesOf(vehicle, nowW, roofW) },
  };
}

function facesOf(vehicle: Vehicle, nowW: number, roofW: number): Vehicle["roof"]["faces"] {
  const { faces } = vehicle.roof;
  if (nowW > 0) return roofW === 0 ? [] : faces.map((face) => ({ ...face, ratedW: (face.ratedW * roofW) / nowW }));
  const { id, yardId, plate, battery } = vehicle;
  const asked = { id, yardId, plate, class: vehicle.class, chemistry: battery.chemistry };
  return roofW === 0 ? faces : newVehicle({ ...asked, roofW, roofShape: "flat" }).roof.faces;
}

function withRoof(vehicle: Vehicle, shape: "none" | "flat" | "twoSided"): Vehicle {
  const ratedW = vehicle.roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
  const { id, yardId, plate, battery } = vehicle;
  const roofW = shape === "none" ? 0 : ratedW;
  const roofShape = shape === "twoSided" ? "twoSided" : "flat";
  const made = newVehicle({ id, yardId, plate, class: vehicle.class, chemistry: battery.chemistry, roofW, roofShape });
  return { ...vehicle, roof: { ...vehicle.roof, faces: made.roof.faces } };
}

/** The original box with its five gears, or one fixed gear in the middle of it: common practice, no source. */
function gearsOf(vehicle: Vehicle, to: "one" | "five"): Partial<Vehicle["drive"]> {
  const { gears } = vehicle.drive;
  if (to === "one") return gears.length === 1 ? {} : { gears: [gears[gears.length >> 1] ?? 1] };
  if (gears.length > 1) return {};
  const box = classVehicle("goodsLarge", vehicle.battery.nominalV);
  return { gears: box.gears, finalRatio: box.finalRatio, wheelRadiusM: box.wheelRadiusM };
}

/** The same day for each variant, all with a full set now: a gauge reading means another charge in another set. */
export function variantCases(given: DayCase, changes: readonly VariantChange[]): DayCase[] {
  const full: Reading = {
    id: `${given.vehicle.id}/full`,
    v: 1,
    vehicleId: given.vehicle.id,
    atUtcMs: given.nowUtcMs,
    kind: "full",
    value: 0,
    restedMin: null,
    perBlock: false,
  };
  return changes.map((change) => ({
    ...given,
    vehicle: variantOf(given.vehicle, change),
    readings: [full],
    learned: undefined, // of the vehicle as it is
  }));
}
