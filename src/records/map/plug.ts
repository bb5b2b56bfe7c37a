import type { Socket, Vehicle } from "../index.js";

/** Kinds of plug are told apart as people write them, whatever the case. */
export const plugKind = (text: string): string => text.trim().toLowerCase();

/** Most W into the battery side from the best socket of the vehicle's yard that its plug fits; the charger's own where none is written down. */
export function bestChargerW({ yardId, charger }: Vehicle, sockets: readonly Socket[]): number {
  const fits = sockets.filter((socket) => socket.yardId === yardId && plugKind(socket.plug) === plugKind(charger.plug));
  if (fits.length === 0) return charger.ratedW;
  return Math.min(charger.ratedW, Math.max(...fits.map(({ limitKw }) => limitKw)) * 1000 * charger.efficiency);
}
