/**
 * Farthest distance from the yard at which a vehicle must turn to come home, km.
 * `rangeKm`: what the charge above the reserve still carries; `outKm`: how far out it is now. Going on by x takes x there and outKm + x home,
 * together the range, so the turn lies at (rangeKm + outKm) / 2; 0 when even the way home is too far.
 */
export function turnBackKm(rangeKm: number, outKm: number): number {
  return rangeKm < outKm ? 0 : (rangeKm + outKm) / 2;
}
