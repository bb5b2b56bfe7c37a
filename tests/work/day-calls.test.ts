import { expect, test, vi } from "vitest";
import type { DayCase } from "../../src/records/map/day.js";
import { utcMsAt } from "../../src/units/zone.js";
import { dayCalls } from "../../src/work/day-calls.js";
import { examples } from "../records/examples.js";

vi.doMock("../../src/records/map/answer-input.js", () => {
  throw new TypeError("Failed to fetch dynamically imported module");
});

test("without network and without the part that reads what was learned, a day is answered as by an unlearned phone", async () => {
  const { yard, vehicle, round, learned } = examples;
  const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, yard.zone);
  const plain: DayCase = {
    yard,
    vehicle: { ...vehicle, usual: { ...vehicle.usual, roundId: round.id } },
    rounds: [round],
    shifts: [],
    skies: [],
    readings: [],
    date: "2027-02-10",
    nowUtcMs,
  };
  const [told, known] = await Promise.all([dayCalls.answerDay({ ...plain, learned }), dayCalls.answerDay(plain)]);
  expect(told).toEqual(known);
});
