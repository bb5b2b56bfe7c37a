import { describe, expect, test } from "vitest";
import {
  CLASS_GUESSES,
  classVehicle,
  type Guess,
  TOWN_GUESSES,
  VENDING_GUESSES,
  type VehicleClass,
} from "../../../src/calc/road/index.js";
import { dataOf } from "./fixtures.js";

type Published = Readonly<Record<string, { readonly default: number; readonly range: readonly [number, number] }>>;
const published = dataOf("default-parameter-sets") as Readonly<Record<string, Published>>;
const THEIRS: Readonly<Record<string, string>> = { motorRatedW: "motorW", baseW: "auxiliaryW" };

const agrees = (name: string, ours: Guess, theirs: Published[string] | undefined) => {
  if (!theirs) return 0;
  expect([name, ours.value, ours.low, ours.high]).toEqual([name, theirs.default, ...theirs.range]);
  return 1;
};

describe("guesses by class are the published ones (vehicle/default-parameter-sets.json)", () => {
  test.each(Object.keys(CLASS_GUESSES) as VehicleClass[])("%s", (of) => {
    const count = Object.entries(CLASS_GUESSES[of]).reduce(
      (all, [name, ours]) => all + agrees(`${of}.${name}`, ours, published[of]?.[THEIRS[name] ?? name]),
      0,
    );
    expect(count).toBeGreaterThanOrEqual(7);
  });
  test("town and stall", () => {
    agrees("stops", TOWN_GUESSES.stopsPerKm, published.stopPattern?.stopsPerKmDenseCity);
    agrees("speed", TOWN_GUESSES.movingKmh, published.stopPattern?.movingAverageKmhCity);
    agrees("hotel", VENDING_GUESSES.hotelW, published.vendingCart?.hotelW);
    expect(agrees("peak", VENDING_GUESSES.hotelPeakW, published.vendingCart?.hotelPeakW)).toBe(1);
  });
  test("every guess lies in its own range and says where it comes from", () => {
    for (const guess of Object.values(CLASS_GUESSES).flatMap((each) => Object.values(each))) {
      expect(guess.value).toBeGreaterThanOrEqual(guess.low);
      expect(guess.value).toBeLessThanOrEqual(guess.high);
      expect(guess.source.length).toBeGreaterThan(4);
    }
  });
  test("a class vehicle takes the current of its start, and lets go at 42 V of a 48 V set", () => {
    expect(classVehicle("goodsLarge", 48)).toMatchObject({ controllerMaxA: 150, cutOffV: 42, motorRatedW: 3000 });
    expect(classVehicle("eRickshaw", 60)).toMatchObject({ controllerMaxA: 60, cutOffV: 52.5, maxKmh: 25 });
  });
});
