import { expect, test } from "vitest";
import { faceVolts } from "../../src/app/screens/kit-volts.js";
import type { Vehicle, Yard } from "../../src/records/index.js";
import { examples } from "../records/examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;

test("only faces whose panels were typed have volts; cold raises them, heat and weak light lower them", () => {
  const [left, ...others] = faceVolts(vehicle, yard);
  expect(others).toEqual([]);
  expect(left?.coldestC).toBe(13);
  // 24 V open at 25 C, -0.29 % per C: 24 x (1 + 0.0029 x 12) by hand
  expect(left?.coldV).toBeCloseTo(24.835, 2);
  expect(left?.hotV).toBeLessThan(20);
  expect(left?.weakV).toBeLessThan(left?.coldV ?? 0);
  expect(left?.weakV).toBeGreaterThan(0.88 * 24);
});

test("a string above what the charge controller bears on the coldest morning is named, and one too low at noon", () => {
  const roofWith = (more: Partial<Vehicle["roof"]>) => ({ ...vehicle, roof: { ...vehicle.roof, ...more } });
  expect(faceVolts(roofWith({ controllerMaxV: 24.5 }), yard)[0]?.coldOk).toBe(false);
  expect(faceVolts(roofWith({ controllerMaxV: 25 }), yard)[0]?.coldOk).toBe(true);
  expect(faceVolts(roofWith({ controllerMinV: 19 }), yard)[0]?.hotOk).toBe(false);
  expect(faceVolts(roofWith({ controllerMaxV: null, controllerMinV: null }), yard)[0]).toMatchObject({
    coldOk: true,
    hotOk: true,
  });
});
