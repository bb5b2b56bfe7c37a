import type { SkyModel } from "../sun/index.js";
import { skyPerez } from "../sun/index.js";
import { type GlassModel, glassPhysical } from "./glass.js";
import { MOUNT, type Mount } from "./panel.js";

/** One flat part of the roof; its panels are one string. */
export interface RoofFace {
  /** At 1000 W/m2 and 25 C. */
  readonly ratedW: number;
  readonly tiltDeg: number;
  /** The side the face leans to, clockwise from forward: 0 front, 90 right, 180 back, 270 left. */
  readonly sideDeg: number;
  /** Change of power with cell temperature, below 0: -0.003..-0.005. */
  readonly gammaPerC: number;
}

/**
 * trackerPerFace: each face at its own best voltage. oneTracker: faces side by side at one voltage, so unequal faces lose a little.
 * series: a plain switch between panel and battery (PWM), which pulls the panel down to the voltage of the battery.
 */
export type RoofLink = "trackerPerFace" | "oneTracker" | "series";

export interface Roof {
  /** One to MOST_FACES. */
  readonly faces: readonly RoofFace[];
  readonly link: RoofLink;
  readonly controllerEfficiency: number;
  /** Shares lost: dirt, cable, unequal panels. [1] */
  readonly soilingShare: number;
  readonly wireShare: number;
  readonly mismatchShare: number;
  readonly mount: Mount;
  readonly batteryNominalV: number;
  /** Best voltage of a face's string at 25 C; without it a switch is taken to suit the battery (1.4 times its nominal voltage). */
  readonly panelVmpV?: number;
}

export interface RoofMoment {
  /** Where the vehicle points, clockwise from north; null stands for the mean over all headings. */
  readonly headingDeg: number | null;
  readonly airC: number;
  /** Over the roof, the wind of the road included: windOnRoofMs. */
  readonly windMs: number;
  readonly directBlocked: number;
  readonly diffuseBlocked: number;
  readonly albedo: number;
}

export interface RoofModels {
  readonly sky: SkyModel;
  readonly glass: GlassModel;
}
export const ROOF_MODELS: RoofModels = { sky: skyPerez, glass: glassPhysical };

export const MOST_FACES = 16;

/**
 * A roof that nobody has described: guesses, to be replaced by what is typed or learned. Cable 2 %, and under mismatch unequal panels
 * 2 %, first light 1.5 %, rating 1 % and plugs 0.5 %: the loss table of A. P. Dobos (2014), NREL/TP-6A20-62641, from memory.
 * Controllers: common practice, no source.
 */
export const ROOF_GUESS = {
  controllerEfficiency: { trackerPerFace: 0.95, oneTracker: 0.95, series: 0.98 },
  wireShare: 0.02,
  mismatchShare: 0.05,
  mount: MOUNT.overRoof,
  gammaPerC: -0.004,
} as const;

/** Wind over a moving roof: road speed and wind at right angles, the mean of a wind from anywhere. [m/s] */
export const windOnRoofMs = (windMs: number, speedKmh: number): number => Math.hypot(windMs, speedKmh / 3.6);

/** Share of light lost per day without wiping. [1/day] */
export const DUST_PER_DAY = {
  /** Rain or grass around; common practice, no source. */
  clean: 0.001,
  /** Dry season in a dusty valley: 29.8 % in five months; H. Paudyal and S. R. Shakya (2016), Solar Energy 135, 103, from memory. */
  road: 0.0023,
  /** Dust storms, brick kilns, unpaved streets: 0.4 to 0.6 % a day; common practice, no source. */
  heavy: 0.005,
} as const;
export type DustClass = keyof typeof DUST_PER_DAY;

/** Share of light that dirt takes, days after the last wipe or good rain. [1] Grows ever slower; 0 when just wiped. */
export const soilingShare = (daysSinceWiped: number, perDay: number = DUST_PER_DAY.road): number =>
  1 - Math.exp(-perDay * Math.max(0, daysSinceWiped));
