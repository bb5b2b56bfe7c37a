import { expect, test } from "vitest";
import type { Answered, Case } from "../../src/app/answers.js";
import { todayModelOf } from "../../src/app/screens/today-of.js";
import { stuckWords, verdictSentence, verdictWords } from "../../src/app/screens/today-words.js";
import { en } from "../../src/app/words/en.js";
import { planDay } from "../../src/calc/day/plan-day.js";
import type { Round, Yard } from "../../src/records/index.js";
import { dayInputOf } from "../../src/records/map/day.js";
import { leftOut } from "../../src/records/map/leave-out.js";
import { newVehicle } from "../../src/records/new-vehicle.js";
import { utcMsAt } from "../../src/units/zone.js";
import { leaveOut } from "../../src/work/advice.js";
import { examples } from "../records/examples.js";

const yard = examples.yard as unknown as Yard;
const date = "2027-02-10";
const at = (minute: number) => utcMsAt(date, minute, yard.zone);
const leg = {
  kind: "leg",
  name: "Temple hill",
  km: 3,
  minutes: 15,
  climbM: 0,
  dropM: 0,
  surface: "asphalt",
  surroundings: "town",
  stopsPerKm: 1,
  headingDeg: null,
} as const;
const socket = {
  kind: "stop",
  name: "Mill",
  minutes: 30,
  shade: "open",
  sideDeg: null,
  payloadChangeKg: 0,
  socketKw: 1,
} as const;

function answered(parts: Round["parts"], percent: number, minute = 300): Answered {
  const of = { id: "v", yardId: yard.id, plate: "07", class: "eRickshaw", chemistry: "lfp", nominalV: 48 } as const;
  const vehicle = newVehicle({ ...of, roundId: "r", leaveMinute: 360, loadClass: "full" });
  const reading = { id: "read", v: 1, vehicleId: "v", kind: "percent", restedMin: null, perBlock: false } as const;
  const nowUtcMs = at(minute);
  const given: Case = {
    ...{
      yard,
      vehicle,
      rounds: [{ id: "r", v: 1, yardId: yard.id, name: "Hill", parts }],
      shifts: [],
      skies: [],
      date,
    },
    ...{ readings: [{ ...reading, atUtcMs: nowUtcMs, value: percent }], nowUtcMs },
  };
  return { case: given, answer: planDay(dayInputOf({ ...given, draws: 32 })) };
}
const long = (times: number): Round["parts"] => Array.from({ length: times }, () => ({ ...leg, km: 6, minutes: 24 }));

test("km to leave out are told once they are found, and with them left out the answer is enough", () => {
  const short = answered(long(12), 80);
  expect(["tight", "short"]).toContain(short.answer.verdict);
  const ways = (km: number | null) => todayModelOf(short, at(300), km).ways.filter(({ kind }) => kind === "leaveOut");
  expect(ways(null)).toEqual([]);
  const km = leaveOut({ ...short.case, draws: 32 });
  expect(ways(km)).toEqual([{ kind: "leaveOut", km }]);
  const left = leftOut({ ...short.case, draws: 32 }, km ?? 0, "end");
  expect(planDay(dayInputOf(left)).verdict).toBe("enough");
});

// E-rickshaws were reported as unfit for hill country (Kathmandu Post, 30 Aug 2017): 3 km of 14 % asks for more than they have.
test("a hill that no gear holds is said in the place of km, and no way out is offered that does not help", () => {
  const hill = answered([{ ...leg, climbM: 420 }, leg], 100);
  const model = todayModelOf(hill, at(300), 1);
  expect(model.said).toMatchObject({ verdict: "short", km: 0 });
  expect([model.ways, model.noPlug]).toEqual([[], null]);
  expect(verdictWords(en, model.said)).toMatchObject({ word: "Short", number: "" });
  expect(stuckWords(en, model)).toBe("Temple hill: too steep with this load.");
  expect(verdictSentence(en, model)).toContain("Temple hill: too steep with this load.");
  expect(todayModelOf(hill, at(300 + 240)).hill).toBeNull(); // it is behind
});

test("sockets on the way are named until they are behind", () => {
  const day = answered([leg, socket, leg], 90);
  expect(todayModelOf(day, at(300)).sockets).toEqual(["Mill"]);
  expect(todayModelOf(day, at(480)).sockets).toEqual([]);
  expect(todayModelOf(answered([leg, leg], 90), at(300)).sockets).toEqual([]);
});
