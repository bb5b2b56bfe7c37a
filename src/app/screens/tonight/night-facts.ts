import type { StayOutcome } from "../../../calc/yard/walk-plan.js";
import type { NightRecord, Socket, Vehicle } from "../../../records/index.js";
import type { StayAbout } from "../../../records/map/night.js";
import { shareAtKwh } from "../../../records/map/night-plan.js";
import type { NightShown } from "../../../work/night-calls.js";
import type { MarkState } from "../../parts/Mark.js";

/** One moment at which somebody goes to a socket: one vehicle out, one in, or both. */
export interface Hand {
  readonly atUtcMs: number;
  readonly socketId: string;
  readonly out: string | null;
  readonly in: string | null;
}

/** All walks to sockets that are not yet ticked off, in time order; pulling out and plugging in at one socket and moment is one walk. */
export function handsOf(shown: NightShown, record: NightRecord | null): Hand[] {
  const ticked = new Set((record?.done ?? []).map(({ stayId, what }) => `${what} ${stayId}`));
  const byPlace = new Map<string, { atUtcMs: number; socketId: string; out: string | null; in: string | null }>();
  const at = (atUtcMs: number, socketId: string) => {
    const key = `${atUtcMs} ${socketId}`;
    const held = byPlace.get(key) ?? { atUtcMs, socketId, out: null, in: null };
    byPlace.set(key, held);
    return held;
  };
  for (const session of shown.plan.sessions) {
    if (!ticked.has(`unplugged ${session.stay}`)) at(session.unplugUtcMs, session.socket).out = session.stay;
    if (!ticked.has(`pluggedIn ${session.stay}`) && !ticked.has(`unplugged ${session.stay}`))
      at(session.plugUtcMs, session.socket).in = session.stay;
  }
  return [...byPlace.values()].sort((a, b) => a.atUtcMs - b.atUtcMs);
}

export interface VehicleNight {
  readonly vehicle: Vehicle;
  readonly state: MarkState;
  readonly stays: readonly { readonly about: StayAbout; readonly outcome: StayOutcome }[];
}

/** How every vehicle leaves: its worst visit decides. */
export function vehicleNights(vehicles: readonly Vehicle[], shown: NightShown): VehicleNight[] {
  const outcomes = new Map(shown.walked.outcomes.map((one) => [one.stay.id, one]));
  const byVehicle = new Map<string, { about: StayAbout; outcome: StayOutcome }[]>();
  for (const about of shown.layout.about) {
    const outcome = outcomes.get(about.stayId);
    if (outcome) byVehicle.set(about.vehicleId, [...(byVehicle.get(about.vehicleId) ?? []), { about, outcome }]);
  }
  return vehicles.map((vehicle) => {
    const stays = byVehicle.get(vehicle.id) ?? [];
    return { vehicle, stays, state: stateOf(vehicle, stays) };
  });
}

function stateOf(vehicle: Vehicle, stays: VehicleNight["stays"]): MarkState {
  if (vehicle.status === "offRoad") return "off";
  if (stays.some(({ outcome }) => outcome.short)) return "short";
  if (stays.length === 0 || stays.some(({ about }) => about.levelFrom === "worseGuess")) return "notKnown";
  return stays.some(({ about }) => about.tightAtBest) ? "tight" : "enough";
}

/** Kilometres that are missing on a bad day, and the round it could do instead. */
export interface ShortBy {
  readonly kmUnder: number;
  readonly kmItCan: number;
}
export function shortBy(about: StayAbout, outcome: StayOutcome): ShortBy {
  const leaves = shareAtKwh(about, outcome.departKwh);
  const kmUnder = Math.max(0, about.targetShare - leaves) * about.kmPerShare;
  return { kmUnder: Math.ceil(kmUnder), kmItCan: Math.max(0, Math.floor(about.km - kmUnder)) };
}

export interface SwapRounds {
  readonly plate: string;
  readonly km: number;
}
/** A vehicle that could do the short one's round and whose own round the short one can do: the one with the longest round of those. */
export function swapFor(short: VehicleNight, all: readonly VehicleNight[]): SwapRounds | null {
  const mine = short.stays.find(({ outcome }) => outcome.short);
  if (!mine) return null;
  const { kmItCan } = shortBy(mine.about, mine.outcome);
  const fits = all.flatMap(({ vehicle, state, stays }) => {
    const last = stays[stays.length - 1];
    if (!last || state !== "enough" || vehicle.class !== short.vehicle.class) return [];
    const { about, outcome } = last;
    if (about.km > kmItCan || about.kmPerShare <= 0) return [];
    const needs = about.likelyShare + (mine.about.km - about.km) / about.kmPerShare;
    const asBad = Math.max(about.targetShare, needs);
    return asBad <= shareAtKwh(about, outcome.departKwh) ? [{ plate: vehicle.plate, km: Math.round(about.km) }] : [];
  });
  return fits.sort((a, b) => b.km - a.km)[0] ?? null;
}

export const plateOfStay = (shown: NightShown, vehicles: readonly Vehicle[], stayId: string): string => {
  const vehicleId = shown.layout.about.find((one) => one.stayId === stayId)?.vehicleId;
  return vehicles.find(({ id }) => id === vehicleId)?.plate ?? stayId;
};
export const socketName = (sockets: readonly Socket[], id: string): string =>
  sockets.find((one) => one.id === id)?.name ?? id;
