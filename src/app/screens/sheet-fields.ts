import type { Vehicle } from "../../records/index.js";
import type { FleetWords } from "../words/fleet/en.js";

export type FieldName = keyof FleetWords["sheet"]["fields"];
export type ChoiceName = keyof FleetWords["sheet"]["choices"];
export type UnitName = keyof FleetWords["sheet"]["units"];

interface At {
  readonly name: FieldName;
  /** Path in the record; differs from the name for panel faces. */
  readonly path: string;
}
/** Shown = kept x `scale`. */
export interface NumberField extends At {
  readonly kind: "number";
  readonly unit: UnitName;
  readonly least: number;
  readonly most: number;
  readonly decimals: number;
  readonly scale: number;
  readonly mayBeNull: boolean;
}
export interface ChoiceField extends At {
  readonly kind: "choice";
  readonly of: readonly ChoiceName[];
}
export interface TextField extends At {
  readonly kind: "text" | "date" | "clock" | "gears" | "round" | "side";
  readonly longest?: number;
}
export type Field = NumberField | ChoiceField | TextField;
export type Section = keyof FleetWords["sheet"]["parts"];

interface NumberLimits {
  readonly decimals?: number;
  readonly scale?: number;
  readonly mayBeNull?: boolean;
}
const num = (
  name: FieldName,
  unit: UnitName,
  range: readonly [number, number],
  more: NumberLimits = {},
): NumberField => ({
  kind: "number",
  name,
  path: name,
  unit,
  least: range[0],
  most: range[1],
  decimals: more.decimals ?? 0,
  scale: more.scale ?? 1,
  mayBeNull: more.mayBeNull ?? false,
});
/** A share, shown in %. */
const part = (name: FieldName, range: readonly [number, number]): NumberField =>
  num(name, "percent", [range[0] * 100, range[1] * 100], { scale: 100 });
const choice = (name: FieldName, ...of: ChoiceName[]): ChoiceField => ({ kind: "choice", name, path: name, of });
const text = (name: FieldName, kind: TextField["kind"] = "text", longest = 60): TextField => ({
  kind,
  name,
  path: name,
  longest,
});

/** Every field of a vehicle, by section; the schema of the record has the last word on each value. */
export const SECTIONS: readonly (readonly [Section, readonly Field[]])[] = [
  [
    "what",
    [
      text("plate", "text", 16),
      text("name"),
      choice("class", "passenger", "goodsLarge", "eRickshaw", "vendingCart"),
      choice("status", "working", "offRoad"),
    ],
  ],
  [
    "set",
    [
      choice("battery.chemistry", "lfp", "floodedLead", "sealedLead"),
      num("battery.nominalV", "volts", [12, 150], { decimals: 1 }),
      num("battery.ratedAh", "ampHours", [5, 800]),
      part("battery.health", [0.1, 1]),
      part("battery.reserveShare", [0, 0.9]),
      part("battery.floorShare", [0, 0.9]),
      num("battery.fullChargeEveryDays", "days", [1, 90], { mayBeNull: true }),
      text("battery.installedOn", "date"),
    ],
  ],
  [
    "gauge",
    [choice("gauge.kind", "volts", "bars", "percent"), num("gauge.bars", "none", [2, 20], { mayBeNull: true })],
  ],
  [
    "charger",
    [
      num("charger.ratedW", "watts", [20, 20_000]),
      part("charger.efficiency", [0.3, 1]),
      text("charger.plug", "text", 30),
    ],
  ],
  [
    "roof",
    [choice("roof.link", "trackerPerFace", "oneTracker", "series"), num("roof.wipedEveryDays", "days", [1, 365])],
  ],
  [
    "road",
    [
      num("kerbKg", "kg", [80, 2000]),
      num("driverKg", "kg", [0, 300]),
      num("fullLoadKg", "kg", [0, 2000]),
      num("legalLoadKg", "kg", [0, 2000], { mayBeNull: true }),
      num("drive.maxKmh", "kmh", [5, 90]),
      choice("tyres", "ok", "soft"),
    ],
  ],
  [
    "board",
    [
      num("accessories.baseW", "watts", [0, 2000]),
      num("accessories.lampW", "watts", [0, 1000]),
      num("accessories.fridgeW", "watts", [0, 3000]),
      num("accessories.grinderW", "watts", [0, 3000]),
      num("accessories.fanW", "watts", [0, 1000]),
    ],
  ],
  [
    "usual",
    [
      text("usual.roundId", "round"),
      text("usual.leaveMinute", "clock"),
      choice("usual.loadClass", "empty", "half", "full"),
    ],
  ],
  [
    "fitter",
    [
      num("cdaM2", "squareMetres", [0.2, 5], { decimals: 2 }),
      num("crr", "none", [0.004, 0.1], { decimals: 3 }),
      num("drive.motorRatedW", "watts", [100, 20_000]),
      num("drive.motorPeakW", "watts", [100, 40_000]),
      part("drive.motorEfficiency", [0.3, 1]),
      part("drive.controllerEfficiency", [0.3, 1]),
      num("drive.controllerMaxA", "amps", [5, 800]),
      num("drive.cutOffV", "volts", [5, 200], { decimals: 1 }),
      text("drive.gears", "gears"),
      num("drive.finalRatio", "none", [0.5, 60], { decimals: 2 }),
      num("drive.wheelRadiusM", "metres", [0.1, 0.5], { decimals: 3 }),
      part("drive.transmissionEfficiency", [0.3, 1]),
      part("drive.regenShare", [0, 0.8]),
      num("battery.seriesCount", "none", [1, 80]),
      num("battery.resistanceOhm", "ohms", [0.0005, 2], { decimals: 4 }),
      num("battery.peukertExponent", "none", [1, 1.6], { decimals: 2 }),
      num("battery.ratedHours", "hours", [0.5, 100], { decimals: 1 }),
      part("roof.controllerEfficiency", [0.3, 1]),
      num("roof.controllerMaxV", "volts", [5, 500], { mayBeNull: true }),
      num("roof.controllerMinV", "volts", [1, 500], { mayBeNull: true }),
      part("roof.wireShare", [0, 0.3]),
    ],
  ],
];

/** Fields of one panel face, by its place in the roof. */
export function faceFields(index: number): Field[] {
  const at = <F extends Field>(field: F): F => ({
    ...field,
    path: field.name.replace("roof.", `roof.faces.${index}.`),
  });
  return [
    at(num("roof.ratedW", "watts", [1, 3000])),
    at(num("roof.tiltDeg", "degrees", [0, 90])),
    at(text("roof.sideDeg", "side")),
    at(num("roof.gammaPerC", "perDegree", [-1, 0], { decimals: 2, scale: 100 })),
    at(num("roof.panelsInSeries", "none", [1, 20], { mayBeNull: true })),
    at(num("roof.openCircuitV", "volts", [1, 200], { decimals: 1, mayBeNull: true })),
    at(num("roof.maxPowerV", "volts", [1, 200], { decimals: 1, mayBeNull: true })),
  ];
}

/** Value at a path of a record. */
export function valueAt(record: Vehicle, path: string): unknown {
  return path.split(".").reduce<unknown>((part, step) => {
    if (typeof part !== "object" || part === null) return undefined;
    return (part as Readonly<Record<string, unknown>>)[step];
  }, record);
}

export const isGuess = (record: Vehicle, path: string): boolean =>
  record.guesses.some((guess) => guess === path || path.startsWith(`${guess}.`) || guess.startsWith(`${path}.`));
