import { SEA_LEVEL_PA } from "./air.js";
import type { Light } from "./types.js";

export interface SolisSky {
  readonly elevationApparentDeg: number;
  /** Aerosol optical depth at 700 nm, 0..0.45. */
  readonly aod700: number;
  /** Precipitable water, 0.2..10 cm. */
  readonly waterCm: number;
  readonly pressurePa: number;
  readonly dniExtraWm2: number;
}

/**
 * Light of a cloudless sky, a second opinion beside `clearSky`. [W/m2] Altitude enters through pressure only.
 * Source: P. Ineichen (2008), A broadband simplified version of the Solis clear sky model, Solar Energy 82, 758.
 */
export function clearSkySolis(sky: SolisSky): Light {
  const { aod700: a, waterCm: w } = sky;
  const up = Math.sin((Math.max(0, sky.elevationApparentDeg) * Math.PI) / 180);
  if (!(up > 0)) return { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };
  const lnW = Math.log(w);
  const lnP = Math.log(sky.pressurePa / SEA_LEVEL_PA);
  const i0 = sky.dniExtraWm2 * (0.12 * w ** 0.56 * a * a + 0.97 * w ** 0.032 * a + 1.08 * w ** 0.0051 + 0.071 * lnP);
  const beamDepth = (1.82 + 0.056 * lnW + 0.0071 * lnW * lnW) * a + 0.33 + 0.045 * lnW + 0.0096 * lnW * lnW;
  const globalDepth = (1.24 + 0.047 * lnW + 0.0061 * lnW * lnW) * a + 0.27 + 0.043 * lnW + 0.009 * lnW * lnW;
  const b = (0.00925 * a * a + 0.0148 * a - 0.0172) * lnW - 0.7565 * a * a + 0.5057 * a + 0.4557;
  const g = -0.0147 * lnW - 0.3079 * a * a + 0.2846 * a + 0.3798;
  const d = -0.337 * a * a + 0.63 * a + 0.116 + lnP / (18 + 152 * a);
  const through = (depth: number, power: number) => i0 * Math.exp(-depth / up ** power);
  return {
    ghiWm2: through(globalDepth + (0.0079 * w + 0.1) * lnP, g) * up,
    dniWm2: through(beamDepth + (0.0089 * w + 0.13) * lnP, b),
    dhiWm2: through(diffuseDepth(a, w, lnP), d),
  };
}

/** Thin and thicker aerosol have their own polynomials, which meet near 0.05. */
function diffuseDepth(a: number, w: number, lnP: number): number {
  const [d4, d3, d2, d1, d0] =
    a < 0.05
      ? [86 * w - 13_800, -3.11 * w + 79.4, -0.23 * w + 74.8, 0.092 * w - 8.86, 0.0042 * w + 3.12]
      : [-0.21 * w + 11.6, 0.27 * w - 20.7, -0.134 * w + 15.5, 0.0554 * w - 5.71, 0.0057 * w + 2.94];
  const pressure = a < 0.05 ? -0.83 * (1 + a) ** -17.2 : -0.71 * (1 + a) ** -15;
  return d0 + a * (d1 + a * (d2 + a * (d3 + a * d4))) + pressure * lnP;
}
