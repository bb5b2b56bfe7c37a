import { SEA_LEVEL_PA } from "./air.js";
import type { Light } from "./types.js";

export interface BirdSky {
  readonly zenithDeg: number;
  readonly pressurePa: number;
  readonly dniExtraWm2: number;
  /** Precipitable water. */
  readonly waterCm: number;
  /** Aerosol optical depth at 380 and 500 nm. */
  readonly aod380: number;
  readonly aod500: number;
}

const OZONE_CM = 0.3;
const FORWARD = 0.85; // share of the scattered light that goes on toward the ground
const ALBEDO = 0.2;

/**
 * Light of a cloudless sky, a second opinion beside `clearSky`. [W/m2] Ozone 0.3 cm, albedo 0.2; sun above 2 degrees.
 * Source: R. E. Bird and R. L. Hulstrom (1981), SERI/TR-642-761, with the air mass of F. Kasten (1966).
 */
export function clearSkyBird(sky: BirdSky): Light {
  const cosZenith = Math.cos((sky.zenithDeg * Math.PI) / 180);
  if (!(cosZenith > 0)) return { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };
  const mass = 1 / (cosZenith + 0.15 * (93.885 - sky.zenithDeg) ** -1.253);
  const pressed = (mass * sky.pressurePa) / SEA_LEVEL_PA;
  const rayleigh = Math.exp(-0.0903 * pressed ** 0.84 * (1 + pressed - pressed ** 1.01));
  const o = OZONE_CM * mass;
  const ozone = 1 - 0.1611 * o * (1 + 139.48 * o) ** -0.3034 - (0.002715 * o) / (1 + 0.044 * o + 0.0003 * o * o);
  const gases = Math.exp(-0.0127 * pressed ** 0.26);
  const w = sky.waterCm * mass;
  const water = 1 - (2.4959 * w) / ((1 + 79.034 * w) ** 0.6828 + 6.385 * w);
  const depth = 0.2758 * sky.aod380 + 0.35 * sky.aod500;
  const aerosol = Math.exp(-(depth ** 0.873) * (1 + depth - depth ** 0.7088) * mass ** 0.9108);
  const absorbed = 1 - 0.1 * (1 - mass + mass ** 1.06) * (1 - aerosol);
  const skyAlbedo = 0.0685 + (1 - FORWARD) * (1 - aerosol / absorbed);
  const taken = ozone * gases * water;
  const dniWm2 = 0.9662 * sky.dniExtraWm2 * aerosol * taken * rayleigh;
  const scattered =
    (sky.dniExtraWm2 *
      cosZenith *
      0.79 *
      taken *
      absorbed *
      (0.5 * (1 - rayleigh) + FORWARD * (1 - aerosol / absorbed))) /
    (1 - mass + mass ** 1.02);
  const ghiWm2 = (dniWm2 * cosZenith + scattered) / (1 - ALBEDO * skyAlbedo);
  return { ghiWm2, dniWm2, dhiWm2: ghiWm2 - dniWm2 * cosZenith };
}
