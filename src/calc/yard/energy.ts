import type { AcceptancePoint } from "./night.js";

/** Below this a battery counts as full, and a target as reached. */
export const TINY_KWH = 1e-6;

/** Halves go up; the small number keeps an exact half from falling either way. */
export const toCents = (value: number): number => Math.floor(value * 100 + 0.5 + TINY_KWH);

/** The straight pieces kW = `fromKw[k]` - `fallPerKwh[k]` x level of a concave acceptance curve: the curve is the least of them. */
export interface Acceptance {
  readonly fromKw: Float64Array;
  readonly fallPerKwh: Float64Array;
}

export function acceptanceOf(points: readonly AcceptancePoint[]): Acceptance {
  const fromKw = new Float64Array(Math.max(1, points.length - 1));
  const fallPerKwh = new Float64Array(fromKw.length);
  for (let k = 0; k + 1 < points.length; k++) {
    const low = points[k] as AcceptancePoint;
    const high = points[k + 1] as AcceptancePoint;
    const fall = (low.kw - high.kw) / (high.levelKwh - low.levelKwh);
    fallPerKwh[k] = fall;
    fromKw[k] = low.kw + fall * low.levelKwh;
  }
  return { fromKw, fallPerKwh };
}

/**
 * Units that go into a battery in one slot: the most that charger and socket (`ceilingKw`), the room left, and the acceptance at the
 * mean level of the slot allow. With kW = A - s x the mean-level rule reads g <= D (A - s x) / (1 + D s / 2) for every piece.
 */
export function slotKwh(
  levelKwh: number,
  fullKwh: number,
  ceilingKw: number,
  curve: Acceptance,
  hours: number,
): number {
  let most = Math.min(ceilingKw * hours, fullKwh - levelKwh);
  if (most <= 0) return 0;
  const { fromKw, fallPerKwh } = curve;
  for (let k = 0; k < fromKw.length; k++) {
    const fall = fallPerKwh[k] as number;
    const divisor = 1 + (hours * fall) / 2;
    if (divisor <= 0) continue; // rises so steeply that the piece never binds
    const allowed = (hours * ((fromKw[k] as number) - fall * levelKwh)) / divisor;
    if (allowed < most) most = allowed;
  }
  return Math.max(most, 0);
}
