export type Surface = "asphalt" | "wornAsphalt" | "gravel" | "earth" | "sand";

/** What drives and resists a vehicle, without its load. */
export interface RoadVehicle {
  /** Ready to drive, with the set, without driver and load. */
  readonly kerbKg: number;
  readonly driverKg: number;
  /** Drag coefficient times frontal area. */
  readonly cdaM2: number;
  /** Rolling resistance on good asphalt with hard tyres, force over weight. */
  readonly crr: number;
  readonly softTyres?: boolean;
  readonly wheelRadiusM: number;
  readonly finalRatio: number;
  /** Gearbox ratios, first gear first; one entry where there is no gearbox. */
  readonly gears: readonly number[];
  /** Motor shaft to wheel, 0..1. */
  readonly transmissionEfficiency: number;
  /** Shaft power on the motor's plate: held without end. */
  readonly motorRatedW: number;
  /** Shaft power the motor holds for a start or a short ramp. */
  readonly motorPeakW: number;
  /** Speed at which the rated power is reached; without it, 60 % of the motor speed at `maxKmh` in the top gear, 80 % without a gearbox (common practice). */
  readonly motorRatedRpm?: number;
  /** At rated load, 0..1. */
  readonly motorEfficiency: number;
  readonly controllerEfficiency: number;
  /** Most current the controller takes from the set. */
  readonly controllerMaxA: number;
  /** The controller switches off below this voltage of the set. */
  readonly cutOffV: number;
  /** Nominal voltage of the set: with it, `controllerMaxA` bounds the power too. */
  readonly nominalV?: number;
  readonly maxKmh: number;
  /** Share of the braking energy at the wheel that reaches the set; 0 without recovery. */
  readonly regenShare: number;
}

export interface Leg {
  readonly km: number;
  /** As planned, standing in traffic included. */
  readonly minutes: number;
  readonly climbM: number;
  readonly dropM: number;
  readonly surface: Surface;
  readonly wet: boolean;
  /** Full stops per km: crossings, passengers, traffic. */
  readonly stopsPerKm: number;
  readonly payloadKg: number;
  readonly airDensityKgM3: number;
}

/** noSuchRoad: more climb and drop than a road of that length has, reckoned with the most it could have; tooSteep: no gear holds the slope; slower: later than planned; hot30min: the motor gets as hot as it bears (from cold: 30 minutes at 1.58 times its rated loss) and must go slower. */
export type LegProblem = "noSuchRoad" | "tooSteep" | "slower" | "hot30min";

export interface LegDrain {
  /** Out of the set at its terminals, before the losses inside the set and without what braking gives back. */
  readonly batteryWh: number;
  /** Pulling work at the wheel, without braking. */
  readonly wheelWh: number;
  /** Back into the set at its terminals. */
  readonly regenWh: number;
  /** As it will be: never fewer than planned. */
  readonly minutes: number;
  /** `batteryWh` over `minutes`. */
  readonly meanW: number;
  /** Highest power out of the set, while accelerating or climbing. */
  readonly peakW: number;
  /** On the hardest part, 1 is the lowest; null when no gear holds it. */
  readonly gear: number | null;
  /** On the hardest part: up the slope, or the cruising speed where there is none. */
  readonly speedKmh: number;
  /** Of the motor after the leg, 0 cold to 1 at what it bears. */
  readonly heat: number;
  readonly problem: LegProblem | null;
}
