import { coldFactor, restedVoltage } from "./curves.js";
import type { Battery } from "./types.js";

/** A set as its terminals see it: rested voltage behind a resistance. */
export interface Source {
  readonly openCircuitV: number;
  readonly resistanceOhm: number;
}
/** A voltage that meets the cut-off exactly must not trip by a rounding. */
const ROUNDING_V = 1e-9;

export interface PowerSag {
  readonly feasible: boolean;
  /** Null when the load asks for more than the set can give at all. */
  readonly currentA: number | null;
  readonly terminalV: number | null;
  readonly lossW: number | null;
  readonly tripsCutOff: boolean;
  readonly maxPowerW: number;
  readonly currentAtCutOffA: number;
  readonly powerAtCutOffW: number;
}

/** Sag under a steady power at the terminals: the smaller root of E - I R = P / I. Ohm's law. */
export function powerSag(of: Source & { readonly loadW: number; readonly cutOffV: number }): PowerSag {
  const { openCircuitV: e, resistanceOhm: r, loadW, cutOffV } = of;
  const currentAtCutOffA = (e - cutOffV) / r;
  const under = e * e - 4 * r * loadW;
  const common = { maxPowerW: (e * e) / (4 * r), currentAtCutOffA, powerAtCutOffW: cutOffV * currentAtCutOffA };
  if (under < 0) return { feasible: false, currentA: null, terminalV: null, lossW: null, tripsCutOff: true, ...common };
  const currentA = (2 * loadW) / (e + Math.sqrt(under));
  const terminalV = e - currentA * r;
  return {
    feasible: true,
    currentA,
    terminalV,
    lossW: currentA ** 2 * r,
    tripsCutOff: terminalV < cutOffV - ROUNDING_V,
    ...common,
  };
}

export interface StartSag {
  readonly sagV: number;
  readonly terminalV: number;
  /** Above the cut-off; negative when the controller switches off. */
  readonly marginV: number;
  readonly tripsCutOff: boolean;
  /** Most current that keeps the cut-off voltage. */
  readonly maxStartCurrentA: number;
  /** Most resistance, cold factor included, that keeps it with this current. */
  readonly maxResistanceOhm: number;
}

/** Sag of a start current against the controller's cut-off; it trips below the cut-off, not at it. Ohm's law. */
export function startSag(
  of: Source & { readonly coldFactor: number; readonly startCurrentA: number; readonly cutOffV: number },
): StartSag {
  const resistanceOhm = of.resistanceOhm * of.coldFactor;
  const sagV = of.startCurrentA * resistanceOhm;
  const terminalV = of.openCircuitV - sagV;
  const spareV = of.openCircuitV - of.cutOffV;
  return {
    sagV,
    terminalV,
    marginV: terminalV - of.cutOffV,
    tripsCutOff: terminalV < of.cutOffV - ROUNDING_V,
    maxStartCurrentA: spareV / resistanceOhm,
    maxResistanceOhm: spareV / of.startCurrentA,
  };
}

export interface Controller {
  /** Most current the controller takes from the set. */
  readonly controllerMaxA: number;
  readonly cutOffV: number;
}
/** A driver who knows that the set is low starts with half throttle (common practice, no source). */
const GENTLE = 0.5;

/** Level below which a current makes the set sag under the cut-off, 0..1; 0 when it never does, 1 when it does even when full. */
export function tripShare(battery: Battery, controller: { startA: number; cutOffV: number; cellC: number }): number {
  const sagV = controller.startA * battery.resistanceOhm * coldFactor(battery.chemistry, controller.cellC);
  const holds = (share: number): boolean => restedVoltage(battery, share) - sagV >= controller.cutOffV;
  if (holds(0)) return 0;
  if (!holds(1)) return 1;
  let low = 0;
  let high = 1;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Level at which the vehicle stops with charge left, because even a gentle start (half of the controller's current) sags under its cut-off; 0..1.
 * A full-throttle start trips earlier: `tripShare` with `controllerMaxA`.
 */
export const cutOffShare = (battery: Battery, controller: Controller, cellC = 25): number =>
  tripShare(battery, { startA: GENTLE * controller.controllerMaxA, cutOffV: controller.cutOffV, cellC });
