import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Round } from "../../src/records/index.js";
import { withBreak } from "../../src/records/map/break.js";
import { readRecord } from "../../src/records/read.js";

const leg = (km: number, minutes: number) =>
  ({
    kind: "leg",
    km,
    minutes,
    climbM: 4 * km,
    dropM: 2 * km,
    surface: "asphalt",
    surroundings: "town",
    stopsPerKm: 1,
    headingDeg: null,
  }) as const;
const stop = (minutes: number, payloadChangeKg: number) =>
  ({ kind: "stop", name: "Hall", minutes, shade: "part", sideDeg: null, payloadChangeKg, socketKw: null }) as const;
const round: Round = { id: "r", v: 1, yardId: "y", name: "Round", parts: [leg(8, 30), stop(60, -50), leg(4, 20)] };
const taken = { minutes: 45, shade: "open", socketKw: 1.5, name: "Break" } as const;

// Conservation: a break adds time and nothing else; km, climb and goods stay what they were.
test("a break at any minute keeps km, climb and load of the round, and the record stays valid", () => {
  void fc.assert(
    fc.property(fc.integer({ min: -30, max: 150 }), (minute) => {
      const changed = withBreak(round, minute, taken);
      const total = (of: Round, pick: (part: Round["parts"][number]) => number) =>
        of.parts.reduce((sum, part) => sum + pick(part), 0);
      const km = (of: Round) => total(of, (part) => (part.kind === "leg" ? part.km : 0));
      const climb = (of: Round) => total(of, (part) => (part.kind === "leg" ? part.climbM : 0));
      const kg = (of: Round) => total(of, (part) => (part.kind === "stop" ? part.payloadChangeKg : 0));
      expect(km(changed)).toBeCloseTo(km(round), 9);
      expect(climb(changed)).toBeCloseTo(climb(round), 9);
      expect(kg(changed)).toBe(kg(round));
      expect(changed.parts.filter((part) => part.kind === "stop" && part.name === "Break")).toHaveLength(1);
      expect(readRecord("round", changed).ok).toBe(true);
    }),
    { seed: 3 },
  );
});

test("within a planned stop the break takes its place", () => {
  const changed = withBreak(round, 40, taken); // 10 minutes into the stop of 60: 50 are left, 45 of them are the break
  expect(changed.parts.map((part) => part.minutes)).toEqual([30, 10, 45, 5, 20]);
});
