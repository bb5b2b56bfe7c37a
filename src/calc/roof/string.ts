import { MOUNT, type Mount, panelC } from "./panel.js";

export interface PanelString {
  readonly panelsInSeries: number;
  /** At 25 C, of one panel. */
  readonly openCircuitV: number;
  readonly maxPowerV: number;
  /** Percent per C, below 0. */
  readonly openCircuitPctPerC: number;
  readonly maxPowerPctPerC: number;
}
/** What the charge controller needs at its input and what it bears. */
export interface VoltageWindow {
  readonly minV: number;
  readonly maxV: number;
}
export interface StringWeather {
  readonly coldestAirC: number;
  readonly hottestAirC: number;
  readonly hotIrradianceWm2: number;
  readonly hotWindMs: number;
}
export interface StringVoltage {
  readonly coldOpenCircuitV: number;
  readonly hotCellC: number;
  readonly hotMaxPowerV: number;
  readonly coldOk: boolean;
  readonly hotOk: boolean;
  readonly maxPanelsInSeries: number;
  readonly minPanelsInSeries: number;
}

/** A voltage that meets a limit exactly must not miss it by a rounding. */
const ROUNDING = 1e-9;

/**
 * Voltage of a string on the coldest morning (cells as cold as the air, no load) and on a hot noon, against the controller's window.
 * A string above the highest voltage destroys the controller. Source: NEC 690.7 and IEC 62548 ask for the cold check; Faiman for the hot cell.
 */
export function stringVoltage(
  string: PanelString,
  window: VoltageWindow,
  weather: StringWeather,
  mount: Mount = MOUNT.openRack,
): StringVoltage {
  const coldEachV = string.openCircuitV * (1 + (string.openCircuitPctPerC / 100) * (weather.coldestAirC - 25));
  const { hottestAirC: airC, hotIrradianceWm2: planeWm2, hotWindMs: windMs } = weather;
  const hotCellC = panelC({ planeWm2, airC, windMs }, mount);
  const hotEachV = string.maxPowerV * (1 + (string.maxPowerPctPerC / 100) * (hotCellC - 25));
  const coldOpenCircuitV = string.panelsInSeries * coldEachV;
  const hotMaxPowerV = string.panelsInSeries * hotEachV;
  return {
    coldOpenCircuitV,
    hotCellC,
    hotMaxPowerV,
    coldOk: coldOpenCircuitV <= window.maxV * (1 + ROUNDING),
    hotOk: hotMaxPowerV >= window.minV * (1 - ROUNDING),
    maxPanelsInSeries: Math.floor((window.maxV / coldEachV) * (1 + ROUNDING)),
    minPanelsInSeries: Math.ceil((window.minV / hotEachV) * (1 - ROUNDING)),
  };
}
