import { expect, test } from "vitest";
import { stringVolts } from "../../src/app/screens/kit-volts.js";
import type { Vehicle, Yard } from "../../src/records/index.js";
import { stringChecksOf } from "../../src/records/map/panel-volts.js";
import { examples } from "../records/examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;

test("only faces whose panels were typed have volts; cold raises them, heat and weak light lower them", () => {
  const [left, ...others] = stringVolts(vehicle, yard);
  expect(others).toEqual([]);
  expect(left?.coldestC).toBe(3); // ten below the usual nights of the coldest month
  // 24 V open at 25 C, -0.30 % per C: 24 x (1 + 0.003 x 22) by hand
  expect(left?.coldV).toBeCloseTo(25.584, 3);
  expect(left?.hotV).toBeLessThan(20);
  expect(left?.weakV).toBeLessThan(left?.coldV ?? 0);
  expect(left?.weakV).toBeGreaterThan(0.88 * 24);
});

test("a string above what the charge controller bears on the coldest morning is named, and one too low at noon", () => {
  const roofWith = (more: Partial<Vehicle["roof"]>) => ({ ...vehicle, roof: { ...vehicle.roof, ...more } });
  expect(stringVolts(roofWith({ controllerMaxV: 25.5 }), yard)[0]?.coldOk).toBe(false);
  expect(stringVolts(roofWith({ controllerMaxV: 26 }), yard)[0]?.coldOk).toBe(true);
  expect(stringVolts(roofWith({ controllerMinV: 19 }), yard)[0]?.hotOk).toBe(false);
  expect(stringVolts(roofWith({ controllerMaxV: null, controllerMinV: null }), yard)[0]).toMatchObject({
    coldOk: true,
    hotOk: true,
  });
});

test("faces behind one plain switch are one string, and its volts are those of the vehicle's own sheet", () => {
  const face = vehicle.roof.faces[0] as Vehicle["roof"]["faces"][number];
  const two = { ...vehicle, roof: { ...vehicle.roof, link: "series" as const, faces: [face, { ...face, name: "b" }] } };
  const [whole, ...more] = stringVolts(two, yard);
  expect(more).toEqual([]);
  expect(whole?.coldV).toBeCloseTo(2 * 25.584, 3);
  expect(whole?.coldV).toBe(stringChecksOf(two, yard)[0]?.coldV);
});
