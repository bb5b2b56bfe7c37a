import type { RoadVehicle } from "./types.js";

/** A figure nobody typed: what to take, how far it may be off, and where it comes from. */
export interface Guess {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly source: string;
}
const guess = (value: number, low: number, high: number, source: string): Guess => ({ value, low, high, source });
const COMMON = "common practice, no source";
const RETROFIT_GEARS = [6.32, 3.71, 2.46, 1.71, 1.24] as const;

export type VehicleClass = "goodsLarge" | "passenger" | "eRickshaw" | "vendingCart";
export type ClassGuesses = Readonly<
  Record<
    | "kerbKg"
    | "payloadKg"
    | "crr"
    | "cdaM2"
    | "maxKmh"
    | "motorRatedW"
    | "motorEfficiency"
    | "transmissionEfficiency"
    | "regenShare"
    | "baseW"
    | "startA"
    | "sagOhmLfp"
    | "sagOhmLead",
    Guess
  >
>;

const AUTORICKSHAW = "autorickshaw field study (research.tec.mx record SCO_85162187891)";
const SAG_LFP = guess(0.035, 0.02, 0.08, "limits seen on data sheets of 12.8 to 51.2 V packs; common practice");
const SAG_LEAD = guess(0.05, 0.03, 0.12, "5 to 8 mohm a new 12 V 54 Ah block, doubling with age; common practice");
const KIT_MOTOR = guess(
  0.83,
  0.78,
  0.86,
  "inverter-fed low-voltage kit motors at their rated point (guidance beside IEC 60034-30-1, from memory)",
);
const GEARBOX = guess(0.91, 0.87, 0.95, "gearbox 0.95 to 0.97 by final drive 0.94 to 0.97; common practice");

export const CLASS_GUESSES: Readonly<Record<VehicleClass, ClassGuesses>> = {
  goodsLarge: {
    kerbKg: guess(470, 420, 550, "gross 975 to 995 kg is common among registered models; common practice"),
    payloadKg: guess(500, 300, 700, "vehicle class"),
    crr: guess(0.016, 0.012, 0.022, `${AUTORICKSHAW}: 0.020 with hub drag; Carvill (1993): 0.010 to 0.020`),
    cdaM2: guess(
      1.3,
      1.0,
      1.7,
      `${AUTORICKSHAW}: Cd 0.47 with cab; 0.55 to 0.7 with a box, 2.1 to 2.4 m2; common practice`,
    ),
    maxKmh: guess(45, 35, 55, COMMON),
    motorRatedW: guess(3000, 2200, 4000, "vehicle class"),
    motorEfficiency: KIT_MOTOR,
    transmissionEfficiency: GEARBOX,
    regenShare: guess(0, 0, 0.15, "conversion kits mostly without; common practice"),
    baseW: guess(40, 15, 90, COMMON),
    startA: guess(150, 100, 250, "twice the rated current of the set; common practice"),
    sagOhmLfp: SAG_LFP,
    sagOhmLead: SAG_LEAD,
  },
  passenger: {
    kerbKg: guess(400, 330, 500, `${AUTORICKSHAW}: 337 kg with a petrol engine; common practice`),
    payloadKg: guess(210, 70, 420, "70 kg a passenger"),
    crr: guess(0.018, 0.012, 0.022, AUTORICKSHAW),
    cdaM2: guess(0.9, 0.75, 1.1, `${AUTORICKSHAW}: Cd 0.47 by 1.7 to 2.1 m2`),
    maxKmh: guess(45, 35, 55, COMMON),
    motorRatedW: guess(3000, 2000, 5000, COMMON),
    motorEfficiency: guess(0.85, 0.78, 0.9, COMMON),
    transmissionEfficiency: guess(0.93, 0.88, 0.96, COMMON),
    regenShare: guess(0.1, 0, 0.3, COMMON),
    baseW: guess(50, 20, 120, COMMON),
    startA: guess(120, 80, 200, COMMON),
    sagOhmLfp: SAG_LFP,
    sagOhmLead: SAG_LEAD,
  },
  eRickshaw: {
    kerbKg: guess(330, 280, 400, "with 100 to 130 kg of lead-acid; common practice"),
    payloadKg: guess(260, 0, 400, "four passengers"),
    crr: guess(0.016, 0.012, 0.022, COMMON),
    cdaM2: guess(1.0, 0.8, 1.2, COMMON),
    maxKmh: guess(25, 20, 25, "legal limit of the class in India (press on a typical vehicle, Pratidin Time)"),
    motorRatedW: guess(1000, 650, 1500, "press on a typical vehicle, Pratidin Time"),
    motorEfficiency: guess(0.85, 0.82, 0.88, "brushless motors; common practice"),
    transmissionEfficiency: guess(0.95, 0.92, 0.97, "one axle gear; common practice"),
    regenShare: guess(0, 0, 0.05, COMMON),
    baseW: guess(25, 10, 60, COMMON),
    startA: guess(60, 40, 90, "controllers limit at 40 to 60 A; common practice"),
    sagOhmLfp: SAG_LFP,
    sagOhmLead: guess(0.04, 0.025, 0.1, "4 to 5 mohm a 12 V 100 Ah block and cables; common practice"),
  },
  vendingCart: {
    kerbKg: guess(480, 400, 600, COMMON),
    payloadKg: guess(200, 100, 400, COMMON),
    crr: guess(0.016, 0.012, 0.022, COMMON),
    cdaM2: guess(1.5, 1.2, 2.0, "upright body, awning stowed; common practice"),
    maxKmh: guess(30, 20, 40, COMMON),
    motorRatedW: guess(3000, 1000, 4000, COMMON),
    motorEfficiency: KIT_MOTOR,
    transmissionEfficiency: GEARBOX,
    regenShare: guess(0, 0, 0.15, COMMON),
    baseW: guess(40, 15, 90, COMMON),
    startA: guess(150, 100, 250, COMMON),
    sagOhmLfp: SAG_LFP,
    sagOhmLead: SAG_LEAD,
  },
};

/** Gears and wheels by class; all common practice without a source. */
const DRIVE: Readonly<
  Record<VehicleClass, Pick<RoadVehicle, "gears" | "finalRatio" | "wheelRadiusM" | "motorRatedRpm">>
> = {
  goodsLarge: {
    gears: RETROFIT_GEARS,
    finalRatio: 4.11,
    wheelRadiusM: 0.225,
    motorRatedRpm: 1440,
  },
  passenger: { gears: [1], finalRatio: 8, wheelRadiusM: 0.225, motorRatedRpm: 2400 },
  eRickshaw: { gears: [1], finalRatio: 10, wheelRadiusM: 0.21, motorRatedRpm: 2600 },
  vendingCart: {
    gears: RETROFIT_GEARS,
    finalRatio: 4.11,
    wheelRadiusM: 0.225,
    motorRatedRpm: 1440,
  },
};

/** Mean driver of the tables of guesses, kg. */
export const DRIVER_KG = 75;
/** Over the inverter of a kit (common practice). */
export const CONTROLLER_EFFICIENCY = 0.95;
/** Short overload of small drives (common practice: 2 to 2.5). */
export const PEAK_OVER_RATED = 2;
/** Controllers switch off at about 10.5 V a 12 V block, 42 V of a 48 V set (common practice). */
export const CUT_OFF_SHARE = 0.875;

/** Rounds in a dense town where nobody counted. */
export const TOWN_GUESSES = {
  stopsPerKm: guess(3, 1.5, 5, COMMON),
  movingKmh: guess(18, 12, 25, "Indian driving cycle 21.9 km/h with its standing; dense towns lower; common practice"),
} as const;
/** What a vending cart draws on average while serving, and at its highest, W. */
export const VENDING_GUESSES = {
  hotelW: guess(
    180,
    60,
    900,
    "lights and till 20 to 60, fridge 40 to 100, grinder 10 to 30, small espresso boiler 300 to 900; common practice",
  ),
  hotelPeakW: guess(1500, 300, 2500, COMMON),
} as const;

/** A vehicle of a class of which nothing was typed; `nominalV` is that of its set. */
export function classVehicle(of: VehicleClass, nominalV: number): RoadVehicle {
  const known = CLASS_GUESSES[of];
  return {
    kerbKg: known.kerbKg.value,
    driverKg: DRIVER_KG,
    cdaM2: known.cdaM2.value,
    crr: known.crr.value,
    ...DRIVE[of],
    transmissionEfficiency: known.transmissionEfficiency.value,
    motorRatedW: known.motorRatedW.value,
    motorPeakW: PEAK_OVER_RATED * known.motorRatedW.value,
    motorEfficiency: known.motorEfficiency.value,
    controllerEfficiency: CONTROLLER_EFFICIENCY,
    controllerMaxA: known.startA.value,
    cutOffV: CUT_OFF_SHARE * nominalV,
    nominalV,
    maxKmh: known.maxKmh.value,
    regenShare: known.regenShare.value,
  };
}
