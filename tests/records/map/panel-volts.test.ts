import { describe, expect, test } from "vitest";
import type { RoofFaceRecord, Vehicle } from "../../../src/records/index.js";
import { stringChecksOf } from "../../../src/records/map/panel-volts.js";
import { newVehicle } from "../../../src/records/new-vehicle.js";
import { examples } from "../examples.js";

const yard = {
  ...examples.yard,
  airMinCByMonth: [9, 11, 14, 18, 22, 24, 24, 24, 23, 19, 14, 10],
  airMaxCByMonth: [22, 25, 31, 36, 38, 37, 34, 33, 33, 32, 28, 23],
};
// A common framed panel of 36 cells: about 22 V open, 18 V at full power
const face: RoofFaceRecord = {
  name: "roof",
  ratedW: 100,
  tiltDeg: 0,
  sideDeg: 0,
  gammaPerC: -0.004,
  panelsInSeries: 2,
  openCircuitV: 22.1,
  maxPowerV: 18,
};
const withRoof = (roof: Partial<Vehicle["roof"]>): Vehicle => {
  const vehicle = newVehicle({ id: "v1", yardId: "y1", plate: "01", class: "passenger", chemistry: "lfp" });
  return { ...vehicle, roof: { ...vehicle.roof, faces: [face], controllerMaxV: 50, controllerMinV: 30, ...roof } };
};

// NEC 690.7(A): open-circuit volts of the panels in series, added and corrected for the lowest temperature expected
describe("panel volts", () => {
  test("a string on a record cold morning", () => {
    const [check] = stringChecksOf(withRoof({}), yard);
    expect(check?.coldestAirC).toBe(-1);
    expect(check?.coldV).toBeCloseTo(2 * 22.1 * (1 + 0.003 * 26), 6);
    expect(check?.coldOk).toBe(true);
    expect(stringChecksOf(withRoof({ controllerMaxV: 47 }), yard)[0]?.coldOk).toBe(false);
  });

  test("faces in series add up to one string, others stay apart", () => {
    const faces = [face, { ...face, openCircuitV: 40, maxPowerV: 33, panelsInSeries: 1 }];
    const series = stringChecksOf(withRoof({ faces, link: "series" }), yard);
    expect(series).toHaveLength(1);
    expect(series[0]?.coldV).toBeCloseTo((2 * 22.1 + 40) * (1 + 0.003 * 26), 6);
    expect(series[0]?.coldOk).toBe(false);
    const apart = stringChecksOf(withRoof({ faces, link: "oneTracker" }), yard);
    expect(apart.map((check) => check.faces)).toEqual([[0], [1]]);
  });

  test("a hot noon pulls the string below what the charge controller needs", () => {
    // hotter than the air by 20 to 40 C in full sun: common practice for panels close over a roof
    const [check] = stringChecksOf(withRoof({}), yard);
    expect(check?.hotCellC).toBeGreaterThan(38 + 20);
    expect(check?.hotCellC).toBeLessThan(38 + 45);
    expect(check?.hotV).toBeGreaterThan(36 * (1 - 0.004 * 58));
    expect(check?.hotV).toBeLessThan(36 * (1 - 0.004 * 33));
    expect(stringChecksOf(withRoof({ controllerMinV: 25 }), yard)[0]?.hotOk).toBe(true);
    expect(stringChecksOf(withRoof({ controllerMinV: 35 }), yard)[0]?.hotOk).toBe(false);
  });

  test("what nobody typed stays not known", () => {
    const { openCircuitV: _open, maxPowerV: _most, ...bare } = face;
    const [check] = stringChecksOf(withRoof({ faces: [bare] }), yard);
    expect(check).toMatchObject({ coldV: null, hotV: null, coldOk: null, hotOk: null });
    expect(stringChecksOf(withRoof({ controllerMaxV: null }), yard)[0]?.coldOk).toBeNull();
    expect(stringChecksOf(withRoof({ faces: [] }), yard)).toEqual([]);
  });
});
