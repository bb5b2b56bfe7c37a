import { MOUNT, stringVoltage } from "../../calc/roof/index.js";
import type { Vehicle, Yard } from "../index.js";

/** Crystalline silicon, where the panel's sheet was not read: -0.27 to -0.34 %/C; common practice, no source. */
const OPEN_CIRCUIT_PCT_PER_C = -0.3;
/** A record cold morning lies about this far below the coldest month's usual one; common practice, no source. [C] */
const RECORD_COLD_C = 10;
const NOON = { hotIrradianceWm2: 1000, hotWindMs: 1 };

/** Panels wired one behind the other, against what the charge controller bears and needs. Null where a figure was not typed. */
export interface StringCheck {
  /** Faces in this string. */
  readonly faces: readonly number[];
  readonly coldestAirC: number;
  readonly coldV: number | null;
  readonly hotCellC: number;
  readonly hotV: number | null;
  readonly mostV: number | null;
  readonly leastV: number | null;
  readonly coldOk: boolean | null;
  readonly hotOk: boolean | null;
}

/** One check per string: with faces in series there is one, else one per face. */
export function stringChecksOf(vehicle: Vehicle, yard: Yard): StringCheck[] {
  const { faces, link } = vehicle.roof;
  if (faces.length === 0) return [];
  const each = faces.map((_, n) => n);
  return (link === "series" ? [each] : each.map((n) => [n])).map((of) => checkOf(of, vehicle, yard));
}

function checkOf(of: readonly number[], vehicle: Vehicle, yard: Yard): StringCheck {
  const { roof } = vehicle;
  const weather = {
    coldestAirC: Math.min(...yard.airMinCByMonth) - RECORD_COLD_C,
    hottestAirC: Math.max(...yard.airMaxCByMonth),
    ...NOON,
  };
  const window = { minV: roof.controllerMinV ?? 0, maxV: roof.controllerMaxV ?? Number.POSITIVE_INFINITY };
  let coldV: number | null = 0;
  let hotV: number | null = 0;
  let hotCellC = 0;
  for (const n of of) {
    const face = roof.faces[n] as Vehicle["roof"]["faces"][number];
    const { openCircuitV, maxPowerV, panelsInSeries = 1, gammaPerC } = face;
    const string = {
      panelsInSeries,
      openCircuitV: openCircuitV ?? 0,
      maxPowerV: maxPowerV ?? 0,
      openCircuitPctPerC: OPEN_CIRCUIT_PCT_PER_C,
      // a little more than the voltage alone loses: errs to the low side
      maxPowerPctPerC: 100 * gammaPerC,
    };
    const volts = stringVoltage(string, window, weather, MOUNT.overRoof);
    coldV = coldV === null || openCircuitV === undefined ? null : coldV + volts.coldOpenCircuitV;
    hotV = hotV === null || maxPowerV === undefined ? null : hotV + volts.hotMaxPowerV;
    hotCellC = volts.hotCellC;
  }
  return {
    faces: of,
    coldestAirC: weather.coldestAirC,
    coldV,
    hotCellC,
    hotV,
    mostV: roof.controllerMaxV,
    leastV: roof.controllerMinV,
    coldOk: coldV === null || roof.controllerMaxV === null ? null : coldV <= roof.controllerMaxV,
    hotOk: hotV === null || roof.controllerMinV === null ? null : hotV >= roof.controllerMinV,
  };
}
