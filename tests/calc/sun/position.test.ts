import fc from "fast-check";
import { getTimes } from "suncalc";
import { describe, expect, test } from "vitest";
import { refract, type Site, sunInstant, sunPosition } from "../../../src/calc/sun/index.js";
import { sunTimes } from "../../../src/calc/sun/times.js";
import { DAY_MS, HOUR_MS, MINUTE_MS, toRad } from "../../../src/units/numbers.js";

const at = (latDeg: number, lonDeg: number, altitudeM = 0): Site => ({ latDeg, lonDeg, altitudeM });
const anySite = fc.record({
  latDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  altitudeM: fc.double({ min: -400, max: 6000, noNaN: true }),
});
const anyUtcMs = fc.integer({ min: Date.UTC(2000, 0, 1), max: Date.UTC(2060, 0, 1) });
const SEED = 20_270_210;

describe("position", () => {
  test("worked example of NREL/TP-560-34302, table A5.1: zenith 50.11162 apparent at 820 mbar and 11 C, azimuth 194.34024", () => {
    const site = at(39.742476, -105.1786, 1830.14);
    const seen = sunPosition(Date.UTC(2003, 9, 17, 19, 30, 30), site);
    const apparent = refract({ zenithTrueDeg: seen.zenithTrueDeg, pressurePa: 82_000, airC: 11 });
    expect(apparent).toBeCloseTo(50.11162, 1);
    expect(Math.abs(apparent - 50.11162)).toBeLessThan(0.01);
    expect(Math.abs(seen.azimuthDeg - 194.34024)).toBeLessThan(0.015);
  });

  test("is finite and in range anywhere, poles included, at any time", () => {
    fc.assert(
      fc.property(anySite, anyUtcMs, (site, utcMs) => {
        const seen = sunPosition(utcMs, site);
        expect(seen.zenithTrueDeg).toBeGreaterThanOrEqual(0);
        expect(seen.zenithTrueDeg).toBeLessThanOrEqual(180.01);
        expect(seen.zenithApparentDeg).toBeLessThanOrEqual(seen.zenithTrueDeg);
        expect(seen.zenithTrueDeg - seen.zenithApparentDeg).toBeLessThan(1);
        expect(seen.azimuthDeg).toBeGreaterThanOrEqual(0);
        expect(seen.azimuthDeg).toBeLessThanOrEqual(360);
      }),
      { seed: SEED, numRuns: 400 },
    );
    for (const latDeg of [-90, 90])
      expect(sunPosition(Date.UTC(2027, 5, 21, 12), at(latDeg, 0)).azimuthDeg).toSatisfy(Number.isFinite);
  });

  test("moves smoothly through the horizon, where the library freezes its refraction", () => {
    const site = at(23.81, 90.41);
    const rise = sunTimes(Date.UTC(2027, 1, 10, 6), site).riseUtcMs ?? 0;
    const steps = Array.from({ length: 41 }, (_, i) => sunPosition(rise + (i - 20) * MINUTE_MS, site).zenithTrueDeg);
    const moves = steps.slice(1).map((zenith, i) => (steps[i] ?? 0) - zenith);
    for (const move of moves) expect(move).toBeCloseTo(moves[0] ?? 0, 2);
  });

  test("a longitude turned once round the Earth is the same place", () => {
    const here = sunPosition(Date.UTC(2027, 3, 3, 9), at(12.97, 77.59));
    const again = sunPosition(Date.UTC(2027, 3, 3, 9), at(12.97, 77.59 - 360));
    expect(again.zenithTrueDeg).toBeCloseTo(here.zenithTrueDeg, 8);
    expect(again.azimuthDeg).toBeCloseTo(here.azimuthDeg, 6);
  });
});

describe("times of the sun", () => {
  const places = [at(23.81, 90.41), at(-16.4, -71.54, 2335), at(0, 0), at(51.48, 0), at(-33.9, 18.4), at(35, -179.9)];

  test("rise, noon and set agree with the general library suncalc within a minute, all year", () => {
    for (const site of places)
      for (let day = 0; day < 365; day += 29) {
        const utcMs = Date.UTC(2027, 0, 1 + day, 12) - site.lonDeg * 4 * MINUTE_MS;
        const ours = sunTimes(utcMs, site);
        const theirs = getTimes(new Date(utcMs), site.latDeg, site.lonDeg);
        expect(Math.abs(ours.noonUtcMs - theirs.solarNoon.getTime())).toBeLessThan(MINUTE_MS);
        expect(Math.abs((ours.riseUtcMs ?? 0) - (theirs.sunrise?.getTime() ?? 1e15))).toBeLessThan(MINUTE_MS);
        expect(Math.abs((ours.setUtcMs ?? 0) - (theirs.sunset?.getTime() ?? 1e15))).toBeLessThan(MINUTE_MS);
        expect(Math.abs((ours.civilDuskUtcMs ?? 0) - (theirs.dusk?.getTime() ?? 1e15))).toBeLessThan(MINUTE_MS);
      }
  });

  test("at the equinox on the equator the day has 12 h 7 min: refraction and the disc (Meeus, chapter 15: -0.833 degree)", () => {
    const day = sunTimes(Date.UTC(2027, 2, 20, 12), at(0, 0));
    const minutes = ((day.setUtcMs ?? 0) - (day.riseUtcMs ?? 0)) / MINUTE_MS;
    expect(minutes).toBeGreaterThan(720 + 2 * 4 * 0.833 - 1);
    expect(minutes).toBeLessThan(720 + 2 * 4 * 0.833 + 1);
  });

  test("FAO paper 56, examples 8 and 9: sunset angle 1.527 rad, so 11.67 h of daylight at 20 S on 3 September, by geometry alone", () => {
    const day = sunTimes(Date.UTC(2027, 8, 3, 12), at(-20, 0));
    const hours = ((day.setUtcMs ?? 0) - (day.riseUtcMs ?? 0)) / HOUR_MS;
    const lifted = (2 * 0.833) / 15 / Math.cos(toRad(20)); // what refraction and the disc add
    expect(Math.abs(hours - lifted - (24 / Math.PI) * 1.527)).toBeLessThan(0.06);
  });

  test("at the poles and in polar seasons there is a reason instead of an invalid date", () => {
    const june = sunTimes(Date.UTC(2027, 5, 21, 12), at(69.65, 18.96));
    expect(june).toMatchObject({ riseUtcMs: null, setUtcMs: null, alwaysUp: true, alwaysDown: false });
    const december = sunTimes(Date.UTC(2027, 11, 21, 12), at(69.65, 18.96));
    expect(december).toMatchObject({ riseUtcMs: null, setUtcMs: null, alwaysUp: false, alwaysDown: true });
    expect(december.civilDawnUtcMs).not.toBeNull(); // twilight at noon in the polar night
    expect(sunTimes(Date.UTC(2027, 5, 21, 12), at(90, 0)).alwaysUp).toBe(true);
    expect(sunTimes(Date.UTC(2027, 5, 21, 12), at(-90, 0)).alwaysDown).toBe(true);
  });

  test("any place and day: ordered times within the solar day, or a flag", () => {
    fc.assert(
      fc.property(anySite, anyUtcMs, (site, utcMs) => {
        const day = sunTimes(utcMs, site);
        expect(Math.abs(day.noonUtcMs - utcMs)).toBeLessThan(DAY_MS * 0.52);
        for (const time of [day.riseUtcMs, day.setUtcMs, day.civilDawnUtcMs, day.civilDuskUtcMs])
          if (time !== null) expect(Math.abs(time - day.noonUtcMs)).toBeLessThanOrEqual(DAY_MS / 2);
        expect(day.alwaysUp && day.alwaysDown).toBe(false);
        if (day.alwaysUp || day.alwaysDown) expect([day.riseUtcMs, day.setUtcMs]).toEqual([null, null]);
        else expect(day.riseUtcMs ?? day.setUtcMs).not.toBeNull();
        if (Math.abs(site.latDeg) < 60) expect(day.riseUtcMs ?? 0).toBeLessThan(day.setUtcMs ?? 0);
      }),
      { seed: SEED, numRuns: 120 },
    );
  });

  test("the sun is up for the roof from rise to set and not before", () => {
    const site = at(23.81, 90.41, 8);
    const day = sunTimes(Date.UTC(2027, 1, 10, 6), site);
    expect(sunInstant((day.riseUtcMs ?? 0) - 2 * MINUTE_MS, site, 4)).toBeNull();
    expect(sunInstant((day.riseUtcMs ?? 0) + 3 * MINUTE_MS, site, 4)).not.toBeNull();
    expect(sunInstant((day.setUtcMs ?? 0) + 2 * MINUTE_MS, site, 4)).toBeNull();
  });
});
