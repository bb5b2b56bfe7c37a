import { expect, test } from "vitest";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { legProfiles } from "../../src/records/map/leg-profile.js";
import { utcMsAt } from "../../src/units/zone.js";
import { examples } from "./examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;
const round = examples.round as unknown as Round;
const date = "2027-02-10";
const given = (parts: Round["parts"] = round.parts): DayCase => ({
  yard,
  vehicle,
  rounds: [{ ...round, parts }],
  shifts: [],
  skies: [],
  readings: [],
  date,
  nowUtcMs: utcMsAt(date, 0, yard.zone),
});

test("the legs of a round add up to its km and to the energy that the day's answer gives", () => {
  const legs = legProfiles(given());
  const answer = planDay(dayInputOf(given()));
  expect(legs.reduce((km, leg) => km + leg.km, 0)).toBeCloseTo(answer.km, 6);
  const wh = legs.reduce((sum, leg) => sum + leg.whPerKm * leg.km, 0);
  expect(Math.abs(wh / answer.book.driveWh - 1)).toBeLessThan(1e-6);
});

test("a climb takes more and goes no faster; a way of no length is left out; without a round there is none", () => {
  const leg = round.parts.find((part) => part.kind === "leg") as Extract<Round["parts"][number], { kind: "leg" }>;
  const [flat, hill, ...none] = legProfiles(given([leg, { ...leg, climbM: leg.climbM + 150 }, { ...leg, km: 0 }]));
  expect(none).toEqual([]);
  expect(hill?.whPerKm).toBeGreaterThan((flat?.whPerKm ?? 0) * 1.2);
  expect(hill?.kmh).toBeLessThanOrEqual(flat?.kmh ?? 0);
  expect(legProfiles({ ...given(), rounds: [] })).toEqual([]);
});
