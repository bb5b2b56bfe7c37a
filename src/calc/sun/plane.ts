import { toDeg, toRad } from "../../units/numbers.js";
import { airMassOf } from "./air.js";
import type { Into } from "./cloud.js";
import type { Light, SunInstant } from "./types.js";

/** What a plane needs to know of the sun. */
export type SunBeam = Pick<
  SunInstant,
  "cosZenith" | "sinZenith" | "zenithApparentDeg" | "azimuthDeg" | "dniExtraWm2" | "relativeAirMass"
>;
/** A plane: tilt 0 level .. 90 upright, azimuth of the side it leans to, clockwise from north. */
export interface Face {
  readonly tiltDeg: number;
  readonly azimuthDeg: number;
}

/** The diffuse sky in the parts that every face shares: a face's light is a sum of these and needs no new model. [W/m2] */
export interface SkyParts {
  /** Even over the sky: times (1 + cos tilt)/2. */
  readonly isotropicWm2: number;
  /** From around the sun: times max(cos aoi, 0). */
  readonly circumsolarWm2: number;
  /** From the rim of the sky: times sin tilt; may be below 0. */
  readonly horizonWm2: number;
}
/** A model of the diffuse sky, passed in where a choice is wanted. */
export type SkyModel = (sun: SunBeam, light: Light, into?: Into<SkyParts>) => SkyParts;

export interface Plane {
  readonly aoiDeg: number;
  readonly cosAoi: number;
  readonly directWm2: number;
  readonly isotropicWm2: number;
  readonly circumsolarWm2: number;
  readonly horizonWm2: number;
  readonly skyWm2: number;
  readonly groundWm2: number;
  readonly totalWm2: number;
}

/** The beam from angles, for callers that have no instant; below the horizon the air mass of the horizon is kept. */
export function beamOf(at: { zenithDeg: number; azimuthDeg: number; dniExtraWm2: number }): SunBeam {
  const zenith = toRad(at.zenithDeg);
  const cosZenith = Math.cos(zenith);
  return {
    cosZenith,
    sinZenith: Math.sin(zenith),
    zenithApparentDeg: at.zenithDeg,
    azimuthDeg: at.azimuthDeg,
    dniExtraWm2: at.dniExtraWm2,
    relativeAirMass: airMassOf(Math.max(0, cosZenith), Math.min(90, at.zenithDeg)),
  };
}

/** Cosine of the angle between the sun and the normal of a face. Below 0 the sun is behind it. */
export const cosIncidence = (sun: Pick<SunBeam, "cosZenith" | "sinZenith" | "azimuthDeg">, face: Face): number => {
  const tilt = toRad(face.tiltDeg);
  const turn = Math.cos(toRad(sun.azimuthDeg - face.azimuthDeg));
  return Math.cos(tilt) * sun.cosZenith + Math.sin(tilt) * sun.sinZenith * turn;
};

const newParts = (): Into<SkyParts> => ({ isotropicWm2: 0, circumsolarWm2: 0, horizonWm2: 0 });
const COS_89 = 0.01745;
const COS_85 = Math.cos(toRad(85));

/** Diffuse sky by J. E. Hay and J. A. Davies (1980): even sky plus the share of the beam that comes through, from around the sun. */
export const skyHayDavies: SkyModel = (sun, light, into = newParts()) => {
  const through = light.dniWm2 / sun.dniExtraWm2;
  into.isotropicWm2 = light.dhiWm2 * (1 - through);
  into.circumsolarWm2 = (light.dhiWm2 * through) / Math.max(sun.cosZenith, COS_89);
  into.horizonWm2 = 0;
  return into;
};

const CLEARNESS_EDGES = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2] as const;
// Table 6 of the paper, all sites: f11 f12 f13 f21 f22 f23 by class of clearness.
const PEREZ = Float64Array.of(
  ...[-0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
  ...[0.13, 0.683, -0.151, -0.019, 0.066, -0.029],
  ...[0.33, 0.487, -0.221, 0.055, -0.064, -0.026],
  ...[0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
  ...[0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
  ...[1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  ...[1.06, -1.6, -0.359, 0.264, -1.127, 0.131],
  ...[0.678, -0.327, -0.25, 0.156, -1.377, 0.251],
);

function clearnessClass(clearness: number): number {
  let place = 0;
  for (const edge of CLEARNESS_EDGES) if (clearness >= edge) place++;
  return place;
}

/**
 * Diffuse sky by R. Perez, P. Ineichen, R. Seals, J. Michalsky and R. Stewart (1990), Solar Energy 44, 271.
 * It jumps by a few W/m2 where the clearness passes from one class to the next.
 */
export const skyPerez: SkyModel = (sun, light, into = newParts()) => {
  const { dhiWm2 } = light;
  if (!(dhiWm2 > 0)) {
    into.isotropicWm2 = into.circumsolarWm2 = into.horizonWm2 = 0;
    return into;
  }
  const z = toRad(sun.zenithApparentDeg);
  const bent = 1.041 * z * z * z;
  const at = 6 * clearnessClass(((dhiWm2 + light.dniWm2) / dhiWm2 + bent) / (1 + bent));
  const brightness = (dhiWm2 * sun.relativeAirMass) / sun.dniExtraWm2;
  const f = (i: number): number => PEREZ[at + i] as number;
  const near = f(0) + f(1) * brightness + f(2) * z;
  const f1 = Math.max(near, 0);
  into.isotropicWm2 = dhiWm2 * (1 - f1);
  into.circumsolarWm2 = (dhiWm2 * f1) / Math.max(sun.cosZenith, COS_85);
  into.horizonWm2 = dhiWm2 * (f(3) + f(4) * brightness + f(5) * z);
  return into;
};

/** Light on a face from the sky parts of a model. [W/m2] Albedo: share of the light that the ground throws back. */
function onto(sun: SunBeam, light: Light, face: Face, albedo: number, sky: SkyModel): Plane {
  const parts = sky(sun, light);
  const cosAoi = cosIncidence(sun, face);
  const facing = Math.max(0, cosAoi);
  const tilt = toRad(face.tiltDeg);
  const directWm2 = light.dniWm2 * facing;
  const isotropicWm2 = (parts.isotropicWm2 * (1 + Math.cos(tilt))) / 2;
  const circumsolarWm2 = parts.circumsolarWm2 * facing;
  const horizonWm2 = parts.horizonWm2 * Math.sin(tilt);
  const skyWm2 = Math.max(0, isotropicWm2 + circumsolarWm2 + horizonWm2);
  const groundWm2 = (light.ghiWm2 * albedo * (1 - Math.cos(tilt))) / 2;
  return {
    aoiDeg: toDeg(Math.acos(Math.min(1, Math.max(-1, cosAoi)))),
    cosAoi,
    directWm2,
    isotropicWm2,
    circumsolarWm2,
    horizonWm2,
    skyWm2,
    groundWm2,
    totalWm2: directWm2 + skyWm2 + groundWm2,
  };
}

/** How light falls onto a face: a model that is passed in. */
export type PlaneModel = (sun: SunBeam, light: Light, face: Face, albedo: number) => Plane;
export const planePerez: PlaneModel = (sun, light, face, albedo) => onto(sun, light, face, albedo, skyPerez);
export const planeHayDavies: PlaneModel = (sun, light, face, albedo) => onto(sun, light, face, albedo, skyHayDavies);

/** Share of light that the ground throws back. [1] T. R. Oke, Boundary Layer Climates (1987), table 1.1, middles of its ranges, from memory. */
export const ALBEDO = { asphalt: 0.1, earth: 0.2, grass: 0.2, drySand: 0.35, concrete: 0.3, snow: 0.7 } as const;
export type GroundClass = keyof typeof ALBEDO;
