import { expect, test } from "vitest";
import { todayModelOf } from "../../src/app/screens/today-of.js";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../src/records/map/day.js";
import { utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";

const yard = examples.yard as unknown as Yard;
const known = examples.vehicle as unknown as Vehicle;
const round = examples.round as unknown as Round;
const date = "2027-02-10";
const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, yard.zone);
const year = (airC: number) => new Array<number>(12).fill(airC);

function modelOf(chemistry: Vehicle["battery"]["chemistry"], airC: number) {
  const asked: DayCase = {
    yard: { ...yard, airMinCByMonth: year(airC - 4), airMaxCByMonth: year(airC + 4) },
    vehicle: { ...known, battery: { ...known.battery, chemistry } },
    rounds: [{ ...round, parts: [round.parts, round.parts, round.parts, round.parts].flat() }],
    shifts: [],
    skies: [],
    readings: [
      {
        id: "r",
        v: 1,
        vehicleId: known.id,
        atUtcMs: nowUtcMs,
        kind: "percent",
        value: 35,
        restedMin: 60,
        perBlock: false,
      },
    ],
    date,
    nowUtcMs,
  };
  return todayModelOf({ case: asked, answer: planDay(dayInputOf(asked)) }, nowUtcMs);
}

test("a short lithium set in the frost says that it takes no charge, offers no plug, and shows the day all the same", () => {
  const frost = modelOf("lfp", -10);
  expect(frost.said.verdict).toBe("short");
  expect(frost.tooCold).toBe(true);
  expect(frost.ways.map(({ kind }) => kind)).not.toContain("plug");
  expect(frost.strip?.mid.length).toBeGreaterThan(10);
});

test("in mild air, or with lead-acid, it does not", () => {
  expect(modelOf("lfp", 22).tooCold).toBe(false);
  expect(modelOf("floodedLead", -10).tooCold).toBe(false);
});
