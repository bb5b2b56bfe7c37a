import { expect, test } from "vitest";
import { eastNorth } from "../../../src/records/import/earth.js";
import { degreeLengths } from "./track-maker.js";

const lengthM = (way: { eastM: number; northM: number }) => Math.hypot(way.eastM, way.northM);

test("Flinders Peak to Buninyong is 54,972.271 m (Geoscience Australia, GDA technical manual)", () => {
  const dms = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
  const way = eastNorth(-dms(37, 57, 3.7203), dms(144, 25, 29.5244), -dms(37, 39, 10.1561), dms(143, 55, 35.3839));
  expect(Math.abs(lengthM(way) / 54_972.271 - 1)).toBeLessThan(1e-5);
});

test.each([0, 10, 25, -33, 47, 61, 75])("degrees at latitude %i have the lengths of the WGS 84 series", (latDeg) => {
  const want = degreeLengths(latDeg);
  const north = eastNorth(latDeg - 0.05, 12, latDeg + 0.05, 12);
  const east = eastNorth(latDeg, 12, latDeg, 12.1);
  expect(north.northM).toBeCloseTo(want.latM / 10, 1);
  expect(north.eastM).toBe(0);
  expect(east.eastM).toBeCloseTo(want.lonM / 10, 1);
  expect(east.northM).toBe(0);
});

test("the date line is no wall", () => {
  expect(eastNorth(-17, 179.99, -17, -179.99).eastM).toBeCloseTo(eastNorth(-17, 10, -17, 10.02).eastM, 6);
  expect(eastNorth(-17, -179.99, -17, 179.99).eastM).toBeCloseTo(eastNorth(-17, 10.02, -17, 10).eastM, 6);
});
