import type { Vehicle } from "../../../records/index.js";
import { emptyTray, fullTray, halfTray } from "../../parts/icons.js";
import { BODIES } from "../../parts/shapes.js";
import type { SheetWords } from "../../words/sheet/en.js";
import type { NumberSpec, Spec, UnitName } from "../edit/spec.js";

export type FieldName = keyof SheetWords["fields"];
export type GroupName = keyof SheetWords["groups"];
type Of = Spec<FieldName>;
type More = Partial<Pick<NumberSpec, "decimals" | "times" | "unset" | "signed">>;

const number = (name: FieldName, unit: UnitName, usual: readonly number[], more: More = {}): Of => ({
  kind: "number",
  path: name,
  name,
  unit,
  usual,
  ...more,
});
/** A share, shown in %. */
const share = (name: FieldName, usual: readonly number[]): Of => number(name, "percent", usual, { times: 100 });
const choice = (name: FieldName, ...options: string[]): Of => ({ kind: "choice", path: name, name, options });

export interface GroupFields {
  readonly plain: readonly Of[];
  /** Below, folded: figures that most people leave as they are. */
  readonly finer: readonly Of[];
}
const LOADS = { empty: emptyTray, half: halfTray, full: fullTray };
const W_SMALL = [0, 20, 40, 60, 100];

/** Fields of each group, in the order a person meets them walking around the vehicle. Roof faces and gears have rows of their own. */
export const GROUPS: Readonly<Record<GroupName, GroupFields>> = {
  plate: {
    plain: [
      { kind: "text", path: "plate", name: "plate", longest: 16 },
      { kind: "text", path: "name", name: "name", longest: 80, mayBeEmpty: true },
      {
        kind: "choice",
        path: "class",
        name: "class",
        options: ["passenger", "goodsLarge", "eRickshaw", "vendingCart"],
        drawings: BODIES,
      },
    ],
    finer: [],
  },
  body: {
    plain: [
      number("kerbKg", "kg", [300, 350, 400, 450, 500]),
      number("driverKg", "kg", [55, 65, 75, 85, 95]),
      number("fullLoadKg", "kg", [200, 300, 400, 500, 600]),
      number("legalLoadKg", "kg", [300, 310, 350, 400, 500], { unset: "null" }),
      choice("tyres", "ok", "soft"),
    ],
    finer: [
      number("cdaM2", "m2", [0.9, 1.1, 1.3, 1.5, 1.8], { decimals: 2 }),
      number("crr", "kgPerTonne", [10, 12, 14, 16, 20], { times: 1000, decimals: 1 }),
    ],
  },
  drive: {
    plain: [
      number("drive.motorRatedW", "watt", [1000, 1500, 2000, 3000, 4000]),
      number("drive.motorPeakW", "watt", [2000, 3000, 4500, 6000, 9000]),
      number("drive.motorRatedRpm", "turns", [1440, 2000, 2800, 3000, 3600], { unset: "leftOut" }),
      number("drive.maxKmh", "kmh", [25, 35, 40, 45, 50]),
    ],
    finer: [
      number("drive.finalRatio", "none", [3.5, 4.1, 6, 8, 10], { decimals: 2 }),
      number("drive.wheelRadiusM", "cm", [20, 22, 22.5, 25, 28], { times: 100, decimals: 1 }),
      number("drive.controllerMaxA", "amp", [50, 80, 120, 160, 200]),
      number("drive.cutOffV", "volt", [38, 40, 42, 50, 58], { decimals: 1 }),
      share("drive.motorEfficiency", [75, 80, 83, 86, 90]),
      share("drive.controllerEfficiency", [92, 94, 95, 96, 97]),
      share("drive.transmissionEfficiency", [85, 88, 91, 94, 97]),
      share("drive.regenShare", [0, 10, 20, 30, 40]),
    ],
  },
  set: {
    plain: [
      choice("battery.chemistry", "lfp", "floodedLead", "sealedLead"),
      number("battery.nominalV", "volt", [36, 48, 51.2, 60, 72], { decimals: 1 }),
      number("battery.ratedAh", "ampHour", [80, 100, 120, 130, 150]),
      share("battery.health", [60, 70, 80, 90, 100]),
      { kind: "date", path: "battery.installedOn", name: "battery.installedOn" },
      number("battery.fullChargeEveryDays", "days", [3, 5, 7, 10, 14], { unset: "null" }),
    ],
    finer: [
      number("battery.ratedHours", "hour", [1, 2, 5, 10, 20], { decimals: 1 }),
      number("battery.seriesCount", "none", [4, 5, 15, 16, 24]),
      number("battery.resistanceOhm", "milliohm", [20, 35, 50, 80, 120], { times: 1000, decimals: 1 }),
      number("battery.peukertExponent", "none", [1.03, 1.1, 1.15, 1.2, 1.25], { decimals: 2 }),
    ],
  },
  charger: {
    plain: [
      number("charger.ratedW", "watt", [500, 700, 900, 1200, 2000]),
      { kind: "text", path: "charger.plug", name: "charger.plug", longest: 30 },
    ],
    finer: [share("charger.efficiency", [80, 85, 88, 90, 93])],
  },
  roof: {
    plain: [
      number("roof.wipedEveryDays", "days", [1, 3, 7, 14, 30]),
      choice("roof.link", "trackerPerFace", "oneTracker", "series"),
      number("roof.controllerMaxV", "volt", [50, 75, 100, 150, 250], { unset: "null" }),
      number("roof.controllerMinV", "volt", [16, 20, 30, 56, 60], { unset: "null" }),
    ],
    finer: [share("roof.controllerEfficiency", [75, 90, 94, 95, 97]), share("roof.wireShare", [1, 2, 3, 4, 5])],
  },
  extras: {
    plain: [
      number("accessories.baseW", "watt", [10, 15, 25, 40, 60]),
      number("accessories.lampW", "watt", W_SMALL),
      number("accessories.fridgeW", "watt", [0, 40, 60, 80, 120]),
      number("accessories.grinderW", "watt", [0, 150, 300, 450, 600]),
      number("accessories.fanW", "watt", W_SMALL),
    ],
    finer: [],
  },
  gauge: {
    plain: [
      choice("gauge.kind", "volts", "bars", "percent"),
      number("gauge.bars", "bars", [4, 5, 6, 8, 10], { unset: "null" }),
    ],
    finer: [],
  },
  usual: {
    plain: [
      { kind: "clock", path: "usual.leaveMinute", name: "usual.leaveMinute" },
      {
        kind: "choice",
        path: "usual.loadClass",
        name: "usual.loadClass",
        options: ["empty", "half", "full"],
        drawings: LOADS,
      },
    ],
    finer: [],
  },
  line: {
    plain: [share("battery.reserveShare", [10, 15, 20, 25, 30]), share("battery.floorShare", [0, 5, 10, 15, 20])],
    finer: [],
  },
};

/** Fields of one roof face. */
export function faceFields(n: number): GroupFields {
  const at = (name: FieldName, unit: UnitName, usual: readonly number[], more: More = {}): Of => ({
    ...number(name, unit, usual, more),
    path: `roof.faces.${n}.${name.slice("face.".length)}`,
  });
  return {
    plain: [
      at("face.ratedW", "watt", [50, 100, 160, 210, 330]),
      at("face.tiltDeg", "degree", [0, 5, 12, 20, 30]),
      at("face.sideDeg", "degree", [0, 90, 180, 270]),
      at("face.panelsInSeries", "none", [1, 2, 3, 4], { unset: "leftOut" }),
      at("face.openCircuitV", "volt", [22, 24, 38, 41, 50], { decimals: 1, unset: "leftOut" }),
      at("face.maxPowerV", "volt", [18, 20, 31, 34, 41], { decimals: 1, unset: "leftOut" }),
    ],
    finer: [
      at("face.gammaPerC", "percentPerC", [-0.5, -0.45, -0.4, -0.35, -0.3], { times: 100, decimals: 2, signed: true }),
    ],
  };
}

export const fieldsOf = (group: GroupName, vehicle: Vehicle): readonly Of[] => {
  const { plain, finer } = GROUPS[group];
  const faces = group === "roof" ? vehicle.roof.faces.map((_, n) => faceFields(n)) : [];
  return [...plain, ...finer, ...faces.flatMap((face) => [...face.plain, ...face.finer])];
};

export const GROUP_NAMES = Object.keys(GROUPS) as readonly GroupName[];
export const isGroup = (name: string): name is GroupName => Object.hasOwn(GROUPS, name);
