import { describe, expect, test } from "vitest";
import {
  hillWordOf,
  loadsAfter,
  moved,
  newRound,
  newStop,
  newWay,
  withHills,
  withKm,
} from "../../../src/app/screens/rounds/new-parts.js";
import { totalOf } from "../../../src/app/screens/rounds/sum.js";
import { daylightHours, hoursOf, painted, partsOf } from "../../../src/app/screens/sky/cover.js";
import {
  clockText,
  hoursBetween,
  runsOf,
  stretchesOf,
  tightest,
  withHours,
} from "../../../src/app/screens/yard/hours.js";
import { checkRecord } from "../../../src/records/check.js";
import { type LegPart, readRecord } from "../../../src/records/index.js";

const round = newRound({ id: "r1", yardId: "y1", name: "Round 1", stop: "Stop" });
const way = round.parts[0] as LegPart;

describe("a round under the fingers", () => {
  test("begins as one that can be kept", () => {
    expect(readRecord("round", round)).toEqual({ ok: true, value: round });
    expect(checkRecord("round", round)).toEqual({ errors: [], warnings: [] });
  });

  test("a longer way takes longer and climbs more, unless its minutes were typed", () => {
    const hilly = withHills(way, "hills");
    const twice = withKm(hilly, way.km * 2, false);
    expect(twice).toMatchObject({ km: 10, minutes: 40, climbM: hilly.climbM * 2, dropM: hilly.dropM * 2 });
    expect(withKm(hilly, way.km * 2, true).minutes).toBe(way.minutes);
    expect(hillWordOf(twice)).toBe("hills");
    expect(hillWordOf({ ...twice, climbM: 13 })).toBeNull();
  });

  test("the next way is the last one back: what climbed drops, and it heads the other way", () => {
    const out: LegPart = { ...way, name: "Out", climbM: 80, dropM: 10, headingDeg: 315 };
    expect(newWay([out])).toEqual({ ...way, climbM: 10, dropM: 80, headingDeg: 135 });
  });

  test("a part moves past its neighbour and not off the ends", () => {
    const [a, b, c] = [way, newStop("A"), newStop("B")];
    expect(moved([a, b, c], 1, 1)).toEqual([a, c, b]);
    expect(moved([a, b, c], 2, -1)).toEqual([a, c, b]);
    expect(moved([a, b, c], 0, -1)).toEqual([a, b, c]);
    expect(moved([a, b, c], 2, 1)).toEqual([a, b, c]);
  });

  test("loads go on and off, and more off than was on is told", () => {
    const stops = [-100, 300, -400].map((payloadChangeKg) => ({ ...newStop("S"), payloadChangeKg }));
    expect(loadsAfter(stops, 150)).toEqual([
      { kg: 50, missingKg: 0 },
      { kg: 350, missingKg: 0 },
      { kg: 0, missingKg: 50 },
    ]);
  });

  test("sums length, time and climb", () => {
    expect(totalOf([way, { ...newStop("S"), minutes: 15 }, { ...way, climbM: 40 }])).toEqual({
      km: 10,
      minutes: 55,
      climbM: 40,
    });
  });
});

describe("a sky under the fingers", () => {
  test("begins its parts and hours where the coarser word left it", () => {
    expect(partsOf({ kind: "three", value: "dark" })).toEqual(["dark", "dark", "dark"]);
    const { oktas } = hoursOf({ kind: "parts", values: ["bright", "mixed", "dark"] });
    expect(oktas[8]).toBeLessThan(oktas[12] as number);
    expect(oktas[12]).toBeLessThan(oktas[16] as number);
  });

  test("an hour takes the paint; tapped again it takes one eighth more, and after eight none", () => {
    let cover = painted(undefined, 9, { okta: 7, thin: true });
    const at = () => (cover.kind === "hours" ? [cover.oktas[9], cover.thin[9]] : []);
    expect(at()).toEqual([7, true]);
    cover = painted(cover, 9, { okta: 7, thin: true });
    expect(at()).toEqual([8, true]);
    cover = painted(cover, 9, { okta: 8, thin: false });
    cover = painted(cover, 9, { okta: 8, thin: false });
    expect(at()).toEqual([0, false]);
    const sky = { id: "y1/2027-02-10", v: 1, yardId: "y1", date: "2027-02-10", cover };
    const rest = { airMinC: null, airMaxC: null, windMs: null, wet: false, haze: null };
    expect(readRecord("sky", { ...sky, ...rest }).ok).toBe(true);
  });

  test("shows the hours with light", () => {
    expect(daylightHours(6.2, 18.1)).toEqual([6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18]);
    expect(daylightHours(null, null)).toHaveLength(13);
    expect(daylightHours(4.5, 21.4)).toHaveLength(18);
  });
});

describe("hours of a yard", () => {
  test("hourly values read as stretches, and a stretch over midnight sets both its ends", () => {
    const byHour = withHours(
      Array.from({ length: 24 }, () => 0),
      hoursBetween(22, 2),
      3,
    );
    expect(runsOf(byHour)).toEqual([
      { fromH: 0, toH: 2, kw: 3 },
      { fromH: 22, toH: 24, kw: 3 },
    ]);
    expect(hoursBetween(6, 6)).toHaveLength(24);
  });

  test("the tightest hour is the one with most drawn", () => {
    const byHour = withHours(
      Array.from({ length: 24 }, () => 1),
      [19],
      6,
    );
    expect(tightest(byHour, 18, 2)).toEqual({ hour: 19, kw: 10 });
  });

  test("a span over midnight is drawn in two stretches, and midnight ends a day", () => {
    expect(stretchesOf({ from: "22:00", to: "06:00" })).toEqual([
      [1320, 1440],
      [0, 360],
    ]);
    expect(stretchesOf({ from: "18:00", to: "24:00" })).toEqual([[1080, 1440]]);
    expect(stretchesOf({ from: "18:00", to: "00:00" })).toEqual([[1080, 1440]]);
    expect(clockText(1440)).toBe("24:00");
    expect(clockText(90)).toBe("01:30");
  });
});
