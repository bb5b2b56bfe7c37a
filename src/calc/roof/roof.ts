import type { Into, Light, SkyModel, SkyParts, SunBeam } from "../sun/index.js";
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
 * Good figures for a roof that nobody has described: guesses, to be replaced by what is typed or learned. Tracker 0.96, wire 0.02 and
 * mismatch 0.02 as in A. P. Dobos (2014), NREL/TP-6A20-62641, tables 6 and 7; the switch loses only its own drop.
 */
export const ROOF_GUESS = {
  controllerEfficiency: { trackerPerFace: 0.96, oneTracker: 0.96, series: 0.98 },
  wireShare: 0.02,
  mismatchShare: 0.02,
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

const RAD = Math.PI / 180;
const HALF_TURN = Array.from({ length: 8 }, (_, k) => Math.cos(((k + 0.5) * Math.PI) / 8));
const EIGHTH_TURN_DEG = 45;

interface Scene {
  readonly sun: SunBeam;
  readonly light: Light;
  readonly parts: SkyParts;
  readonly at: RoofMoment;
  readonly mount: Mount;
  readonly glass: GlassModel;
}

// Room for the answers of one call: the hot loop asks millions of times and should leave nothing behind.
const parts: Into<SkyParts> = { isotropicWm2: 0, circumsolarWm2: 0, horizonWm2: 0 };
const faceW = new Float64Array(MOST_FACES);
const faceV = new Float64Array(MOST_FACES);
const last = { w: 0, effectiveWm2: 0, cellC: 0, planeWm2: 0 };

/** Light on a face after shade, cell temperature and DC power; the answer stands in `last`. */
function measure(face: RoofFace, scene: Scene, cosTilt: number, sinTilt: number, turn: number): void {
  const { light, at, mount } = scene;
  const cosAoi = cosTilt * scene.sun.cosZenith + sinTilt * scene.sun.sinZenith * turn;
  const facing = Math.max(cosAoi, 0);
  const direct = light.dniWm2 * facing * (1 - at.directBlocked);
  const sky =
    (scene.parts.isotropicWm2 * (1 + cosTilt)) / 2 +
    scene.parts.circumsolarWm2 * facing +
    scene.parts.horizonWm2 * sinTilt;
  const ground = (light.ghiWm2 * at.albedo * (1 - cosTilt)) / 2;
  const soft = (Math.max(sky, 0) + ground) * (1 - at.diffuseBlocked);
  last.planeWm2 = direct + soft;
  last.effectiveWm2 = direct > 0 ? direct * scene.glass(facing) + soft : soft;
  last.cellC = at.airC + last.planeWm2 / (mount.stillWm2K + mount.perWindWm2KPerMs * at.windMs);
  const w = (last.effectiveWm2 / 1000) * face.ratedW * (1 + face.gammaPerC * (last.cellC - 25));
  last.w = Math.max(w, 0);
}

/** Power of one face by itself, the mean over all headings when there is none. [W DC] */
function aloneW(face: RoofFace, scene: Scene): number {
  const cosTilt = Math.cos(face.tiltDeg * RAD);
  const sinTilt = Math.sin(face.tiltDeg * RAD);
  const { headingDeg } = scene.at;
  if (headingDeg !== null || sinTilt === 0) {
    const turn = sinTilt === 0 ? 0 : Math.cos((scene.sun.azimuthDeg - (headingDeg ?? 0) - face.sideDeg) * RAD);
    measure(face, scene, cosTilt, sinTilt, turn);
    return last.w;
  }
  let sum = 0; // left and right of the sun are alike, so eight headings of a half turn do for sixteen
  for (const turn of HALF_TURN) {
    measure(face, scene, cosTilt, sinTilt, turn);
    sum += last.w;
  }
  return sum / HALF_TURN.length;
}

/** Best voltage of a string over that at 25 C: falls with heat as its power does, and by 2.5 % for light e times dimmer. */
const voltageShare = (face: RoofFace): number =>
  (1 + face.gammaPerC * (last.cellC - 25)) * (1 + 0.025 * Math.log(Math.max(1, last.effectiveWm2) / 1000));

const OPEN_OVER_BEST = 1.22; // open-circuit over best voltage of silicon cells, the middle of printed panel data; common practice
const KNEE = 0.0872; // puts the highest power of the curve below at 1
const AT_BEST = 1 - Math.exp((1 - OPEN_OVER_BEST) / KNEE);

/**
 * Power of a panel held at a voltage, over its best power; voltage as a share of the best one. [1]
 * Diode curve with the open-circuit voltage at 1.22 of the best; 1 at 1, straight through 0 below, 0 above the open circuit.
 */
export function curveShare(voltage: number): number {
  const share = (voltage * (1 - Math.exp((voltage - OPEN_OVER_BEST) / KNEE))) / AT_BEST;
  return Math.max(share, 0);
}

/** All faces at one voltage: `heldV` as a share of the best at 25 C, or the voltage that the power of the faces leans to. */
function togetherW(roof: Roof, scene: Scene, headingDeg: number, heldV: number | null): number {
  let w = 0;
  let leaning = 0;
  roof.faces.forEach((face, i) => {
    const turn = Math.cos((scene.sun.azimuthDeg - headingDeg - face.sideDeg) * RAD);
    measure(face, scene, Math.cos(face.tiltDeg * RAD), Math.sin(face.tiltDeg * RAD), turn);
    faceW[i] = last.w;
    faceV[i] = voltageShare(face);
    w += last.w;
    leaning += last.w * (faceV[i] ?? 1);
  });
  const commonV = heldV ?? (w > 0 ? leaning / w : 1);
  let sum = 0;
  for (let i = 0; i < roof.faces.length; i++) sum += (faceW[i] ?? 0) * curveShare(commonV / (faceV[i] ?? 1));
  return sum;
}

const CHARGING_OVER_NOMINAL = 1.08; // between a resting and a full set, either chemistry; common practice, no source
const SUITED_VMP_OVER_NOMINAL = 1.4; // as 36 cells on a 12 V block; common practice, no source

function linkedW(roof: Roof, scene: Scene): number {
  const bestV = roof.panelVmpV ?? SUITED_VMP_OVER_NOMINAL * roof.batteryNominalV;
  const heldV = roof.link === "series" ? (CHARGING_OVER_NOMINAL * roof.batteryNominalV) / bestV : null;
  if (scene.at.headingDeg !== null) return togetherW(roof, scene, scene.at.headingDeg, heldV);
  let sum = 0;
  for (let k = 0; k < 8; k++) sum += togetherW(roof, scene, scene.sun.azimuthDeg + (k + 0.5) * EIGHTH_TURN_DEG, heldV);
  return sum / 8;
}

/** DC power of the faces at their panels, before dirt, cable and controller. [W] */
export function panelsW(
  sun: SunBeam,
  light: Light,
  roof: Roof,
  at: RoofMoment,
  models: RoofModels = ROOF_MODELS,
): number {
  const scene: Scene = { sun, light, parts: models.sky(sun, light, parts), at, mount: roof.mount, glass: models.glass };
  if (roof.link !== "trackerPerFace") return linkedW(roof, scene);
  let sum = 0;
  for (const face of roof.faces) sum += aloneW(face, scene);
  return sum;
}

/**
 * Power from the roof into the battery bus, behind the charge controller. [W] 0 and more; the sun is up (sunInstant gave a value).
 * Dirt dims the power, not the heat; the panel is in steady state with its light and wind.
 */
export function roofW(
  sun: SunBeam,
  light: Light,
  roof: Roof,
  at: RoofMoment,
  models: RoofModels = ROOF_MODELS,
): number {
  const kept = (1 - roof.soilingShare) * (1 - roof.mismatchShare) * (1 - roof.wireShare);
  return panelsW(sun, light, roof, at, models) * kept * roof.controllerEfficiency;
}
