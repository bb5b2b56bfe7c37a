import { expect, test } from "vitest";
import { readGpx } from "../../../src/records/import/gpx.js";
import { type ImportedTrack, roundsOf } from "../../../src/records/import/track-round.js";
import { drive, gpxOf, type Made, type Making, type Pause, type Stretch } from "./track-maker.js";

function imported(text: string): ImportedTrack {
  const read = readGpx(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const [first] = roundsOf(read.value);
  if (!first) throw new Error("no round");
  return first;
}
const course = (parts: readonly (Stretch | Pause)[], making?: Making) => imported(gpxOf(drive(parts, making)));
const legs = (track: ImportedTrack) => track.parts.flatMap((p) => (p.kind === "leg" ? [p] : []));
const stops = (track: ImportedTrack) => track.parts.flatMap((p) => (p.kind === "stop" ? [p] : []));
const km = (track: ImportedTrack) => legs(track).reduce((sum, leg) => sum + leg.km, 0);
const note = (track: ImportedTrack, code: string) => track.notes.find((n) => n.code === code);

/** To a market in the north, then to one in the east; parked before, between and after. */
const TWO_MARKETS: readonly (Stretch | Pause)[] = [
  { standS: 600 },
  { eastM: 0, northM: 4000, speedMs: 5, climbM: 60 },
  { standS: 1200 },
  { eastM: 3000, northM: 0, speedMs: 6, climbM: -30 },
  { standS: 900 },
];

test("a clean track gives its legs, its stop and its sums, whatever the place and pace of points", () => {
  for (const everyS of [1, 5, 20])
    for (const latDeg of [-4, 27, 52]) {
      const track = course(TWO_MARKETS, { everyS, start: { latDeg, lonDeg: 100 } });
      expect(track.parts.map((p) => p.kind)).toEqual(["leg", "stop", "leg"]);
      const [north, east] = legs(track);
      expect(north?.km).toBeCloseTo(4, 1);
      expect(north?.minutes).toBeCloseTo(4000 / 5 / 60, 0);
      expect(Math.min(north?.headingDeg ?? 99, 360 - (north?.headingDeg ?? 99))).toBeLessThanOrEqual(1);
      expect(Math.abs((north?.climbM ?? 0) - 60)).toBeLessThanOrEqual(2);
      expect(north?.dropM).toBe(0);
      expect(east?.km).toBeCloseTo(3, 1);
      expect(east?.headingDeg).toBe(90);
      expect(Math.abs((east?.dropM ?? 0) - 30)).toBeLessThanOrEqual(2);
      expect(Math.abs((stops(track)[0]?.minutes ?? 0) - 20)).toBeLessThan(0.5);
      expect(stops(track)[0]?.sideDeg).toBe(0);
      expect(track.km).toBeCloseTo(7, 1);
      expect(track.notes).toEqual([]);
    }
});

test("the wander of a standing receiver adds no way, and stops survive it", () => {
  const track = course(TWO_MARKETS, { shakeM: 6, heightShakeM: 4, everyS: 1 });
  expect(stops(track)).toHaveLength(1);
  expect(Math.abs((stops(track)[0]?.minutes ?? 0) - 20)).toBeLessThan(1);
  expect(track.standMinutes).toBeLessThan(21);
});

test("receiver noise of 3 m in height leaves the climb of a hilly way within a tenth", () => {
  const hills = Array.from({ length: 12 }, (_, k) => ({
    eastM: 800,
    northM: 0,
    speedMs: 7,
    climbM: k % 2 === 0 ? 25 : -25,
  }));
  const quiet = course(hills);
  const noisy = course(hills, { heightShakeM: 3 });
  expect(Math.abs(quiet.climbM / 150 - 1)).toBeLessThan(0.06); // twelve sharp ridges are rounded off
  expect(Math.abs(noisy.climbM / 150 - 1)).toBeLessThan(0.1);
  expect(Math.abs(noisy.dropM / 150 - 1)).toBeLessThan(0.1);
});

test("on level ground noise in height climbs nothing", () => {
  const flat = course([{ eastM: 12_000, northM: 0, speedMs: 6 }], { heightShakeM: 3 });
  expect(flat.climbM).toBeLessThan(6);
  expect(flat.dropM).toBeLessThan(6);
});

test("climb less drop is the rise from start to end", () => {
  const track = course([
    { eastM: 2500, northM: 300, speedMs: 6, climbM: 44 },
    { eastM: 900, northM: -800, speedMs: 6, climbM: -13 },
    { eastM: 1800, northM: 100, speedMs: 6, climbM: 21 },
  ]);
  expect(Math.abs(track.climbM - track.dropM - 52)).toBeLessThanOrEqual(2);
});

test("short halts are counted per km and make no stop", () => {
  const halts = Array.from({ length: 10 }, () => [{ eastM: 400, northM: 0, speedMs: 8 }, { standS: 30 }]).flat();
  const track = course(halts, { shakeM: 0.5 });
  expect(stops(track)).toHaveLength(0);
  expect(legs(track)).toHaveLength(1);
  expect(legs(track)[0]?.stopsPerKm).toBeCloseTo(2.5, 0);
  expect(legs(track)[0]?.minutes).toBeCloseTo((10 * (50 + 30)) / 60, 0);
  expect(course(halts, { everyS: 10 }).parts.every((p) => p.kind === "stop" || p.stopsPerKm === null)).toBe(true);
});

test("a leg ends where the way turns for good, and where a hill begins, but not at a street corner", () => {
  const turn = course([
    { eastM: 0, northM: 3000, speedMs: 7 },
    { eastM: 3000, northM: 0, speedMs: 7 },
  ]);
  expect(legs(turn).map((leg) => Math.round((leg.headingDeg ?? -99) / 5) * 5)).toEqual([0, 90]);
  expect(legs(turn)[0]?.km).toBeCloseTo(3, 0);
  const hill = course([
    { eastM: 3000, northM: 0, speedMs: 7 },
    { eastM: 2500, northM: 0, speedMs: 5, climbM: 125 },
  ]);
  expect(legs(hill).map((leg) => leg.climbM > 50)).toEqual([false, true]);
  const corner = course([
    { eastM: 0, northM: 300, speedMs: 7 },
    { eastM: 4000, northM: 0, speedMs: 7 },
  ]);
  expect(legs(corner)).toHaveLength(1);
});

test("a winding way has no heading, and there and back has two", () => {
  const around = Array.from({ length: 36 }, (_, k) => ({
    eastM: 30 * Math.cos((k * Math.PI) / 6),
    northM: 30 * Math.sin((k * Math.PI) / 6),
    speedMs: 5,
  }));
  expect(legs(course(around)).map((leg) => leg.headingDeg)).toEqual([null]);
  const back = course([
    { eastM: 5000, northM: 0, speedMs: 7 },
    { eastM: -5000, northM: 0, speedMs: 7 },
  ]);
  expect(legs(back).map((leg) => leg.headingDeg)).toEqual([90, 270]);
});

test("a stop takes the name of a place of the file beside it", () => {
  const points = drive(TWO_MARKETS);
  const at = points[1500] as Made;
  const near = `<wpt lat="${at.latDeg + 0.0003}" lon="${at.lonDeg}"><name>Fish market</name></wpt>`;
  const far = `<wpt lat="${at.latDeg + 0.01}" lon="${at.lonDeg}"><name>Far</name></wpt>`;
  expect(stops(imported(gpxOf(points, far + near)))[0]?.name).toBe("Fish market");
  expect(stops(imported(gpxOf(points, far)))[0]?.name).toBe("");
});

test("points in disorder, twice or without a time give the same round, and it is said", () => {
  const points = drive(TWO_MARKETS, { everyS: 2 });
  const tidy = imported(gpxOf(points));
  const mixed = [...points.slice(900), ...points.slice(0, 900), ...points.slice(300, 400)];
  const messy = imported(gpxOf([...mixed, { ...(points[50] as Made), utcMs: null }]));
  expect(messy.parts).toEqual(tidy.parts);
  expect(note(messy, "duplicates")).toEqual({ code: "duplicates", count: 100 });
  expect(note(messy, "withoutTime")).toEqual({ code: "withoutTime", count: 1 });
  expect(note(messy, "outOfOrder")).toBeDefined();
});

test("a single slip of the receiver is left out", () => {
  const points = drive(TWO_MARKETS);
  const slipped = points.map((p, i) => (i === 1000 ? { ...p, latDeg: p.latDeg + 0.05 } : p));
  const track = imported(gpxOf(slipped));
  expect(km(track)).toBeCloseTo(7, 1);
  expect(note(track, "jumps")).toEqual({ code: "jumps", count: 1 });
});

test("a silent receiver: driving is joined straight, and a long silence is mostly standing", () => {
  const points = drive(TWO_MARKETS);
  const gap = imported(gpxOf(points.filter((_, i) => i < 900 || i > 1050)));
  expect(km(gap)).toBeCloseTo(7, 1);
  expect(note(gap, "gaps")).toMatchObject({ count: 1 });
  const shutUp = [
    ...drive([{ eastM: 3000, northM: 0, speedMs: 6 }]),
    ...drive([{ eastM: 3000, northM: 0, speedMs: 6 }]).map((p) => ({
      ...p,
      lonDeg: p.lonDeg + 3500 / 111_000,
      utcMs: (p.utcMs ?? 0) + 500_000 + 3_600_000,
    })),
  ];
  const silent = imported(gpxOf(shutUp));
  expect(stops(silent)).toHaveLength(1);
  expect(Math.abs((stops(silent)[0]?.minutes ?? 0) - 58.6)).toBeLessThan(1.5);
  expect(km(silent)).toBeCloseTo(6.5, 1);
});

test("without times the round has km, climb and heading, a usual pace and no stops", () => {
  const points = drive(TWO_MARKETS).map((p) => ({ ...p, utcMs: null }));
  const track = imported(gpxOf(points));
  expect(stops(track)).toHaveLength(0);
  expect(track.km).toBeCloseTo(7, 1);
  expect(legs(track).map((leg) => leg.stopsPerKm)).toEqual(legs(track).map(() => null));
  expect(track.driveMinutes).toBeCloseTo((7 / 18) * 60, 0);
  expect(track.picture.speedKmh).toBeNull();
  expect(note(track, "noTimes")).toBeDefined();
});

test("without heights nothing climbs and it is said; single gaps in height are bridged", () => {
  const points = drive(TWO_MARKETS);
  const track = imported(gpxOf(points.map((p) => ({ ...p, heightM: null }))));
  expect([track.climbM, track.dropM, track.picture.heightM]).toEqual([0, 0, null]);
  expect(note(track, "noHeights")).toBeDefined();
  const gaps = imported(gpxOf(points.map((p, i) => (i % 3 === 0 ? p : { ...p, heightM: null }))));
  expect(Math.abs(gaps.climbM - 60)).toBeLessThanOrEqual(2);
});

test("the picture runs from 0 to the last km with heights against the start and speeds as driven", () => {
  const { picture, km: whole } = course(TWO_MARKETS);
  expect(picture.km).toHaveLength(101);
  expect(picture.km[100]).toBeCloseTo(whole, 1);
  expect(picture.heightM?.[0]).toBe(0);
  expect(Math.abs(Math.max(...(picture.heightM ?? [])) - 60)).toBeLessThan(3);
  expect(picture.speedKmh?.[20]).toBeCloseTo(18, 0);
  expect(picture.speedKmh?.[90]).toBeCloseTo(21.6, 0);
  expect(picture.stopsKm[0]).toBeCloseTo(4, 1);
  expect(Math.max(...picture.outline.x, ...picture.outline.y)).toBe(1);
});

test("a long day of sixty thousand points stays a round one can read, and loses no way", () => {
  const day = Array.from({ length: 30 }, (_, k) => [
    { eastM: 2600 * Math.cos(k), northM: 2600 * Math.sin(k), speedMs: 4, climbM: k % 2 === 0 ? 30 : -30 },
    { standS: 1350 },
  ]).flat();
  const track = course(day, { shakeM: 0.3, heightShakeM: 2 });
  expect(track.points).toBeGreaterThan(59_000);
  expect(legs(track).length).toBeLessThanOrEqual(40);
  expect(stops(track)).toHaveLength(29);
  expect(track.km / 78).toBeCloseTo(1, 1);
});

test("no place on the Earth leaves with the round", () => {
  const text = JSON.stringify(course(TWO_MARKETS, { start: { latDeg: 27.1234, lonDeg: 78.9876 } }));
  expect(text).not.toMatch(/27\.1|78\.9|lat|lon[A-Z]/);
});
