import { openCircuitV } from "../../calc/sizing/kit-checks.js";
import type { Vehicle, Yard } from "../../records/index.js";
import { type StringCheck, stringChecksOf } from "../../records/map/panel-volts.js";

/** What one string of the roof does to the charge controller, in volts, by the same check as the vehicle's own sheet. */
export interface StringVolts {
  /** Of its faces. */
  readonly name: string;
  readonly coldestC: number;
  readonly coldV: number;
  readonly hotV: number;
  /** Open circuit under weak winter sun: whether the controller wakes up. */
  readonly weakV: number;
  readonly coldOk: boolean;
  readonly hotOk: boolean;
}

/** Usual silicon cells: -0.29 % per C and 0.61 V each, open circuit. Common practice, no source. */
const OPEN_CIRCUIT_PCT_PER_C = -0.29;
const CELL_V = 0.61;
/** Weak sun on a usual winter morning, the cell a little warmer than the air. */
const WEAK = { planeWm2: 200, overAirC: 4 };

/** Every string whose panels were typed; the others have no volts to show. */
export function stringVolts(vehicle: Vehicle, yard: Yard): StringVolts[] {
  const winterC = Math.min(...yard.airMinCByMonth) + WEAK.overAirC;
  return stringChecksOf(vehicle, yard).flatMap((check): StringVolts[] => {
    if (check.coldV === null || check.hotV === null) return [];
    return [
      {
        name: check.faces.map((n) => vehicle.roof.faces[n]?.name ?? "").join(", "),
        coldestC: check.coldestAirC,
        coldV: check.coldV,
        hotV: check.hotV,
        weakV: weakV(at25C(check, vehicle), winterC),
        coldOk: check.coldOk !== false,
        hotOk: check.hotOk !== false,
      },
    ];
  });
}

const at25C = ({ faces }: StringCheck, { roof }: Vehicle): number =>
  faces.reduce((volts, n) => {
    const face = roof.faces[n];
    return volts + (face?.panelsInSeries ?? 1) * (face?.openCircuitV ?? 0);
  }, 0);

const weakV = (at25CV: number, cellC: number): number =>
  openCircuitV(
    { at25CV, cellsInSeries: Math.round(at25CV / CELL_V), pctPerC: OPEN_CIRCUIT_PCT_PER_C },
    { planeWm2: WEAK.planeWm2, cellC },
  );
