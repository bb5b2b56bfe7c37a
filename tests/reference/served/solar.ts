import * as roof from "../../../src/calc/roof/index.js";
import { clearSkyBird } from "../../../src/calc/sun/bird.js";
import * as sun from "../../../src/calc/sun/index.js";
import { clearSkySolis } from "../../../src/calc/sun/solis.js";
import { HOUR_MS, MINUTE_MS, toRad } from "../../../src/units/numbers.js";
import { notCompared } from "../compare.js";
import type { Served } from "./index.js";

interface Place extends sun.Site {
  readonly dayOfYear: number;
  readonly linke: number;
}

interface MeasuredDay extends Place {
  readonly utc: readonly string[];
  readonly dniExtraWm2: number;
  readonly ghiWm2: readonly number[];
}
const QUARTER_MS = 15 * MINUTE_MS;
const middles = (day: MeasuredDay) => day.utc.map((utc) => Date.parse(utc) + QUARTER_MS / 2);
/** Their tables compare the sun above five degrees only. */
const aboveFive = (day: MeasuredDay, lights: readonly sun.Light[], field: keyof sun.Light) =>
  middles(day).map((utcMs, i) =>
    sun.sunPosition(utcMs, day).zenithApparentDeg < 85 ? lights[i]?.[field] : notCompared,
  );

/** Mean light of a measured interval: instants through it. */
function meanLight(suns: readonly (sun.SunInstant | null)[], lightOf: (at: sun.SunInstant) => sun.Light): sun.Light {
  const lights = suns.map((at) => (at ? lightOf(at) : { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 }));
  const mean = (field: keyof sun.Light) => lights.reduce((total, light) => total + light[field], 0) / lights.length;
  return { ghiWm2: mean("ghiWm2"), dniWm2: mean("dniWm2"), dhiWm2: mean("dhiWm2") };
}
const instants = (of: { fromUtcMs: number; stepMs: number; count: number; site: sun.Site; linke: number }) =>
  Array.from({ length: of.count }, (_, i) => sun.sunInstant(of.fromUtcMs + (i + 0.5) * of.stepMs, of.site, of.linke));

interface CloudyDay extends Place {
  readonly date: string;
  readonly utcOffsetH: number;
  readonly hourEnding: readonly number[];
  readonly totalCoverTenths: readonly number[];
}
function cloudyHours(day: CloudyDay): readonly sun.Light[] {
  return day.hourEnding.map((hour, i) => {
    const fromUtcMs = Date.parse(`${day.date}T00:00Z`) + (hour - 1 - day.utcOffsetH) * HOUR_MS;
    const suns = instants({ fromUtcMs, stepMs: HOUR_MS / 12, count: 12, site: day, linke: day.linke });
    return meanLight(suns, (at) => sun.lightErbs(at, 0.8 * (day.totalCoverTenths[i] ?? 0)));
  });
}

interface DayCase extends sun.Site {
  readonly date: string;
  readonly utcOffsetH: number;
  readonly linke: number;
  readonly cloudOktaByHour: readonly number[];
  readonly airCByHour: readonly number[];
  readonly windMs: number;
  readonly headingDegByHour: readonly number[];
  readonly faces: readonly { ratedW: number; tiltDeg: number; offsetDeg: number }[];
  readonly gammaPerC: number;
  readonly directBlockedByHour?: readonly number[];
  readonly diffuseBlockedByHour?: readonly number[];
}
const HAY_DAVIES = { sky: sun.skyHayDavies, glass: roof.glassPhysical };
const CLEAN = { soilingShare: 0, wireShare: 0, mismatchShare: 0, controllerEfficiency: 1, batteryNominalV: 48 };

function roofDayOf(of: DayCase, firstMs: number): roof.RoofDay {
  const faces = of.faces.map((face) => ({ ...face, sideDeg: face.offsetDeg, gammaPerC: of.gammaPerC }));
  return {
    site: of,
    fromUtcMs: Date.parse(`${of.date}T00:00Z`) - of.utcOffsetH * HOUR_MS,
    stepMs: MINUTE_MS,
    firstMs,
    linke: of.linke,
    roof: { ...CLEAN, faces, link: "trackerPerFace", mount: roof.MOUNT.openRack },
    oktaIn: (hour) => of.cloudOktaByHour[hour] ?? 0,
    momentIn: (hour) => ({
      headingDeg: of.headingDegByHour[hour] ?? 0,
      airC: of.airCByHour[hour] ?? 0,
      windMs: of.windMs,
      directBlocked: of.directBlockedByHour?.[hour] ?? 0,
      diffuseBlocked: of.diffuseBlockedByHour?.[hour] ?? 0,
      albedo: 0.2,
    }),
    light: sun.lightErbs,
    models: HAY_DAVIES,
  };
}

/** Plane light by face: what a panel without glass, heat and rating would give. */
function planeWhM2(day: roof.RoofDay, suns: ReturnType<typeof roof.sunOfDay>): readonly number[] {
  const faces = day.roof.faces.map((face) => ({ ...face, ratedW: 1000, gammaPerC: 0 }));
  const bare = { ...day, roof: { ...day.roof, faces }, models: { ...HAY_DAVIES, glass: () => 1 } };
  return roof.roofDay(bare, suns).dcWhByFace;
}

interface PlaneCase {
  readonly zenithDeg: number;
  readonly sunAzimuthDeg: number;
  readonly tiltDeg: number;
  readonly surfaceAzimuthDeg: number;
  readonly dniExtraWm2: number;
}
const beamAt = (of: PlaneCase) =>
  sun.beamOf({ zenithDeg: of.zenithDeg, azimuthDeg: of.sunAzimuthDeg, dniExtraWm2: of.dniExtraWm2 });
const faceAt = (of: PlaneCase) => ({ tiltDeg: of.tiltDeg, azimuthDeg: of.surfaceAzimuthDeg });

interface DobosHour extends PlaneCase {
  readonly dayOfYear: number;
  readonly zenithApparentDeg: number;
  readonly dniWm2: number;
  readonly dhiWm2: number;
  readonly cellC: number;
  readonly ratedW: number;
  readonly gammaPerC: number;
  readonly systemLoss: number;
}

export const served = {
  sunPosition: (of: sun.Site & { utc: string }) => ({ ...sun.sunPosition(Date.parse(of.utc), of) }),
  sunRefraction: (of: { zenithTrueDeg: number; pressurePa: number; airC: number }) => ({
    zenithApparentDeg: sun.refract(of),
  }),
  standardPressure: ({ altitudeM }: { altitudeM: number }) => ({
    pressurePa: sun.standardPressurePa(altitudeM),
    pressureRatio: sun.pressureRatio(altitudeM),
  }),
  relativeAirMass: (of: { zenithApparentDeg: number }) => ({
    relativeAirMass: sun.relativeAirMass(of.zenithApparentDeg),
  }),
  absoluteAirMass: (of: { zenithApparentDeg: number; altitudeM: number }) => ({
    absoluteAirMass: sun.absoluteAirMass(of.zenithApparentDeg, of.altitudeM),
  }),
  extraterrestrial: ({ dayOfYear }: { dayOfYear: number }) => ({
    dniExtraWm2: sun.dniExtraWm2(dayOfYear),
    declinationDeg: sun.declinationDeg(dayOfYear),
    equationOfTimeMin: sun.equationOfTimeMin(dayOfYear),
  }),
  extraterrestrialDay: (of: { latDeg: number; dayOfYear: number }) => ({
    ...sun.extraterrestrialDay(of.latDeg, of.dayOfYear),
  }),

  clearSkyIneichenPerez: (of: Omit<sun.ClearSky, "cosZenith"> & { zenithApparentDeg: number }) => ({
    ...sun.clearSky({ ...of, cosZenith: Math.cos(toRad(of.zenithApparentDeg)) }),
  }),
  clearSkyMountain: (of: { dayOfYear: number; zenithApparentDeg: number; altitudeM: number; linke: number }) => ({
    ...sun.clearSky({
      ...of,
      cosZenith: Math.cos(toRad(of.zenithApparentDeg)),
      dniExtraWm2: sun.dniExtraWm2(of.dayOfYear),
      absoluteAirMass: sun.absoluteAirMass(of.zenithApparentDeg, of.altitudeM) ?? 0,
    }),
  }),
  clearSkyBird: (of: Parameters<typeof clearSkyBird>[0]) => ({ ...clearSkyBird(of) }),
  clearSkySolis: (of: Parameters<typeof clearSkySolis>[0]) => ({ ...clearSkySolis(of) }),
  clearDayMeasured: (day: MeasuredDay) => {
    const lights = day.utc.map((utc) => {
      const of = { fromUtcMs: Date.parse(utc), stepMs: MINUTE_MS, count: 15, site: day, linke: day.linke };
      return meanLight(instants(of), (at) => sun.lightUnder(at, 0));
    });
    return {
      ghiWm2: aboveFive(day, lights, "ghiWm2"),
      dniWm2: aboveFive(day, lights, "dniWm2"),
      dhiWm2: aboveFive(day, lights, "dhiWm2"),
    };
  },

  cloudFactor: ({ cloudOkta }: { cloudOkta: number }) => ({ factor: sun.cloudFactor(cloudOkta) }),
  cloudyGhi: (of: { cloudOkta: number; ghiClearWm2: number }) => ({
    ghiWm2: of.ghiClearWm2 * sun.cloudFactor(of.cloudOkta),
  }),
  cloudyDayGhi: (day: CloudyDay) => {
    const hours = cloudyHours(day);
    return {
      ghiWm2: hours.map((light) => light.ghiWm2),
      dniWm2: hours.map((light) => light.dniWm2),
      dhiWm2: hours.map((light) => light.dhiWm2),
      ghiDayWhM2: hours.reduce((total, light) => total + light.ghiWm2, 0),
    };
  },
  erbsDiffuseFraction: (of: { clearnessIndex: number }) => ({
    diffuseFraction: sun.erbsDiffuseFraction(of.clearnessIndex),
  }),
  erbsSplit: (of: { ghiWm2: number; zenithTrueDeg: number; dniExtraWm2: number }) => {
    const cosZenithTrue = Math.cos(toRad(of.zenithTrueDeg));
    return {
      clearnessIndex: sun.clearnessIndex(of.ghiWm2, of.dniExtraWm2, cosZenithTrue),
      ...sun.splitErbs({ dniExtraWm2: of.dniExtraWm2, cosZenithTrue }, of.ghiWm2),
    };
  },
  erbsMeasured: (day: MeasuredDay) => {
    const lights = middles(day).map((utcMs, i) => {
      const cosZenithTrue = Math.cos(toRad(sun.sunPosition(utcMs, day).zenithTrueDeg));
      return sun.splitErbs({ dniExtraWm2: day.dniExtraWm2, cosZenithTrue }, day.ghiWm2[i] ?? 0);
    });
    return { dniWm2: aboveFive(day, lights, "dniWm2"), dhiWm2: aboveFive(day, lights, "dhiWm2") };
  },

  incidenceAngle: (of: PlaneCase) => ({
    aoiDeg: sun.planePerez(beamAt({ ...of, dniExtraWm2: 1366.1 }), { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 }, faceAt(of), 0.2)
      .aoiDeg,
  }),
  planeOfArrayHayDavies: (of: PlaneCase & sun.Light) => ({ ...sun.planeHayDavies(beamAt(of), of, faceAt(of), 0.2) }),
  planeOfArrayPerez: (of: PlaneCase & sun.Light) => ({ ...sun.planePerez(beamAt(of), of, faceAt(of), 0.2) }),
  incidenceModifierPhysical: ({ aoiDeg }: { aoiDeg: number }) => ({
    modifier: roof.glassPhysical(Math.cos(toRad(aoiDeg))),
  }),
  incidenceModifierAshrae: ({ aoiDeg }: { aoiDeg: number }) => ({
    modifier: roof.glassAshrae(Math.cos(toRad(aoiDeg))),
  }),

  faimanTemperature: (of: { irradianceWm2: number; airC: number; windMs: number }) => ({
    moduleC: roof.panelC({ ...of, planeWm2: of.irradianceWm2 }),
  }),
  dobosDcPower: (of: Parameters<typeof roof.panelDcW>[0]) => ({ dcW: roof.panelDcW(of) }),
  dobosHour: (of: DobosHour) => {
    const beam = beamAt({ ...of, zenithDeg: of.zenithApparentDeg, dniExtraWm2: sun.dniExtraWm2(of.dayOfYear) });
    const light = { ...of, ghiWm2: of.dhiWm2 + of.dniWm2 * beam.cosZenith };
    const plane = sun.planePerez(beam, light, faceAt(of), 0.2);
    const effectiveWm2 = plane.directWm2 * roof.glassPhysical(plane.cosAoi) + plane.skyWm2 + plane.groundWm2;
    return { planeWm2: plane.totalWm2, dcW: roof.panelDcW({ ...of, effectiveWm2 }) * (1 - of.systemLoss) };
  },
  panelStringVoltage: (
    of: roof.PanelString & roof.StringWeather & { readonly windowMinV: number; readonly windowMaxV: number },
  ) => ({ ...roof.stringVoltage(of, { minV: of.windowMinV, maxV: of.windowMaxV }, of) }),

  dayDcEnergy: (of: DayCase) => {
    const day = roofDayOf(of, 0);
    const suns = roof.sunOfDay(day);
    const plain = roof.roofDay(day, suns);
    const wh = (change: Partial<roof.RoofDay>) => roof.roofDay({ ...day, ...change }, suns).wh;
    const cloudless = of.cloudOktaByHour.every((okta) => okta === 0);
    return {
      ...plain,
      dcWh: plain.wh,
      dcMaxW: plain.mostW,
      dcWhByHour: plain.whByHour,
      planeWhM2: planeWhM2(day, suns),
      dcWhPerez: wh({ models: roof.ROOF_MODELS }),
      dcWhAshrae: wh({ models: { ...HAY_DAVIES, glass: roof.glassAshrae } }),
      dcWhClearSplit: cloudless ? wh({ light: sun.lightUnder }) : null,
    };
  },
  shadedDayDcEnergy: (of: DayCase) => {
    const day = roofDayOf(of, MINUTE_MS / 2);
    const suns = roof.sunOfDay(day);
    const plain = roof.roofDay(day, suns);
    const { directBlockedByHour: _direct, diffuseBlockedByHour: _diffuse, ...open } = of;
    return {
      ...plain,
      dcWh: plain.wh,
      dcWhByHour: plain.whByHour,
      dcWhUnshaded: roof.roofDay(roofDayOf(open, MINUTE_MS / 2), suns).wh,
      planeWhM2: planeWhM2(day, suns),
    };
  },
} satisfies Served;
