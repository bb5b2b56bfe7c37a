import { type PanelString, stringVoltage } from "../../calc/roof/string.js";
import { openCircuitV } from "../../calc/sizing/kit-checks.js";
import type { Vehicle, Yard } from "../../records/index.js";

/** What one face of the roof does to the charge controller, in volts; null where its panels were not typed. */
export interface FaceVolts {
  readonly name: string;
  readonly coldestC: number;
  readonly coldV: number;
  readonly hotV: number;
  /** Open circuit under weak winter sun: whether the controller wakes up. */
  readonly weakV: number;
  readonly coldOk: boolean;
  readonly hotOk: boolean;
}

/** Usual silicon panels: open circuit -0.29 and best voltage -0.37 % per C, 0.61 V a cell. Common practice, no source. */
const PCT_PER_C = { openCircuit: -0.29, best: -0.37 };
const CELL_V = 0.61;
/** Weak winter sun and a cell a little warmer than the air. */
const WEAK = { planeWm2: 200, overAirC: 4 };
const NO_LIMIT_V = 1e6;

export function faceVolts(vehicle: Vehicle, yard: Yard): FaceVolts[] {
  const coldestC = Math.min(...yard.airMinCByMonth);
  const hottestAirC = Math.max(...yard.airMaxCByMonth);
  const window = { maxV: vehicle.roof.controllerMaxV ?? NO_LIMIT_V, minV: vehicle.roof.controllerMinV ?? 0 };
  return vehicle.roof.faces.flatMap((face): FaceVolts[] => {
    if (face.openCircuitV === undefined || face.maxPowerV === undefined) return [];
    const string: PanelString = {
      panelsInSeries: face.panelsInSeries ?? 1,
      openCircuitV: face.openCircuitV,
      maxPowerV: face.maxPowerV,
      openCircuitPctPerC: PCT_PER_C.openCircuit,
      maxPowerPctPerC: PCT_PER_C.best,
    };
    const at = { coldestAirC: coldestC, hottestAirC, hotIrradianceWm2: 1000, hotWindMs: 1 };
    const found = stringVoltage(string, window, at);
    const at25CV = string.panelsInSeries * face.openCircuitV;
    const weak = { at25CV, cellsInSeries: Math.round(at25CV / CELL_V), pctPerC: PCT_PER_C.openCircuit };
    return [
      {
        name: face.name,
        coldestC,
        coldV: found.coldOpenCircuitV,
        hotV: found.hotMaxPowerV,
        weakV: openCircuitV(weak, { planeWm2: WEAK.planeWm2, cellC: coldestC + WEAK.overAirC }),
        coldOk: found.coldOk,
        hotOk: found.hotOk,
      },
    ];
  });
}
