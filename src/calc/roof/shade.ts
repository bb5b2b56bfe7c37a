/** Shares of the light taken away: of the beam, and of sky and ground. [1] */
export interface Shade {
  readonly directBlocked: number;
  readonly diffuseBlocked: number;
}
export interface ShadeClass extends Shade {
  /** Published or usual band of the loss of all light, lowest and highest. [1] */
  readonly lossBand: readonly [number, number];
}

/**
 * A stop by its shade, for the hours it lasts; the user's own entry or the learned factor of the roof replaces it.
 * deep: trees in leaf pass 1 to 5 % of the beam; J. Konarska et al. (2014), Theoretical and Applied Climatology 117, 363, from memory.
 * The other figures are common practice, no source.
 */
export const SHADE = {
  open: { directBlocked: 0, diffuseBlocked: 0.03, lossBand: [0, 0.05] },
  part: { directBlocked: 0.5, diffuseBlocked: 0.3, lossBand: [0.25, 0.65] },
  deep: { directBlocked: 0.95, diffuseBlocked: 0.6, lossBand: [0.7, 0.95] },
  roofed: { directBlocked: 1, diffuseBlocked: 0.97, lossBand: [0.95, 1] },
} as const satisfies Record<string, ShadeClass>;
export type ShadeName = keyof typeof SHADE;

/**
 * Driving, by what stands along the road. The loss of all light lies in the middle of the band in the table of vehicle roof losses:
 * suburb 0.10-0.15, town 0.20-0.30, narrow streets or trees 0.30-0.50 (common practice); a fixed 0.27 over the year in a TU Delft and
 * TNO model; about 0.70 of the light reaching roofs on the road in the Miyazaki study. Narrow walls leave about half the sky.
 */
export const SURROUNDINGS = {
  openRoad: { directBlocked: 0.05, diffuseBlocked: 0.05, lossBand: [0, 0.1] },
  suburb: { directBlocked: 0.13, diffuseBlocked: 0.11, lossBand: [0.1, 0.15] },
  town: { directBlocked: 0.27, diffuseBlocked: 0.2, lossBand: [0.2, 0.3] },
  narrow: { directBlocked: 0.42, diffuseBlocked: 0.36, lossBand: [0.3, 0.5] },
} as const satisfies Record<string, ShadeClass>;
export type SurroundingsName = keyof typeof SURROUNDINGS;
