import { type Into, type Light, lightUnder, type SkyParts, type SunBeam, type SunInstant } from "../sun/index.js";
import { curveShare } from "./curve.js";
import { type Facing, faceSun, newFacing } from "./facing.js";
import { MOST_FACES, ROOF_MODELS, type Roof, type RoofFace, type RoofModels, type RoofMoment } from "./roof.js";

// Room for the answers of one call: the hot loop asks millions of times and should leave nothing behind.
const parts: Into<SkyParts> = { isotropicWm2: 0, circumsolarWm2: 0, horizonWm2: 0 };
const light: Into<Light> = { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };
const facings: readonly Facing[] = Array.from({ length: MOST_FACES }, newFacing);
const one = newFacing();
const faceW = new Float64Array(MOST_FACES);
const faceV = new Float64Array(MOST_FACES);
/** Light after shade: across the beam, per cosine of incidence from around the sun, and from the rest of sky and ground. */
const shaded = { beam: 0, around: 0, rest: 0 };
const state = { w: 0, cellC: 0, effectiveWm2: 0 };

/** Puts the light that is left on a face into `shaded`. */
function shade(facing: Facing, sky: Light, at: RoofMoment): void {
  const even = (parts.isotropicWm2 * (1 + facing.cosTilt)) / 2 + parts.horizonWm2 * facing.sinTilt;
  const some = even + parts.circumsolarWm2 * facing.c > 0; // the model of the sky can fall below nothing on a steep face
  const open = 1 - at.diffuseBlocked;
  const ground = (sky.ghiWm2 * at.albedo * (1 - facing.cosTilt)) / 2;
  shaded.beam = sky.dniWm2 * (1 - at.directBlocked);
  shaded.around = some ? parts.circumsolarWm2 * open : 0;
  shaded.rest = (some ? even + ground : ground) * open;
}

const heatLossWm2K = (roof: Roof, at: RoofMoment): number =>
  roof.mount.stillWm2K + roof.mount.perWindWm2KPerMs * at.windMs;

/**
 * Mean power of a face over its headings: rated (1 + gamma (cell - 25)) times the light behind the glass, where the cell is hotter than
 * the air by the light before the glass over the loss of heat. Beam, around and rest are multiplied out, so only means of c stand in it.
 */
function aloneW(face: RoofFace, facing: Facing, roof: Roof, at: RoofMoment): number {
  const { beam, around, rest } = shaded;
  const before = beam + around;
  const effective = beam * facing.cg + around * facing.c + rest;
  const squared =
    before * (beam * facing.ccg + around * facing.cc) +
    rest * (beam * facing.cg + (around + before) * facing.c) +
    rest * rest;
  const cool = effective * (1 + face.gammaPerC * (at.airC - 25));
  return Math.max(0, (face.ratedW / 1000) * (cool + (face.gammaPerC * squared) / heatLossWm2K(roof, at)));
}

/** Power, cell temperature and light behind the glass for a known heading, into `state`. */
function measure(face: RoofFace, facing: Facing, roof: Roof, at: RoofMoment): void {
  const { beam, around, rest } = shaded;
  state.w = aloneW(face, facing, roof, at);
  state.effectiveWm2 = beam * facing.cg + around * facing.c + rest;
  state.cellC = at.airC + ((beam + around) * facing.c + rest) / heatLossWm2K(roof, at);
}

/** Best voltage of a string over that at 25 C: falls with heat as its power does, and by 2.5 % for light e times dimmer. */
const voltageShare = (face: RoofFace): number =>
  (1 + face.gammaPerC * (state.cellC - 25)) * (1 + 0.025 * Math.log(Math.max(1, state.effectiveWm2) / 1000));

interface Scene {
  readonly sun: SunBeam;
  readonly sky: Light;
  readonly roof: Roof;
  readonly at: RoofMoment;
  readonly models: RoofModels;
}

/**
 * All faces side by side at one voltage: `volts` as a share of the best one at 25 C, or null where a tracker finds the voltage that
 * the power of the faces leans to.
 */
function togetherW({ sun, sky, roof, at, models }: Scene, headingDeg: number, volts: number | null): number {
  let w = 0;
  let leaning = 0;
  for (let i = 0; i < roof.faces.length; i++) {
    const face = roof.faces[i] as RoofFace;
    faceSun(face, sun, headingDeg, models.glass, one);
    shade(one, sky, at);
    measure(face, one, roof, at);
    faceW[i] = state.w;
    faceV[i] = voltageShare(face);
    w += state.w;
    leaning += state.w * (faceV[i] as number);
  }
  const commonV = volts ?? (w > 0 ? leaning / w : 1);
  let sum = 0;
  for (let i = 0; i < roof.faces.length; i++) {
    sum += (faceW[i] as number) * curveShare(commonV / (faceV[i] as number));
  }
  return sum;
}

const CHARGING_OVER_NOMINAL = 1.08; // between a resting and a full set, either chemistry; common practice, no source
const SUITED_VMP_OVER_NOMINAL = 1.4; // as 36 cells on a 12 V block; common practice, no source
const COMPASS = Array.from({ length: 8 }, (_, k) => 22.5 + 45 * k);

function linkedW(scene: Scene): number {
  const { roof, at } = scene;
  const bestV = roof.panelVmpV ?? SUITED_VMP_OVER_NOMINAL * roof.batteryNominalV;
  const volts = roof.link === "series" ? (CHARGING_OVER_NOMINAL * roof.batteryNominalV) / bestV : null;
  if (at.headingDeg !== null) return togetherW(scene, at.headingDeg, volts);
  let sum = 0;
  for (const away of COMPASS) sum += togetherW(scene, scene.sun.azimuthDeg + away, volts);
  return sum / COMPASS.length;
}

function faceAll({ sun, roof, at, models }: Scene): void {
  for (let i = 0; i < roof.faces.length; i++)
    faceSun(roof.faces[i] as RoofFace, sun, at.headingDeg, models.glass, facings[i] as Facing);
}

/** Sum of the faces, each at its own best; how they stand to the sun is in `facings` already. */
function eachW({ sky, roof, at }: Scene): number {
  let sum = 0;
  for (let i = 0; i < roof.faces.length; i++) {
    const facing = facings[i] as Facing;
    shade(facing, sky, at);
    sum += aloneW(roof.faces[i] as RoofFace, facing, roof, at);
  }
  return sum;
}

function sceneW(scene: Scene, isFaced: boolean): number {
  scene.models.sky(scene.sun, scene.sky, parts);
  if (scene.roof.link !== "trackerPerFace") return linkedW(scene);
  if (!isFaced) faceAll(scene);
  return eachW(scene);
}

/** DC power of the faces at their panels, before dirt, cable and controller. [W] */
export const panelsW = (
  sun: SunBeam,
  sky: Light,
  roof: Roof,
  at: RoofMoment,
  models: RoofModels = ROOF_MODELS,
): number => sceneW({ sun, sky, roof, at, models }, false);

const keptShare = (roof: Roof): number =>
  (1 - roof.soilingShare) * (1 - roof.mismatchShare) * (1 - roof.wireShare) * roof.controllerEfficiency;

/**
 * Power from the roof into the battery bus, behind the charge controller. [W] 0 and more; the sun is up (sunInstant gave a value).
 * Dirt dims the power, not the heat; the panel is in steady state with its light and wind.
 */
export const roofW = (sun: SunBeam, sky: Light, roof: Roof, at: RoofMoment, models: RoofModels = ROOF_MODELS): number =>
  panelsW(sun, sky, roof, at, models) * keptShare(roof);

/**
 * What roofW gives under each whole cover, 0 to 8 oktas, into `into` (9 places): a day of many drawn skies then only looks it up. [W]
 */
export function roofByOktaW(
  sun: SunInstant,
  roof: Roof,
  at: RoofMoment,
  into: Float64Array = new Float64Array(9),
  models: RoofModels = ROOF_MODELS,
): Float64Array {
  const scene: Scene = { sun, sky: light, roof, at, models };
  const kept = keptShare(roof);
  faceAll(scene);
  for (let okta = 0; okta <= 8; okta++) {
    lightUnder(sun, okta, light);
    into[okta] = sceneW(scene, true) * kept;
  }
  return into;
}
