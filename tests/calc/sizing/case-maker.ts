import { type Battery, storeModel } from "../../../src/calc/battery/index.js";
import type { DaySegment } from "../../../src/calc/day/segments.js";
import { ROOF_GUESS, type Roof } from "../../../src/calc/roof/index.js";
import type { SizingCase, SizingMonth } from "../../../src/calc/sizing/index.js";
import type { UsualSky } from "../../../src/calc/sun/index.js";
import { HOUR_MS } from "../../../src/units/numbers.js";

const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const SITE = { latDeg: -4, lonDeg: 39, altitudeM: 10 };
/** Midnight at the place is 21:24 UTC of the day before: whole hours are near enough. */
const ZONE_H = 3;

const base: DaySegment = {
  fromUtcMs: 0,
  toUtcMs: 0,
  kind: "park",
  label: "",
  km: 0,
  drainW: 0,
  regenW: 0,
  otherW: 0,
  headingDeg: null,
  directBlocked: 0,
  diffuseBlocked: 0,
  windMs: 2,
  airC: 27,
  chargerW: 0,
  payloadKg: 0,
  onShift: false,
};

export interface Making {
  readonly dayWh?: number;
  readonly roofW?: readonly number[];
  readonly packWh?: readonly number[];
  readonly sky?: UsualSky;
  readonly skyOf?: (month: number) => UsualSky;
  readonly linkeOf?: (month: number) => number;
  readonly latDeg?: number;
  readonly chemistry?: Battery["chemistry"];
  readonly over?: Partial<SizingCase>;
}

/** Out from 7 to 17 o'clock, five hours of them driving; home in the open. */
export function sizingCase(making: Making = {}): SizingCase {
  const { dayWh = 1600, chemistry = "lfp" } = making;
  const hours = (month: number) => {
    const midnight = Date.UTC(2027, month, 15) - ZONE_H * HOUR_MS;
    const at = (hour: number) => midnight + hour * HOUR_MS;
    const park = (from: number, to: number): DaySegment => ({ ...base, fromUtcMs: at(from), toUtcMs: at(to) });
    const out = (from: number, to: number): DaySegment => ({
      ...park(from, to),
      kind: "drive",
      km: 4,
      drainW: dayWh / 5,
      onShift: true,
      directBlocked: 0.1,
      diffuseBlocked: 0.1,
    });
    const stop = (from: number, to: number): DaySegment => ({ ...park(from, to), kind: "stop", onShift: true });
    const work = [7, 9, 11, 13, 15].flatMap((hour) => [out(hour, hour + 1), stop(hour + 1, hour + 2)]);
    return { work: [park(-7, 0), park(0, 7), ...work], rest: [park(-7, 0), park(0, 17)] };
  };
  const roof: Roof = {
    faces: [{ ratedW: 420, tiltDeg: 0, sideDeg: 0, gammaPerC: -0.004 }],
    link: "trackerPerFace",
    controllerEfficiency: 0.96,
    soilingShare: 0.02,
    wireShare: 0.02,
    mismatchShare: 0.02,
    mount: ROOF_GUESS.mount,
    batteryNominalV: 48,
  };
  const storeOf = (packWh: number) =>
    storeModel(
      {
        chemistry,
        nominalV: 48,
        ratedAh: packWh / 48,
        health: 1,
        seriesCount: chemistry === "lfp" ? 16 : 24,
        resistanceOhm: 0.05 * (3600 / packWh),
        peukertExponent: chemistry === "lfp" ? 1 : 1.15,
        ratedHours: 5,
      },
      27,
    );
  const sky = { bright: 0.4, mixed: 0.4, dark: 0.2 };
  const months = DAYS.map((days, month): SizingMonth => {
    const { work, rest } = hours(month);
    return {
      days,
      workDay: work,
      restDay: rest,
      usualSky: making.skyOf?.(month) ?? making.sky ?? sky,
      linkeTurbidity: making.linkeOf?.(month) ?? 4,
      storeOf,
    };
  });
  return {
    site: { ...SITE, latDeg: making.latDeg ?? SITE.latDeg },
    albedo: 0.15,
    months,
    roof,
    roofW: making.roofW ?? [0, 210, 315, 420, 525, 630],
    packWh: making.packWh ?? [1800, 2400, 3600, 4800, 6000],
    driveFactor: () => 1,
    reserveShare: 0.2,
    charger: { ratedW: 600, efficiency: 0.88 },
    fullChargeEveryDays: null,
    workDaysPerWeek: 7,
    plugTo: "need",
    years: 20,
    seed: 11,
    ...making.over,
  };
}
