/** How a panel gives its heat away: still air and each m/s of wind. [W/(m2 K), W/(m2 K) per m/s] */
export interface Mount {
  readonly stillWm2K: number;
  readonly perWindWm2KPerMs: number;
}

/**
 * openRack: air free behind the panel; Faiman (2008).
 * overRoof: a hand's width of air above a roof: about 5 C hotter than the rack at 1000 W/m2 and 2 m/s; common practice, no source.
 * flush: lying on the roof; straight line through the close-roof mount of D. L. King, W. E. Boyson and J. A. Kratochvil (2004),
 * SAND2004-3535, table 1 (a = -2.98, b = -0.0471), at 0 and 5 m/s.
 */
export const MOUNT = {
  openRack: { stillWm2K: 25, perWindWm2KPerMs: 6.84 },
  overRoof: { stillWm2K: 21, perWindWm2KPerMs: 5.7 },
  flush: { stillWm2K: 19.7, perWindWm2KPerMs: 1.05 },
} as const satisfies Record<string, Mount>;

/**
 * Temperature of a panel in steady sun and wind. [C] Plane 0..1400 W/m2 before the glass, wind 0..20 m/s at the panel.
 * Source: D. Faiman (2008), Progress in Photovoltaics 16, 307.
 */
export const panelC = (
  at: { readonly planeWm2: number; readonly airC: number; readonly windMs: number },
  mount: Mount = MOUNT.openRack,
): number => at.airC + at.planeWm2 / (mount.stillWm2K + mount.perWindWm2KPerMs * at.windMs);

/**
 * Power of a panel, without any loss behind it. [W] Rated at 1000 W/m2 and 25 C; gamma about -0.003..-0.005 per C.
 * Source: A. P. Dobos (2014), NREL/TP-6A20-62641, equation 8.
 */
export const panelDcW = (of: {
  readonly effectiveWm2: number;
  readonly cellC: number;
  readonly ratedW: number;
  readonly gammaPerC: number;
}): number => (of.effectiveWm2 / 1000) * of.ratedW * (1 + of.gammaPerC * (of.cellC - 25));
