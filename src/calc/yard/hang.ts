import { FIELDS, KLASS, PLUG, SOCKET, START, STOP, UNPLUG } from "./board.js";
import { type Menu, NO_CLASS } from "./menu.js";
import type { SocketClass, StayModel, YardModel } from "./model.js";
import type { Plan, Session, Socket } from "./night.js";

interface Hung {
  readonly stay: StayModel;
  readonly plug: number;
  readonly start: number;
  stop: number;
  unplug: number;
  socket: number;
}

/** The plan of a board: every session on a real socket, its plug pulled as late as nobody else needs the socket. */
export function planOf(menu: Menu, rows: Float64Array): Plan {
  const { model } = menu;
  const hung = model.stays.flatMap((stay, v): Hung[] => {
    const row = v * FIELDS;
    const at = (field: number): number => rows[row + field] as number;
    if (at(KLASS) === NO_CLASS) return [];
    return [{ stay, plug: at(PLUG), start: at(START), stop: at(STOP), unplug: at(UNPLUG), socket: at(SOCKET) }];
  });
  if (!model.replanning) spread(model, hung, (one) => rows[one.stay.index * FIELDS + KLASS] as number);
  for (const list of bySocket(hung)) pullLate(menu, list);
  return { format: "depot-plan/1", night: model.night.id, sessions: hung.map((one) => sessionOf(model, one)) };
}

/** First fit by plug-in time: for intervals that never exceed the count of a class, a socket is always free. */
function spread(model: YardModel, hung: Hung[], klassOf: (one: Hung) => number): void {
  const until = new Int32Array(model.night.sockets.length);
  for (const one of [...hung].sort((a, b) => a.plug - b.plug || a.unplug - b.unplug || a.stay.index - b.stay.index)) {
    const { sockets } = model.classes[klassOf(one)] as SocketClass;
    one.socket = sockets.find((place) => (until[place] as number) <= one.plug) ?? (sockets[0] as number);
    until[one.socket] = one.unplug;
  }
}

function bySocket(hung: readonly Hung[]): Hung[][] {
  const lists = new Map<number, Hung[]>();
  for (const one of hung) lists.set(one.socket, [...(lists.get(one.socket) ?? []), one]);
  return [...lists.values()].map((list) => list.sort((a, b) => a.plug - b.plug));
}

/** Fewer walks at the same score: a plug may hang until the next one needs the socket or the driver leaves. */
function pullLate({ model, hands }: Menu, list: readonly Hung[]): void {
  for (const [k, one] of list.entries()) {
    const { stay } = one;
    const told = stay.promised !== null && stay.promised.unplug === one.unplug;
    const fixed = told || (stay.promised?.begun === true && stay.promised.unplug < model.now);
    const free = Math.min(stay.depart, list[k + 1]?.plug ?? stay.depart);
    const latest = hands.latestUnplug(stay, free);
    if (fixed || latest <= one.unplug || !mayHang(model, one)) continue;
    one.unplug = latest;
  }
}

/** Without a timer a plug that hangs longer charges longer, so only timed sockets may. */
const mayHang = (model: YardModel, one: Hung): boolean => (model.night.sockets[one.socket] as Socket).timer;

function sessionOf(model: YardModel, one: Hung): Session {
  const { startUtcMs, slotMinutes, sockets } = model.night;
  const utc = (boundary: number): number => startUtcMs + boundary * slotMinutes * 60_000;
  return {
    stay: one.stay.id,
    socket: (sockets[one.socket] as Socket).id,
    plugUtcMs: utc(one.plug),
    startUtcMs: utc(one.start),
    stopUtcMs: utc(one.stop),
    unplugUtcMs: utc(one.unplug),
  };
}
