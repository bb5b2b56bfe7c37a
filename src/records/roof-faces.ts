import { guessesIn } from "./guesses.js";
import type { RoofFaceRecord, Vehicle } from "./vehicle.js";

/** Faces that people fit: lying flat, or one of two sides that lean outwards. */
export type FaceShape = "flat" | "left" | "right" | "front" | "back";
const SIDE_DEG: Readonly<Record<FaceShape, number>> = { flat: 0, front: 0, right: 90, back: 180, left: 270 };
const LEAN_DEG = 12; // common practice, no source
const GUESSED_W = 160; // one panel that fits a small roof; common practice, no source

/** The vehicle with one more face; all of its figures are guesses until somebody types them. */
export function withFace(vehicle: Vehicle, shape: FaceShape, name: string): Vehicle {
  const last = vehicle.roof.faces.at(-1);
  const face: RoofFaceRecord = {
    name,
    ratedW: last?.ratedW ?? GUESSED_W,
    tiltDeg: shape === "flat" ? 0 : LEAN_DEG,
    sideDeg: SIDE_DEG[shape],
    gammaPerC: last?.gammaPerC ?? -0.004,
  };
  const n = vehicle.roof.faces.length;
  // the shape was chosen, so the side it faces is known; how far it leans is not
  const guesses = guessesIn(face, ["sideDeg"]).map((path) => `roof.faces.${n}.${path}`);
  return {
    ...vehicle,
    roof: { ...vehicle.roof, faces: [...vehicle.roof.faces, face] },
    guesses: [...vehicle.guesses, ...guesses],
  };
}

const FACE = "roof.faces.";

/** The vehicle without one face; the guesses of the faces behind it move up with them. */
export function withoutFace(vehicle: Vehicle, n: number): Vehicle {
  const guesses = vehicle.guesses.flatMap((path) => {
    if (!path.startsWith(FACE)) return [path];
    const [index = "", ...rest] = path.slice(FACE.length).split(".");
    const at = Number(index);
    if (at === n) return [];
    return [at > n ? [`${FACE}${at - 1}`, ...rest].join(".") : path];
  });
  return {
    ...vehicle,
    roof: { ...vehicle.roof, faces: vehicle.roof.faces.filter((_, at) => at !== n) },
    guesses,
  };
}
