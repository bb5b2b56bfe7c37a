const OPEN_OVER_BEST = 1.22; // open-circuit over best voltage of silicon cells, the middle of printed panel data; common practice
const KNEE = 0.0872; // puts the highest power of the curve below at 1
const AT_BEST = 1 - Math.exp((1 - OPEN_OVER_BEST) / KNEE);

/**
 * Power of a panel held at a voltage, over its best power; voltage as a share of the best one. [1]
 * Diode curve with the open-circuit voltage at 1.22 of the best; 1 at 1, straight through 0 below, 0 above the open circuit.
 */
export function curveShare(voltage: number): number {
  const share = (voltage * (1 - Math.exp((voltage - OPEN_OVER_BEST) / KNEE))) / AT_BEST;
  return Math.max(share, 0);
}
