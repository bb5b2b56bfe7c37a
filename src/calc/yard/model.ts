import type { Problem } from "../../units/outcome.js";
import { type Acceptance, acceptanceOf } from "./energy.js";
import { mendedAcceptance, stayProblem } from "./mend.js";
import type { Night, Session, Socket, Span, Stay } from "./night.js";
import { slotPrices } from "./tariff.js";

/** Sockets alike in limit, plug and timer are exchangeable. */
export interface SocketClass {
  readonly limitKw: number;
  readonly plug: string;
  readonly timer: boolean;
  /** Places in `night.sockets`. */
  readonly sockets: readonly number[];
}

/** A session in slot boundaries. */
export interface Run {
  readonly plug: number;
  readonly start: number;
  readonly stop: number;
  readonly unplug: number;
}

export interface Promised extends Run {
  /** Place in `night.sockets`. */
  readonly socket: number;
  /** Plugged in before now: the past of the session is fixed and it must stay in the plan. */
  readonly begun: boolean;
}

export interface StayModel {
  readonly id: string;
  /** Place among the stays that are planned. */
  readonly index: number;
  /** Place in `night.stays`. */
  readonly place: number;
  readonly arrive: number;
  readonly depart: number;
  readonly fullKwh: number;
  readonly arriveKwh: number;
  readonly targetKwh: number;
  readonly chargerKw: number;
  readonly acceptance: Acceptance;
  readonly weight: number;
  readonly fullDue: boolean;
  readonly roofKw: number;
  /** Classes whose plug fits. */
  readonly classes: readonly number[];
  readonly promised: Promised | null;
}

/** The night in slot numbers: what the planner and the scoring work on. */
export interface YardModel {
  readonly night: Night;
  readonly slots: number;
  readonly hours: number;
  /** kW free for charging by slot; nothing in a cut. */
  readonly usableKw: Float64Array;
  readonly baseKw: Float64Array;
  readonly cut: Uint8Array;
  readonly pricePerKwh: Float64Array;
  readonly sunKwPerKw: Float64Array;
  readonly feePerCharge: number;
  readonly demandPerKw: number;
  /** The peak that is paid for anyway. */
  readonly floorKw: number;
  /** Somebody is awake at the boundary. */
  readonly awake: Uint8Array;
  /** Nobody is awake, but somebody can be woken. */
  readonly wakeable: Uint8Array;
  readonly wakeWeight: number;
  /** Hundredths of money that sparing one swap is worth. */
  readonly swapWorthCents: number;
  readonly classes: readonly SocketClass[];
  readonly classOfSocket: readonly number[];
  readonly stays: readonly StayModel[];
  /** First boundary that is not past; 0 when nothing is published. */
  readonly now: number;
  readonly replanning: boolean;
}

/** Turns a night into slots. What cannot be planned is left out and named; the rest still gets its plan. */
export function yardModel(night: Night): { readonly model: YardModel; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const stepMs = night.slotMinutes * 60_000;
  const slots = night.slotCount;
  const at = (utcMs: number): number => (utcMs - night.startUtcMs) / stepMs;
  const cut = cutSlots(night.site.cuts, at, slots);
  const baseKw = Float64Array.from({ length: slots }, (_, t) => night.site.baseLoadKw[t] ?? 0);
  const roomKw = night.site.limitKw - night.site.marginKw;
  const usableKw = baseKw.map((base, t) => (cut[t] ? 0 : Math.max(0, roomKw - base)));
  const { classes, classOfSocket } = socketClasses(night.sockets);
  const now = night.published ? Math.ceil(at(night.published.nowUtcMs) - 1e-9) : 0;
  const promises = promisedRuns(night, now, at, problems);
  const awake = new Uint8Array(slots + 1);
  const wakeable = new Uint8Array(slots + 1);
  for (let b = 0; b <= slots; b++) {
    const utcMs = night.startUtcMs + b * stepMs;
    if (night.staff.awake.some((span) => utcMs >= span.fromUtcMs && utcMs <= span.toUtcMs)) awake[b] = 1;
    else if (night.staff.wakeUtcMs.includes(utcMs)) wakeable[b] = 1;
  }
  const stays = stayModels(night, { at, classes, promises, problems });
  return {
    model: {
      night,
      slots,
      hours: night.slotMinutes / 60,
      usableKw,
      baseKw,
      cut,
      pricePerKwh: slotPrices(night, problems),
      sunKwPerKw: Float64Array.from({ length: slots }, (_, t) => Math.max(0, night.sunKwPerKw?.[t] ?? 0)),
      feePerCharge: night.tariff.kind === "flatFee" ? night.tariff.feePerCharge : 0,
      demandPerKw: night.tariff.demandPerKw ?? 0,
      floorKw: baseKw.reduce((most, base, t) => (cut[t] ? most : Math.max(most, base)), night.tariff.billedPeakKw ?? 0),
      awake,
      wakeable,
      wakeWeight: night.staff.wakeWeightSwaps,
      swapWorthCents: 100 * (night.staff.swapWorth ?? 0),
      classes,
      classOfSocket,
      stays,
      now,
      replanning: night.published !== undefined,
    },
    problems: [...problems, ...siteProblems(night, baseKw, cut, roomKw), ...lonelySockets(night)],
  };
}

/** Cuts are rounded outwards: a slot that is cut in part gives nothing. */
function cutSlots(cuts: readonly Span[], at: (utcMs: number) => number, slots: number): Uint8Array {
  const cut = new Uint8Array(slots);
  for (const span of cuts)
    for (let t = Math.max(0, Math.floor(at(span.fromUtcMs))); t < Math.min(slots, Math.ceil(at(span.toUtcMs))); t++)
      cut[t] = 1;
  return cut;
}

function socketClasses(sockets: readonly Socket[]): { classes: SocketClass[]; classOfSocket: number[] } {
  const places = new Map<string, number[]>();
  for (const [place, socket] of sockets.entries()) {
    const key = JSON.stringify([socket.limitKw, socket.plug, socket.timer]);
    const held = places.get(key);
    if (held) held.push(place);
    else places.set(key, [place]);
  }
  const classOfSocket = new Array<number>(sockets.length).fill(0);
  const classes = [...places.values()].map((members, index) => {
    for (const place of members) classOfSocket[place] = index;
    const { limitKw, plug, timer } = sockets[members[0] as number] as Socket;
    return { limitKw, plug, timer, sockets: members };
  });
  return { classes, classOfSocket };
}

function promisedRuns(
  night: Night,
  now: number,
  at: (utcMs: number) => number,
  problems: Problem[],
): ReadonlyMap<string, Promised> {
  const places = new Map(night.sockets.map((socket, place) => [socket.id, place]));
  const runs = new Map<string, Promised>();
  for (const [index, session] of (night.published?.sessions ?? []).entries()) {
    const socket = places.get(session.socket);
    const run = runOf(session, at);
    const inOrder = run.plug <= run.start && run.start < run.stop && run.stop <= run.unplug;
    const onGrid = [run.plug, run.start, run.stop, run.unplug].every(Number.isInteger);
    const where = `published.sessions.${index}`;
    if (socket === undefined) problems.push({ code: "promiseUnknownSocket", where, figures: { id: session.socket } });
    else if (!inOrder || !onGrid) problems.push({ code: "promiseOutOfOrder", where, figures: { id: session.stay } });
    else runs.set(session.stay, { ...run, socket, begun: run.plug < now });
  }
  return runs;
}

const runOf = (session: Session, at: (utcMs: number) => number): Run => ({
  plug: at(session.plugUtcMs),
  start: at(session.startUtcMs),
  stop: at(session.stopUtcMs),
  unplug: at(session.unplugUtcMs),
});

interface StayNeeds {
  readonly at: (utcMs: number) => number;
  readonly classes: readonly SocketClass[];
  readonly promises: ReadonlyMap<string, Promised>;
  readonly problems: Problem[];
}

function stayModels(night: Night, { at, classes, promises, problems }: StayNeeds): StayModel[] {
  const seen = new Set<string>();
  const stays: StayModel[] = [];
  for (const [place, stay] of night.stays.entries()) {
    const arrive = Math.max(0, Math.ceil(at(stay.arriveUtcMs) - 1e-9));
    const depart = Math.min(night.slotCount, Math.floor(at(stay.departUtcMs) + 1e-9));
    const problem = stayProblem(stay, { place, arrive, depart, repeats: seen.has(stay.id) });
    if (problem) {
      problems.push(problem);
      continue;
    }
    seen.add(stay.id);
    const fitting = classes.flatMap((kind, index) => (stay.plugs.includes(kind.plug) ? [index] : []));
    if (fitting.length === 0)
      problems.push({ code: "noSocketFits", where: `stays.${place}`, figures: { id: stay.id } });
    stays.push(
      stayModel(stay, {
        index: stays.length,
        place,
        arrive,
        depart,
        fitting,
        promised: promises.get(stay.id) ?? null,
        problems,
      }),
    );
  }
  return stays;
}

interface StayPlace {
  readonly index: number;
  readonly place: number;
  readonly arrive: number;
  readonly depart: number;
  readonly fitting: readonly number[];
  readonly promised: Promised | null;
  readonly problems: Problem[];
}

function stayModel(stay: Stay, { index, place, arrive, depart, fitting, promised, problems }: StayPlace): StayModel {
  const { points, mended } = mendedAcceptance(stay);
  if (mended) problems.push({ code: "acceptanceMended", where: `stays.${place}.acceptance`, figures: { id: stay.id } });
  return {
    id: stay.id,
    index,
    place,
    arrive,
    depart,
    fullKwh: stay.fullKwh,
    arriveKwh: stay.arriveKwh,
    targetKwh: stay.arriveKwh + stay.needKwh + stay.safeKwh,
    chargerKw: stay.chargerKw,
    acceptance: acceptanceOf(points),
    weight: stay.roundWeight ?? 1,
    fullDue: stay.fullDue,
    roofKw: stay.roofKw ?? 0,
    classes: fitting,
    promised,
  };
}

/** Where the other users of the meter leave nothing for charging. */
function siteProblems(night: Night, baseKw: Float64Array, cut: Uint8Array, roomKw: number): Problem[] {
  const blocked = baseKw.reduce((count, base, t) => count + (!cut[t] && base >= roomKw ? 1 : 0), 0);
  if (blocked === 0) return [];
  const first = baseKw.findIndex((base, t) => !cut[t] && base >= roomKw);
  const figures = {
    slots: blocked,
    fromUtcMs: night.startUtcMs + first * night.slotMinutes * 60_000,
    baseKw: baseKw[first] as number,
    roomKw,
  };
  return [{ code: "baseLoadAboveLimit", where: `site.baseLoadKw.${first}`, figures }];
}

/** Sockets whose plug no vehicle of the night has. */
function lonelySockets(night: Night): Problem[] {
  if (night.stays.length === 0) return [];
  const wanted = new Set(night.stays.flatMap((stay) => stay.plugs));
  return night.sockets.flatMap((socket, place) =>
    wanted.has(socket.plug)
      ? []
      : [{ code: "socketFitsNobody", where: `sockets.${place}`, figures: { id: socket.id, plug: socket.plug } }],
  );
}
