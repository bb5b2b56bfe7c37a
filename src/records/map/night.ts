import type { Night, Session, Socket as SocketPlace } from "../../calc/yard/night.js";
import { bad, good, type Outcome, type Problem } from "../../units/outcome.js";
import { isZone } from "../../units/zone.js";
import { nightId } from "../ids.js";
import { type NightCase, type StayAbout, staysOf } from "./night-stays.js";
import { nightWindowAt, roundedUp, SLOT_MINUTES, siteOf, socketsOf, staffOf, tariffOf } from "./night-yard.js";
import { plugKind } from "./plug.js";

export { type LevelFrom, NIGHT_DRAWS, type NightCase, type StayAbout } from "./night-stays.js";
export { nightWindowAt, nightWindowOf, SLOT_MS } from "./night-yard.js";

/** A yard's night ready to be planned, and what the plan does not know but screens say. */
export interface NightLayout {
  readonly night: Night;
  readonly date: string;
  readonly about: readonly StayAbout[];
  /** What stands in the way, each with its place; the rest is planned all the same. */
  readonly problems: readonly Problem[];
}

/** Fleet records as the plan's input; fails only where no night can be laid out at all. */
export function nightLayoutOf(given: NightCase, onShare: (share: number) => void = () => {}): Outcome<NightLayout> {
  const { yard } = given;
  if (!isZone(yard.zone)) return bad({ code: "zoneUnknown", where: "yard.zone", figures: { found: yard.zone } });
  const window = nightWindowAt(given.nowUtcMs, yard.zone);
  const events = given.followed?.events ?? [];
  const sockets = socketsOf(given.sockets, events);
  const { site, problems } = siteOf(yard, { window, sockets, events });
  const working = given.vehicles.filter((vehicle) => vehicle.status === "working");
  const shifts = byVehicle(given.shifts);
  const readings = byVehicle(given.readings);
  const hours = { window, cuts: site.cuts };
  const each = working.map((vehicle, i) => {
    onShare(i / working.length);
    return staysOf(vehicle, { ...given, shifts: shifts(vehicle.id), readings: readings(vehicle.id) }, hours);
  });
  const stays = each.flatMap((one) => one.stays);
  const published = publishedOf(given, sockets, new Set(stays.map((stay) => stay.id)));
  return good({
    date: window.date,
    night: {
      id: nightId(yard.id, window.date),
      title: yard.name,
      zone: yard.zone,
      startUtcMs: window.startUtcMs,
      slotMinutes: SLOT_MINUTES,
      slotCount: window.slotCount,
      site,
      staff: staffOf(yard, window),
      tariff: tariffOf(yard),
      sockets,
      stays,
      ...(published ? { published } : {}),
    },
    about: each.flatMap((one) => one.about),
    problems: [...problems, ...each.flatMap((one) => one.problems), ...plugProblems(given, sockets)],
  });
}

/** Looks up what belongs to a vehicle: each of a thousand must not search through the records of all. */
function byVehicle<T extends { readonly vehicleId: string }>(all: readonly T[]): (vehicleId: string) => readonly T[] {
  const of = new Map<string, T[]>();
  for (const one of all) {
    const held = of.get(one.vehicleId);
    if (held) held.push(one);
    else of.set(one.vehicleId, [one]);
  }
  return (vehicleId) => of.get(vehicleId) ?? [];
}

function publishedOf(
  { followed, nowUtcMs }: NightCase,
  sockets: readonly SocketPlace[],
  stays: ReadonlySet<string>,
): Night["published"] {
  if (!followed) return undefined;
  const held = new Set(sockets.map(({ id }) => id));
  const sessions = followed.sessions
    .filter((session) => stays.has(session.stayId) && held.has(session.socketId))
    .map(
      ({ stayId, socketId, plugUtcMs, startUtcMs, stopUtcMs, unplugUtcMs }): Session => ({
        stay: stayId,
        socket: socketId,
        plugUtcMs,
        startUtcMs,
        stopUtcMs,
        unplugUtcMs,
      }),
    );
  return { nowUtcMs: roundedUp(nowUtcMs), sessions };
}

/** Vehicles that no socket fits, and sockets that fit nobody. */
function plugProblems(given: NightCase, sockets: readonly SocketPlace[]): Problem[] {
  const there = new Set(sockets.map(({ plug }) => plug));
  const wanted = new Set(given.vehicles.map((vehicle) => plugKind(vehicle.charger.plug)));
  return [
    ...given.vehicles
      .filter(
        (vehicle) => vehicle.status === "working" && sockets.length > 0 && !there.has(plugKind(vehicle.charger.plug)),
      )
      .map((vehicle) => ({
        code: "noSocketFits",
        where: `vehicles.${vehicle.id}.charger.plug`,
        figures: { plug: vehicle.charger.plug },
      })),
    ...given.sockets
      .filter((socket) => !wanted.has(plugKind(socket.plug)))
      .map((socket) => ({
        code: "socketFitsNobody",
        where: `sockets.${socket.id}.plug`,
        figures: { plug: socket.plug },
      })),
  ];
}
