import type { Problem } from "../../units/outcome.js";
import { slotKwh, TINY_KWH, toCents } from "./energy.js";
import type { Run, StayModel, YardModel } from "./model.js";
import type { Plan, Score, Session, Socket } from "./night.js";

/** What a plan is worth, and which rules it breaks: walked slot by slot, apart from the tables the search works on. */
export interface ScoredPlan {
  readonly score: Score;
  /** Codes: unknownSession, outsideStay, outOfOrder, wrongPlug, nobodyAwake, noTimer, socketTaken, overLimit. */
  readonly broken: readonly Problem[];
  readonly peakKw: number;
}

interface Walk {
  readonly model: YardModel;
  readonly loadKw: Float64Array;
  readonly wakings: Set<number>;
  readonly broken: Problem[];
}

interface Held extends Run {
  readonly session: Session;
  readonly socket: Socket;
}

/** Scores a plan of the stays that could be planned. */
export function scorePlan(model: YardModel, plan: Pick<Plan, "sessions">): ScoredPlan {
  const walk: Walk = { model, loadKw: new Float64Array(model.slots), wakings: new Set(), broken: [] };
  const held = heldSessions(walk, plan.sessions);
  const total = { short: 0, shortWeight: 0, missing: 0, changes: 0, fullMissed: 0, cents: 0, swaps: 0, readySlots: 0 };
  for (const stay of model.stays) {
    const run = held.get(stay.id) ?? null;
    if (run) checkRun(walk, stay, run);
    const { endKwh, cents, readySlots, fullAtStop } = follow(walk, stay, run);
    if (run && !run.socket.timer && run.stop !== run.unplug && !fullAtStop) breaks(walk, "noTimer", stay);
    const short = endKwh < stay.targetKwh - TINY_KWH;
    total.short += short ? 1 : 0;
    total.shortWeight += short ? stay.weight : 0;
    total.missing += short ? toCents(stay.targetKwh - endKwh) : 0;
    total.changes += stay.promised && !isKept(model, stay, run) ? 1 : 0;
    total.fullMissed += stay.fullDue && endKwh < stay.fullKwh - TINY_KWH ? 1 : 0;
    total.cents += cents;
    total.swaps += run && run.plug !== stay.arrive ? 1 : 0;
    total.readySlots += readySlots;
  }
  checkSockets(walk, [...held.values()]);
  const peakKw = checkPower(walk);
  const { short, shortWeight, changes, fullMissed, readySlots } = total;
  return {
    score: {
      short,
      shortWeight,
      missingKwh: total.missing / 100,
      changes,
      fullMissed,
      money: total.cents / 100 + model.demandPerKw * Math.max(0, peakKw - model.floorKw),
      handling: total.swaps + model.wakeWeight * walk.wakings.size,
      readySlots,
    },
    broken: walk.broken,
    peakKw,
  };
}

const breaks = ({ broken }: Walk, code: string, stay: StayModel): void => {
  broken.push({ code, where: `stays.${stay.place}`, figures: { id: stay.id } });
};

function heldSessions({ model, broken }: Walk, sessions: readonly Session[]): Map<string, Held> {
  const { night } = model;
  const sockets = new Map(night.sockets.map((socket) => [socket.id, socket]));
  const known = new Set(model.stays.map((stay) => stay.id));
  const at = (utcMs: number): number => (utcMs - night.startUtcMs) / (night.slotMinutes * 60_000);
  const held = new Map<string, Held>();
  for (const [place, session] of sessions.entries()) {
    const socket = sockets.get(session.socket);
    if (!socket || !known.has(session.stay) || held.has(session.stay)) {
      broken.push({ code: "unknownSession", where: `sessions.${place}`, figures: { id: session.stay } });
      continue;
    }
    held.set(session.stay, {
      session,
      socket,
      plug: at(session.plugUtcMs),
      start: at(session.startUtcMs),
      stop: at(session.stopUtcMs),
      unplug: at(session.unplugUtcMs),
    });
  }
  return held;
}

function checkRun(walk: Walk, stay: StayModel, { plug, start, stop, unplug, socket }: Held): void {
  const { awake, wakeable, night } = walk.model;
  if (!(plug <= start && start < stop && stop <= unplug)) breaks(walk, "outOfOrder", stay);
  if (plug < stay.arrive || unplug > stay.depart) breaks(walk, "outsideStay", stay);
  if (!(night.stays[stay.place]?.plugs ?? []).includes(socket.plug)) breaks(walk, "wrongPlug", stay);
  if (!socket.timer && start !== plug) breaks(walk, "noTimer", stay);
  for (const [at, own] of [
    [plug, stay.arrive],
    [unplug, stay.depart],
  ] as const) {
    if (at === own || awake[at]) continue;
    if (wakeable[at]) walk.wakings.add(at);
    else breaks(walk, "nobodyAwake", stay);
  }
}

interface Followed {
  readonly endKwh: number;
  readonly cents: number;
  readonly readySlots: number;
  readonly fullAtStop: boolean;
}

/** Walks one stay through its slots and adds its power to the yard's. */
function follow({ model, loadKw }: Walk, stay: StayModel, run: Held | null): Followed {
  const { cut, sunKwPerKw, pricePerKwh, hours } = model;
  const ceilingKw = Math.min(stay.chargerKw, run?.socket.limitKw ?? 0);
  const ready = (level: number): boolean => level >= stay.targetKwh - TINY_KWH;
  let level = stay.arriveKwh;
  let money = 0;
  let readySlots = ready(level) ? 0 : -1;
  let fullAtStop = false;
  for (let t = stay.arrive; t < stay.depart; t++) {
    level = Math.min(stay.fullKwh, level + stay.roofKw * (sunKwPerKw[t] as number) * hours);
    if (run && t >= run.start && t < run.stop && !cut[t]) {
      const drawn = slotKwh(level, stay.fullKwh, ceilingKw, stay.acceptance, hours);
      level += drawn;
      money += drawn * (pricePerKwh[t] as number);
      loadKw[t] = (loadKw[t] as number) + drawn / hours;
    }
    if (stay.fullKwh - level < TINY_KWH) level = stay.fullKwh;
    if (run && t + 1 === run.stop) fullAtStop = level >= stay.fullKwh - TINY_KWH;
    if (readySlots < 0 && ready(level)) readySlots = t + 1 - stay.arrive;
  }
  const cents = run ? toCents(money + model.feePerCharge) : 0;
  return { endKwh: level, cents, readySlots: readySlots < 0 ? stay.depart - stay.arrive : readySlots, fullAtStop };
}

function isKept(model: YardModel, { promised }: StayModel, run: Held | null): boolean {
  if (!promised || !run) return false;
  const sameSocket = model.night.sockets[promised.socket]?.id === run.socket.id;
  return sameSocket && run.plug === promised.plug && run.start === promised.start && run.unplug === promised.unplug;
}

function checkSockets({ broken }: Walk, held: readonly Held[]): void {
  const ordered = [...held].sort((one, other) => one.plug - other.plug);
  const last = new Map<string, Held>();
  for (const run of ordered) {
    const before = last.get(run.socket.id);
    if (before && run.plug < before.unplug) {
      const figures = { socket: run.socket.id, id: run.session.stay, other: before.session.stay };
      broken.push({ code: "socketTaken", where: "sessions", figures });
    }
    last.set(run.socket.id, run);
  }
}

function checkPower({ model, loadKw, broken }: Walk): number {
  let peakKw = model.floorKw;
  for (let t = 0; t < model.slots; t++) {
    if (model.cut[t]) continue;
    const kw = loadKw[t] as number;
    const usableKw = model.usableKw[t] as number;
    if (kw > usableKw + TINY_KWH) broken.push({ code: "overLimit", where: `slots.${t}`, figures: { kw, usableKw } });
    peakKw = Math.max(peakKw, (model.baseKw[t] as number) + kw);
  }
  return peakKw;
}
