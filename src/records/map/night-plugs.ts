import type { NightRecord, Socket, Vehicle } from "../index.js";
import type { Plug } from "./day.js";

/** The slots of a vehicle as its day's forecast takes them: W into the battery side, power cuts left out. */
export function plugsOf(
  vehicle: Vehicle,
  nights: readonly NightRecord[],
  given: {
    readonly sockets: readonly Socket[];
    readonly cuts: readonly { readonly fromUtcMs: number; readonly toUtcMs: number }[];
  },
): Plug[] {
  const { ratedW, efficiency } = vehicle.charger;
  return nights.flatMap(({ sessions, events }) => {
    if (events.some((event) => event.kind === "chargerDead" && event.vehicleId === vehicle.id)) return [];
    const lost = events.flatMap((event) => (event.kind === "supplyLost" ? [event] : []));
    return sessions
      .filter((session) => session.vehicleId === vehicle.id)
      .flatMap((session) => {
        const socket = given.sockets.find(({ id }) => id === session.socketId);
        const chargerW = Math.min(ratedW, (socket?.limitKw ?? Number.POSITIVE_INFINITY) * 1000 * efficiency);
        return without(session.startUtcMs, session.stopUtcMs, [...given.cuts, ...lost]).map((span) => ({
          ...span,
          chargerW,
        }));
      });
  });
}

interface Span {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
}
function without(fromUtcMs: number, toUtcMs: number, cuts: readonly Span[]): Span[] {
  const within = cuts
    .filter((cut) => cut.toUtcMs > fromUtcMs && cut.fromUtcMs < toUtcMs)
    .sort((a, b) => a.fromUtcMs - b.fromUtcMs);
  const spans: Span[] = [];
  let at = fromUtcMs;
  for (const cut of within) {
    if (cut.fromUtcMs > at) spans.push({ fromUtcMs: at, toUtcMs: cut.fromUtcMs });
    at = Math.max(at, cut.toUtcMs);
  }
  if (at < toUtcMs) spans.push({ fromUtcMs: at, toUtcMs });
  return spans;
}
