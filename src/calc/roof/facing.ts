import type { SunBeam } from "../sun/index.js";
import type { GlassModel } from "./glass.js";
import type { RoofFace } from "./roof.js";

const RAD = Math.PI / 180;
/** Headings of a half turn away from the sun; left and right of it are alike, so eight do for sixteen. */
const HALF_TURN = Array.from({ length: 8 }, (_, k) => Math.cos(((k + 0.5) * Math.PI) / 8));

/**
 * How a face stands to the sun, without any light yet: mean over the headings of c, c g, c c and c c g, where c is the cosine of
 * incidence (0 when the sun is behind) and g what the glass passes. Power is of second order in the light, so these four give its
 * mean over all headings as exactly as the headings are dense; for a known heading they are simply its values.
 */
export interface Facing {
  cosTilt: number;
  sinTilt: number;
  c: number;
  cg: number;
  cc: number;
  ccg: number;
}
export const newFacing = (): Facing => ({ cosTilt: 1, sinTilt: 0, c: 0, cg: 0, cc: 0, ccg: 0 });

/** Cosine of incidence for a turn (cosine of the angle between face and sun on the compass); 0 when the sun is behind. */
export const facingCos = (sun: SunBeam, cosTilt: number, sinTilt: number, turn: number): number =>
  Math.max(0, cosTilt * sun.cosZenith + sinTilt * sun.sinZenith * turn);

export const turnOf = (sun: SunBeam, face: RoofFace, headingDeg: number): number =>
  Math.cos((sun.azimuthDeg - headingDeg - face.sideDeg) * RAD);

/** Fills in how a face stands to the sun; null heading for the mean over all. */
export function faceSun(of: RoofFace, sun: SunBeam, headingDeg: number | null, glass: GlassModel, into: Facing): void {
  into.cosTilt = Math.cos(of.tiltDeg * RAD);
  into.sinTilt = Math.sin(of.tiltDeg * RAD);
  into.c = into.cg = into.cc = into.ccg = 0;
  if (headingDeg === null && of.tiltDeg > 0) {
    for (const turn of HALF_TURN) add(into, facingCos(sun, into.cosTilt, into.sinTilt, turn), glass, 1 / 8);
    return;
  }
  const turn = headingDeg === null ? 0 : turnOf(sun, of, headingDeg);
  add(into, facingCos(sun, into.cosTilt, into.sinTilt, turn), glass, 1);
}

function add(into: Facing, c: number, glass: GlassModel, weight: number): void {
  if (c === 0) return;
  const through = weight * glass(c);
  into.c += weight * c;
  into.cg += through * c;
  into.cc += weight * c * c;
  into.ccg += through * c * c;
}
