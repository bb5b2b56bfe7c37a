import { expect, test } from "vitest";
import losses from "../../../shared/reference/vehicle/roof-pv-losses.json" with { type: "json" };
import { demoFleets } from "../../../src/records/demo/index.js";
import { madeUpSky } from "../../../src/records/demo/log.js";
import type { Round, Vehicle, Yard } from "../../../src/records/index.js";
import { sunEstimates } from "../../../src/records/map/money-sun.js";

const fleet = demoFleets.quay("2027-02-09");
const [yard] = fleet.yards as [Yard];
const vehicle = fleet.vehicles.find(({ roof }) => roof.faces.length > 0) as Vehicle;
const round = fleet.rounds.find(({ id }) => id === vehicle.usual.roundId) as Round;
const ratedW = vehicle.roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
const given = {
  yard,
  vehicle,
  round,
  skies: [madeUpSky(yard, "2027-02-01", "bright"), madeUpSky(yard, "2027-02-02", "dark")],
};
const units = sunEstimates(given, ["2027-02-01", "2027-02-02", "2027-02-03"]);

test("a day's units lie around the published rule: watts x 4 to 6 sun hours x 0.70 on the road x 0.75 (roof-pv-losses.json, field notes 6)", () => {
  expect(JSON.stringify(losses)).toContain("0.7");
  const usual = (units.get("2027-02-03") ?? 0) * 1000;
  expect(usual).toBeGreaterThan(ratedW * 4 * 0.7 * 0.75 * 0.6);
  expect(usual).toBeLessThan(ratedW * 6 * 0.7 * 0.75 * 1.3);
});

test("a bright day brings more than the usual one, a dark day less", () => {
  expect(units.get("2027-02-01") ?? 0).toBeGreaterThan(units.get("2027-02-03") ?? 0);
  expect(units.get("2027-02-02") ?? 9).toBeLessThan(units.get("2027-02-03") ?? 0);
});

test("without a roof there is no estimate, not a nought", () => {
  const bare = { ...vehicle, roof: { ...vehicle.roof, faces: [] } };
  expect(sunEstimates({ ...given, vehicle: bare }, ["2027-02-01"]).size).toBe(0);
});
