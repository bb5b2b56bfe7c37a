import { expect, test } from "vitest";
import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import type { DayCase } from "../../src/records/map/day.js";
import { variantCases } from "../../src/records/map/variants.js";
import { utcMsAt } from "../../src/units/zone.js";
import { compare, moves, reaches } from "../../src/work/what-if.js";
import { examples } from "../records/examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;
const round = examples.round as unknown as Round;
const day: DayCase = {
  yard,
  vehicle: { ...vehicle, usual: { ...vehicle.usual, leaveMinute: 480 } },
  rounds: [round],
  shifts: [],
  skies: [],
  readings: [],
  date: "2027-02-10",
  nowUtcMs: utcMsAt("2027-02-09", 19 * 60, yard.zone),
  draws: 64,
};

test("ranges fall with load and rise with sun, in that order of worth", () => {
  const [empty, full] = reaches(day);
  for (const reach of [empty, full]) {
    expect(reach?.noSun).toBeGreaterThan(20);
    expect(reach?.dark).toBeGreaterThan(reach?.noSun ?? 0);
    expect(reach?.bright).toBeGreaterThan(reach?.dark ?? 0);
  }
  expect(full?.bright).toBeLessThan(empty?.noSun ?? 0);
});

test("a range without sun is the usable energy above the reserve over what a km takes", () => {
  const flat: Round = {
    ...round,
    parts: round.parts.map((part) => (part.kind === "leg" ? { ...part, climbM: 0, dropM: 0 } : part)),
  };
  const [, full] = reaches({ ...day, rounds: [flat] });
  const { answer } = moves({
    ...day,
    rounds: [flat],
    vehicle: { ...day.vehicle, usual: { ...day.vehicle.usual, loadClass: "full" } },
  });
  const km = (answer.usableWh * (1 - answer.reserveShare)) / answer.whPerKm;
  expect(Math.abs((full?.noSun ?? 0) / km - 1)).toBeLessThan(0.1); // stops, lamps and standing by the night are not in a km
});

test("levers and variants come back in the order asked for", () => {
  expect(moves(day).levers.map((lever) => lever.change)).toEqual(["km", "kg", "shadeHours", "slopeDeg"]);
  const cases = variantCases(day, [{ kind: "asIs" }, { kind: "roof", to: "none" }, { kind: "link", to: "series" }]);
  const sides = compare(cases.map((given, i) => ({ name: String(i), given })));
  expect(sides.map((side) => side.name)).toEqual(["0", "1", "2"]);
  expect(sides[1]?.moreSunWh).toBeLessThan(0);
});
