/** Share of the beam that passes the cover glass, over that of a beam straight on, by the cosine of incidence. [1] */
export type GlassModel = (cosAoi: number) => number;

const INDEX = 1.526;
const EXTINCTION = 4 * 0.002; // 4 1/m of ordinary glass, 2 mm thick
const straight = Math.exp(-EXTINCTION) * (1 - ((INDEX - 1) / (INDEX + 1)) ** 2);

/**
 * Fresnel reflection and absorption of one sheet of glass; 0 from 90 degrees on.
 * Source: W. De Soto, S. A. Klein and W. A. Beckman (2006), Solar Energy 80, 78, with Fresnel's equations written in cosines.
 */
export const glassPhysical: GlassModel = (cosAoi) => {
  if (!(cosAoi > 0)) return 0;
  const inside = Math.sqrt(1 - (1 - cosAoi * cosAoi) / (INDEX * INDEX));
  const across = (cosAoi - INDEX * inside) / (cosAoi + INDEX * inside);
  const along = (INDEX * cosAoi - inside) / (INDEX * cosAoi + inside);
  return (Math.exp(-EXTINCTION / inside) * (1 - (across * across + along * along) / 2)) / straight;
};

/** One-parameter form with b0 = 0.05; 0 from 90 degrees on. Source: ASHRAE standard 93-77, after A. F. Souka and H. H. Safwat (1966). */
export const glassAshrae: GlassModel = (cosAoi) => {
  const share = cosAoi > 0 ? 1 - 0.05 * (1 / cosAoi - 1) : 0;
  return Math.max(share, 0);
};
