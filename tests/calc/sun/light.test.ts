import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clearSkyBird } from "../../../src/calc/sun/bird.js";
import {
  clearSky,
  cosIncidence,
  dniExtraWm2,
  effectiveOkta,
  HAZE,
  type Light,
  lightErbs,
  lightUnder,
  planeHayDavies,
  planePerez,
  type Site,
  type SunInstant,
  splitErbs,
  standardPressurePa,
  sunInstant,
} from "../../../src/calc/sun/index.js";
import { MINUTE_MS, toRad } from "../../../src/units/numbers.js";
import { contextOf, tablesOf } from "../../reference/table.js";

const SEED = 20_270_210;
const DHAKA: Site = { latDeg: 23.81, lonDeg: 90.41, altitudeM: 8 };
const anySite = fc.record({
  latDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  altitudeM: fc.double({ min: -400, max: 4000, noNaN: true }),
});
const anyUtcMs = fc.integer({ min: Date.UTC(2020, 0, 1), max: Date.UTC(2040, 0, 1) });
const noon = sunInstant(Date.UTC(2027, 1, 10, 6), DHAKA, HAZE.town) as SunInstant;
const low = sunInstant(Date.UTC(2027, 1, 10, 1, 30), DHAKA, HAZE.country) as SunInstant;

/** Energy of a day by minutes. [MJ/m2] */
function dayMjM2(site: Site, localNoonUtcMs: number, of: (sun: SunInstant) => number, linke = 3): number {
  let joule = 0;
  for (let minute = -720; minute < 720; minute++) {
    const sun = sunInstant(localNoonUtcMs + minute * MINUTE_MS, site, linke);
    if (sun) joule += of(sun) * 60;
  }
  return joule / 1e6;
}

describe("the instant", () => {
  test("energy above the air: FAO paper 56, example 8: 32.2 MJ/m2 at 20 S on 3 September, 0.4 from an exact sun", () => {
    const site = { latDeg: -20, lonDeg: 0, altitudeM: 0 };
    const energy = dayMjM2(site, Date.UTC(2027, 8, 3, 12), (sun) => sun.dniExtraWm2 * Math.max(0, sun.cosZenithTrue));
    expect(Math.abs(energy - 32.2)).toBeLessThan(0.4);
  });

  test("clear sky: FAO paper 56, equation 37 and example 10: 18.8 MJ/m2 at 22.9 S in mid May, within 8 %", () => {
    const site = { latDeg: -22.9, lonDeg: -43.2, altitudeM: 0 };
    const energy = dayMjM2(site, Date.UTC(2027, 4, 15, 15), (sun) => sun.clearGhiWm2);
    expect(Math.abs(energy / 18.8 - 1)).toBeLessThan(0.08);
  });

  test("the sun is nearest in the first days of January and 6.9 % stronger than in July (Spencer 1971)", () => {
    const year = Array.from({ length: 365 }, (_, i) => dniExtraWm2(i + 1));
    expect(year.indexOf(Math.max(...year)) + 1).toBeLessThan(6);
    expect(Math.max(...year) / Math.min(...year)).toBeCloseTo(1.069, 2);
  });

  test("is finite and never below nothing wherever the sun is up: poles, below sea level, high, thick haze", () => {
    fc.assert(
      fc.property(anySite, anyUtcMs, fc.double({ min: 2, max: 9, noNaN: true }), (site, utcMs, linke) => {
        const sun = sunInstant(utcMs, site, linke);
        if (!sun) return;
        for (const value of Object.values(sun)) expect(value).toSatisfy(Number.isFinite);
        expect(Math.min(sun.clearGhiWm2, sun.clearDniWm2, sun.clearDhiWm2)).toBeGreaterThanOrEqual(0);
        expect(sun.clearGhiWm2).toBeLessThan(sun.dniExtraWm2);
        expect(sun.clearDniWm2 * sun.cosZenith + sun.clearDhiWm2).toBeCloseTo(sun.clearGhiWm2, 6);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  test("the day of the year turns with the sun of the place, not with Greenwich", () => {
    const east = sunInstant(Date.UTC(2026, 11, 31, 19), { latDeg: -40, lonDeg: 175, altitudeM: 0 }, 3);
    expect(east?.dniExtraWm2).toBeCloseTo(dniExtraWm2(1), 9);
    const west = sunInstant(Date.UTC(2027, 0, 1, 2), { latDeg: -40, lonDeg: -150, altitudeM: 0 }, 3);
    expect(west?.dniExtraWm2).toBeCloseTo(dniExtraWm2(365), 9);
  });

  test("more haze, less sun", () => {
    const ghi = [HAZE.cleanHighland, HAZE.country, HAZE.town, HAZE.dustSmoke].map(
      (linke) => sunInstant(Date.UTC(2027, 1, 10, 6), DHAKA, linke)?.clearGhiWm2 ?? 0,
    );
    expect(ghi).toEqual([...ghi].sort((a, b) => b - a));
    expect(new Set(ghi).size).toBe(4);
  });

  test("a second clear-sky model agrees as published: Bird within 17 % of Ineichen-Perez up to 60 degrees at sea level", () => {
    for (const zenithDeg of [0, 20, 40, 50, 60]) {
      const cosZenith = Math.cos(toRad(zenithDeg));
      const absoluteAirMass = 1 / cosZenith;
      const one = clearSky({ cosZenith, altitudeM: 0, linke: 3.063, dniExtraWm2: 1366.1, absoluteAirMass });
      const pressurePa = standardPressurePa(0);
      const two = clearSkyBird({ zenithDeg, pressurePa, dniExtraWm2: 1366.1, waterCm: 1.5, aod380: 0.15, aod500: 0.1 });
      expect(Math.abs(two.ghiWm2 / one.ghiWm2 - 1)).toBeLessThan(0.17);
      expect(Math.abs(two.dniWm2 / one.dniWm2 - 1)).toBeLessThan(0.17);
    }
  });
});

describe("light under cloud", () => {
  test("without cloud it is the clear sky itself; overcast it is all of Erbs", () => {
    const clear = lightUnder(low, 0);
    expect(clear.dniWm2).toBeCloseTo(low.clearDniWm2, 9);
    expect(clear.dhiWm2).toBeCloseTo(low.clearDhiWm2, 9);
    expect(lightUnder(low, 8)).toEqual(lightErbs(low, 8));
  });

  test("overcast leaves a quarter (Kasten and Czeplak 1980); thin cloud counts half", () => {
    expect(lightUnder(noon, 8).ghiWm2 / noon.clearGhiWm2).toBeCloseTo(0.25, 12);
    expect(effectiveOkta(8, true)).toBe(4);
    expect(effectiveOkta(8, false)).toBe(8);
  });

  test("falls with cover, keeps its parts together and is never below nothing", () => {
    fc.assert(
      fc.property(anySite, anyUtcMs, fc.double({ min: 0, max: 8, noNaN: true }), (site, utcMs, okta) => {
        const sun = sunInstant(utcMs, site, 3.5);
        if (!sun) return;
        const light = lightUnder(sun, okta);
        expect(Math.min(light.ghiWm2, light.dniWm2, light.dhiWm2)).toBeGreaterThanOrEqual(0);
        expect(lightUnder(sun, Math.min(8, okta + 0.5)).ghiWm2).toBeLessThanOrEqual(light.ghiWm2 + 1e-9);
        const together = light.dniWm2 * sun.cosZenith + light.dhiWm2;
        expect(Math.abs(together - light.ghiWm2)).toBeLessThan(0.02 * light.ghiWm2 + 1.5); // true against apparent zenith
      }),
      { seed: SEED, numRuns: 400 },
    );
  });

  test("writes into the object it is given", () => {
    const into = { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };
    expect(lightUnder(noon, 3, into)).toBe(into);
    expect(into).toEqual(lightUnder(noon, 3));
  });

  test("splits known light better than Erbs alone, on the hours of the table of cloudy days (TMY3 723170): a 60 degree face", () => {
    const table = tablesOf("shared/reference").find(({ check }) => check === "cloudyDayGhi");
    const face = { tiltDeg: 60, azimuthDeg: 180 };
    const errors = { mixed: 0, erbs: 0, sum: 0, count: 0 };
    for (const { in: day, want } of table?.cases ?? []) {
      const { date, utcOffsetH, linke } = day as { date: string; utcOffsetH: number; linke: number };
      (day.hourEnding as number[]).forEach((hour, i) => {
        const [ghiWm2, dniWm2, dhiWm2] = (["ghiWm2", "dniWm2", "dhiWm2"] as const).map((f) => (want[f] as number[])[i]);
        const utcMs = Date.parse(`${date}T00:00Z`) + (hour - 0.5 - utcOffsetH) * 60 * MINUTE_MS;
        const sun = sunInstant(utcMs, day as unknown as Site, linke);
        if (!sun || sun.zenithApparentDeg > 87 || !ghiWm2 || ghiWm2 < 5 || dniWm2 == null || dhiWm2 == null) return;
        const okta = ((day.totalCoverTenths as number[])[i] ?? 0) * 0.8;
        const known = { ...sun, clearGhiWm2: ghiWm2 / (1 - 0.75 * (okta / 8) ** 3.4) }; // so that the chain meets the known global light
        const scale = known.clearGhiWm2 / sun.clearGhiWm2;
        const scaled = { ...known, clearDniWm2: sun.clearDniWm2 * scale, clearDhiWm2: sun.clearDhiWm2 * scale };
        const onFace = (light: Light) => planePerez(sun, light, face, 0.2).totalWm2;
        const truth = onFace({ ghiWm2, dniWm2, dhiWm2: ghiWm2 - dniWm2 * sun.cosZenith });
        errors.mixed += (onFace(lightUnder(scaled, okta)) - truth) ** 2;
        errors.erbs += (onFace(splitErbs(sun, ghiWm2)) - truth) ** 2;
        errors.sum += truth;
        errors.count++;
      });
    }
    const nrmse = (squares: number) => Math.sqrt(squares / errors.count) / (errors.sum / errors.count);
    expect(errors.count).toBeGreaterThan(600);
    expect(nrmse(errors.mixed)).toBeLessThan(0.06);
    expect(nrmse(errors.mixed)).toBeLessThan(0.85 * nrmse(errors.erbs));
  });

  test("a clear low morning on a steep face keeps its beam: Erbs alone loses a large share of it (shared reference, README)", () => {
    const face = { tiltDeg: 60, azimuthDeg: low.azimuthDeg };
    const mixed = planePerez(low, lightUnder(low, 0), face, 0.2).totalWm2;
    const erbs = planePerez(low, lightErbs(low, 0), face, 0.2).totalWm2;
    expect(erbs).toBeLessThan(0.85 * mixed);
  });
});

describe("onto a face", () => {
  const light = lightUnder(noon, 2);
  test("azimuths count round the circle: 360 degrees more change nothing", () => {
    for (const model of [planePerez, planeHayDavies])
      for (const azimuthDeg of [0, 77, 180, 301]) {
        const one = model(noon, light, { tiltDeg: 35, azimuthDeg }, 0.2);
        const two = model(noon, light, { tiltDeg: 35, azimuthDeg: azimuthDeg + 360 }, 0.2);
        const three = model({ ...noon, azimuthDeg: noon.azimuthDeg - 360 }, light, { tiltDeg: 35, azimuthDeg }, 0.2);
        expect(two.totalWm2).toBeCloseTo(one.totalWm2, 9);
        expect(three.totalWm2).toBeCloseTo(one.totalWm2, 9);
      }
  });
  test("level, it is the global light; upright, it sees half the sky and half the ground", () => {
    for (const model of [planePerez, planeHayDavies]) {
      expect(model(noon, light, { tiltDeg: 0, azimuthDeg: 0 }, 0.2).totalWm2).toBeCloseTo(light.ghiWm2, 0);
      expect(model(noon, light, { tiltDeg: 90, azimuthDeg: 0 }, 0.2).groundWm2).toBeCloseTo(light.ghiWm2 * 0.1, 9);
    }
  });
  test("the sun in the zenith, on the horizon and behind a face give finite light, never below nothing", () => {
    const suns = [
      { ...noon, cosZenith: 1, sinZenith: 0, zenithApparentDeg: 0 },
      { ...noon, cosZenith: 1e-9, sinZenith: 1, zenithApparentDeg: 90 },
      noon,
    ];
    for (const sun of suns)
      for (const dark of [light, { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 }, { ghiWm2: 40, dniWm2: 0, dhiWm2: 40 }])
        for (const tiltDeg of [0, 20, 90])
          for (const azimuthDeg of [0, 90, 180, 270])
            for (const model of [planePerez, planeHayDavies]) {
              const plane = model(sun, dark, { tiltDeg, azimuthDeg }, 0.2);
              for (const value of Object.values(plane)) expect(value).toSatisfy(Number.isFinite);
              expect(Math.min(plane.directWm2, plane.skyWm2, plane.groundWm2)).toBeGreaterThanOrEqual(0);
            }
  });
  test("a face that looks at the sun meets it straight on", () => {
    const face = { tiltDeg: noon.zenithApparentDeg, azimuthDeg: noon.azimuthDeg };
    expect(cosIncidence(noon, face)).toBeCloseTo(1, 12);
  });
});

test("the data tables of the project are there for those who compare", () =>
  expect(contextOf(tablesOf("shared/reference")).data.length).toBeGreaterThan(5));
