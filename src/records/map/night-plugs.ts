import type { NightRecord, Socket, Vehicle } from "../index.js";
import type { NightSession } from "../night.js";
import type { Plug } from "./day.js";
import { type Span, spanWithout } from "./span.js";

/**
 * The slots of a vehicle as its day's forecast takes them: W into the battery side, power cuts left out, from when and until when the plug was
 * ticked in and out; a slot that nobody ticked says so.
 */
export function plugsOf(
  vehicle: Vehicle,
  nights: readonly NightRecord[],
  given: {
    readonly sockets: readonly Socket[];
    readonly cuts: readonly { readonly fromUtcMs: number; readonly toUtcMs: number }[];
  },
): Plug[] {
  const { ratedW, efficiency } = vehicle.charger;
  return nights.flatMap(({ sessions, events, done }) => {
    if (events.some((event) => event.kind === "chargerDead" && event.vehicleId === vehicle.id)) return [];
    const lost = events.flatMap((event) => (event.kind === "supplyLost" ? [event] : []));
    return sessions
      .filter((session) => session.vehicleId === vehicle.id)
      .flatMap((session) => {
        const socket = given.sockets.find(({ id }) => id === session.socketId);
        const chargerW = Math.min(ratedW, (socket?.limitKw ?? Number.POSITIVE_INFINITY) * 1000 * efficiency);
        const ticks = done.filter(({ stayId }) => stayId === session.stayId);
        const { fromUtcMs, toUtcMs, unticked } = heldTo(session, ticks);
        return spanWithout({ fromUtcMs, toUtcMs }, [...given.cuts, ...lost]).map((span) => ({
          ...span,
          chargerW,
          ...(unticked ? { unticked } : {}),
        }));
      });
  });
}

/** A tick within the slot is made when the plug goes in; one after it, at the end of the night, for all of it. */
function heldTo(session: NightSession, ticks: NightRecord["done"]): Span & { readonly unticked: boolean } {
  const { startUtcMs, stopUtcMs } = session;
  const pluggedIn = ticks.find(({ what }) => what === "pluggedIn");
  const unplugged = ticks.find(({ what }) => what === "unplugged");
  const late = pluggedIn && pluggedIn.atUtcMs < stopUtcMs ? pluggedIn.atUtcMs : startUtcMs;
  return {
    fromUtcMs: Math.max(startUtcMs, late),
    toUtcMs: Math.max(late, Math.min(stopUtcMs, unplugged?.atUtcMs ?? stopUtcMs)),
    unticked: !pluggedIn && !unplugged,
  };
}
