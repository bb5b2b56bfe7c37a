import { CLASS_GUESSES, classVehicle } from "../calc/road/index.js";
import { guessesIn } from "./guesses.js";
import type { Chemistry, RoofFaceRecord, Vehicle, VehicleClass } from "./vehicle.js";

/** What a person tapped or typed about a new vehicle; everything left out is guessed from class and chemistry. */
export interface NewVehicle {
  readonly id: string;
  readonly yardId: string;
  readonly plate: string;
  readonly class: VehicleClass;
  readonly chemistry: Chemistry;
  readonly name?: string;
  readonly nominalV?: number;
  readonly ratedAh?: number;
  /** Of all panels together; 0 for no roof. */
  readonly roofW?: number;
  readonly roofShape?: "flat" | "twoSided";
  readonly gauge?: Vehicle["gauge"];
  readonly chargerW?: number;
  readonly plug?: string;
  readonly roundId?: string | null;
  readonly leaveMinute?: number;
  readonly loadClass?: Vehicle["usual"]["loadClass"];
}

/**
 * A whole vehicle from a few taps; `guesses` names every figure nobody typed. Chassis and drive: calc/road `classVehicle` with its sources;
 * set, charger, roof and care: the constants below, common practice without a source.
 */
export function newVehicle(of: NewVehicle): Vehicle {
  const lead = of.chemistry !== "lfp";
  const nominalV = of.nominalV ?? (lead ? 48 : 51.2);
  const known = CLASS_GUESSES[of.class];
  const battery = batteryGuess(of, nominalV);
  const bare: Omit<Vehicle, "guesses"> = {
    ...{ id: of.id, v: 1, yardId: of.yardId, plate: of.plate, name: of.name ?? "", class: of.class, status: "working" },
    ...chassisGuess(of, nominalV),
    legalLoadKg: null,
    fullLoadKg: known.payloadKg.value,
    tyres: "ok",
    battery,
    gauge: of.gauge ?? { kind: lead ? "volts" : "percent", bars: null },
    charger: chargerGuess(of, battery),
    roof: roofGuess(of),
    accessories: accessoriesGuess(of.class),
    usual: {
      roundId: of.roundId ?? null,
      leaveMinute: of.leaveMinute ?? (of.class === "vendingCart" ? 480 : 360),
      loadClass: of.loadClass ?? "half",
    },
    learned: null,
  };
  return { ...bare, guesses: guessesIn(bare, typedPaths(of)) };
}

function chassisGuess(
  of: NewVehicle,
  nominalV: number,
): Pick<Vehicle, "kerbKg" | "driverKg" | "cdaM2" | "crr" | "drive"> {
  const { kerbKg, driverKg, cdaM2, crr, nominalV: _set, softTyres: _soft, ...drive } = classVehicle(of.class, nominalV);
  return { kerbKg, driverKg, cdaM2, crr, drive };
}

/** Peukert exponents: middle of the published ranges in shared/reference/battery/peukert-exponents.json. */
const PEUKERT = { lfp: 1.03, floodedLead: 1.25, sealedLead: 1.15 } as const;
/** Lead-acid wants its full charge about weekly, or it sulphates; nobody should plan below a quarter of it. */
const CARE = {
  lfp: { reserveShare: 0.15, floorShare: 0.05, fullChargeEveryDays: null, ratedHours: 5 },
  floodedLead: { reserveShare: 0.25, floorShare: 0.15, fullChargeEveryDays: 7, ratedHours: 20 },
  sealedLead: { reserveShare: 0.25, floorShare: 0.15, fullChargeEveryDays: 7, ratedHours: 20 },
} as const;
const GUESSED_AH = 100;

function batteryGuess(of: NewVehicle, nominalV: number): Vehicle["battery"] {
  const lead = of.chemistry !== "lfp";
  const known = CLASS_GUESSES[of.class];
  return {
    chemistry: of.chemistry,
    nominalV,
    ratedAh: of.ratedAh ?? GUESSED_AH,
    health: 0.9,
    seriesCount: Math.max(1, Math.round(nominalV / (lead ? 2 : 3.2))),
    resistanceOhm: (lead ? known.sagOhmLead : known.sagOhmLfp).value,
    peukertExponent: PEUKERT[of.chemistry],
    ...CARE[of.chemistry],
    installedOn: null,
  };
}

/** A charger that fills the set in a night (lead-acid) or in some four hours (lithium). */
function chargerGuess(of: NewVehicle, battery: Vehicle["battery"]): Vehicle["charger"] {
  const lead = of.chemistry !== "lfp";
  const bySize = battery.nominalV * battery.ratedAh * (lead ? 0.14 : 0.25);
  const ratedW = of.chargerW ?? Math.max(100, Math.round(bySize / 50) * 50);
  return { ratedW, efficiency: lead ? 0.85 : 0.9, plug: of.plug ?? "house socket" };
}

const GUESSED_ROOF_W = 320;
function roofGuess(of: NewVehicle): Vehicle["roof"] {
  return {
    faces: facesOf(of.roofW ?? GUESSED_ROOF_W, of.roofShape ?? "flat"),
    link: "trackerPerFace",
    controllerEfficiency: 0.96,
    controllerMaxV: null,
    controllerMinV: null,
    wipedEveryDays: 7,
    wireShare: 0.02,
  };
}

function facesOf(roofW: number, shape: "flat" | "twoSided"): readonly RoofFaceRecord[] {
  if (roofW <= 0) return [];
  const face = { gammaPerC: -0.004 };
  if (shape === "flat") return [{ name: "roof", ratedW: roofW, tiltDeg: 0, sideDeg: 0, ...face }];
  return [
    { name: "left", ratedW: roofW / 2, tiltDeg: 12, sideDeg: 270, ...face },
    { name: "right", ratedW: roofW / 2, tiltDeg: 12, sideDeg: 90, ...face },
  ];
}

const accessoriesGuess = (of: VehicleClass): Vehicle["accessories"] => ({
  baseW: CLASS_GUESSES[of].baseW.value,
  lampW: of === "eRickshaw" ? 25 : 40,
  fridgeW: of === "vendingCart" ? 60 : 0,
  grinderW: of === "vendingCart" ? 300 : 0,
  fanW: of === "vendingCart" ? 20 : 0,
});

const PATH_OF: Readonly<Partial<Record<keyof NewVehicle, string>>> = {
  chemistry: "battery.chemistry",
  nominalV: "battery.nominalV",
  ratedAh: "battery.ratedAh",
  gauge: "gauge",
  chargerW: "charger.ratedW",
  plug: "charger.plug",
  roundId: "usual.roundId",
  leaveMinute: "usual.leaveMinute",
  loadClass: "usual.loadClass",
};

function typedPaths(of: NewVehicle): string[] {
  const tapped = (Object.keys(of) as (keyof NewVehicle)[]).filter((key) => of[key] !== undefined);
  const roof = of.roofW === undefined ? [] : ["roof.faces.0.ratedW", "roof.faces.1.ratedW"];
  const none = of.roofW === 0 ? ["roof"] : [];
  return [...tapped.flatMap((key) => PATH_OF[key] ?? []), ...roof, ...none];
}
