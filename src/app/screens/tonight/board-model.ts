import type { Session, Span } from "../../../calc/yard/night.js";
import type { NightRecord, Socket, Vehicle, Yard } from "../../../records/index.js";
import { HOUR_MS } from "../../../units/numbers.js";
import { minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";

export type BlockState = "done" | "live" | "planned";

/** One vehicle on one socket, from plugging in to pulling out. */
export interface Block {
  readonly stayId: string;
  readonly plate: string;
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  /** While power flows. */
  readonly chargeFromUtcMs: number;
  readonly chargeToUtcMs: number;
  readonly state: BlockState;
  readonly short: boolean;
}
export interface BoardRow {
  readonly socketId: string;
  readonly name: string;
  readonly blocks: readonly Block[];
}
export type PriceTier = "dear" | "usual" | "cheap";
export interface PriceBand extends Span {
  readonly tier: PriceTier;
  readonly perKwh: number;
}

/** The picture of a night, in instants; drawing turns them into places. */
export interface BoardModel {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly nowUtcMs: number | null;
  readonly zone: string;
  readonly evenHours: readonly { readonly utcMs: number; readonly hour: number }[];
  readonly prices: readonly PriceBand[];
  readonly awake: readonly Span[];
  readonly asleep: readonly Span[];
  readonly cuts: readonly Span[];
  readonly rows: readonly BoardRow[];
  readonly kw: {
    /** Null when nobody has said what the meter bears. */
    readonly limitKw: number | null;
    readonly slotMs: number;
    readonly slots: readonly { readonly fromUtcMs: number; readonly chargeKw: number; readonly baseKw: number }[];
    readonly topKw: number;
  };
}

export interface BoardGiven {
  readonly yard: Yard;
  readonly sockets: readonly Socket[];
  readonly vehicles: readonly Vehicle[];
  readonly shown: NightShown;
  readonly record: NightRecord | null;
  readonly nowUtcMs: number | null;
}

export function boardModelOf(given: BoardGiven): BoardModel {
  const { shown, yard, nowUtcMs } = given;
  const { night } = shown.layout;
  const { fromUtcMs, toUtcMs } = spanOf(given);
  const slotMs = night.slotMinutes * 60_000;
  const inView = (span: Span): Span[] => {
    const from = Math.max(fromUtcMs, span.fromUtcMs);
    const to = Math.min(toUtcMs, span.toUtcMs);
    return to > from ? [{ fromUtcMs: from, toUtcMs: to }] : [];
  };
  const awake = night.staff.awake.flatMap(inView).sort((a, b) => a.fromUtcMs - b.fromUtcMs);
  const slots = night.site.baseLoadKw
    .map((baseKw, t) => ({ fromUtcMs: night.startUtcMs + t * slotMs, chargeKw: shown.walked.chargeKw[t] ?? 0, baseKw }))
    .filter((slot) => slot.fromUtcMs >= fromUtcMs && slot.fromUtcMs < toUtcMs);
  return {
    fromUtcMs,
    toUtcMs,
    nowUtcMs: nowUtcMs !== null && nowUtcMs >= fromUtcMs && nowUtcMs <= toUtcMs ? nowUtcMs : null,
    zone: yard.zone,
    evenHours: evenHoursOf(fromUtcMs, toUtcMs, yard.zone),
    prices: pricesOf(shown, fromUtcMs, toUtcMs),
    awake,
    asleep: gapsOf(awake, { fromUtcMs, toUtcMs }),
    cuts: night.site.cuts.flatMap(inView),
    rows: rowsOf(given),
    kw: {
      limitKw: yard.siteLimitKw,
      slotMs,
      slots,
      topKw: Math.max(0.1, yard.siteLimitKw ?? 0, ...slots.map((slot) => slot.chargeKw + slot.baseKw)),
    },
  };
}

/** From the hour before the first plug to the hour after the last, at least ten hours. */
function spanOf({ shown, nowUtcMs }: BoardGiven): Span {
  const { night } = shown.layout;
  const endUtcMs = night.startUtcMs + night.slotCount * night.slotMinutes * 60_000;
  const times = shown.plan.sessions.flatMap(({ plugUtcMs, unplugUtcMs }) => [plugUtcMs, unplugUtcMs]);
  const near = nowUtcMs !== null && nowUtcMs > night.startUtcMs && nowUtcMs < endUtcMs ? [nowUtcMs] : [];
  const all = times.length + near.length > 0 ? [...times, ...near] : [night.startUtcMs + 7 * HOUR_MS];
  const from = Math.max(night.startUtcMs, Math.floor((Math.min(...all) - HOUR_MS / 2) / HOUR_MS) * HOUR_MS);
  const to = Math.min(
    endUtcMs,
    Math.max(from + 10 * HOUR_MS, Math.ceil((Math.max(...all) + HOUR_MS / 2) / HOUR_MS) * HOUR_MS),
  );
  return { fromUtcMs: from, toUtcMs: to };
}

function rowsOf(given: BoardGiven): BoardRow[] {
  const { shown, sockets } = given;
  const blockOf = blocksFrom(given);
  const hung = new Map<string, Session[]>(sockets.map(({ id }) => [id, []]));
  for (const session of shown.plan.sessions) hung.get(session.socket)?.push(session);
  return sockets.map(({ id, name }) => {
    const sessions = (hung.get(id) ?? []).sort((a, b) => a.plugUtcMs - b.plugUtcMs);
    return { socketId: id, name, blocks: sessions.map(blockOf) };
  });
}

/** What a session looks like; all that is looked up for it is sorted out once. */
function blocksFrom({ shown, vehicles, record, nowUtcMs }: BoardGiven): (session: Session) => Block {
  const outcomes = new Map(shown.walked.outcomes.map((one) => [one.stay.id, one]));
  const vehicleIds = new Map(shown.layout.about.map((one) => [one.stayId, one.vehicleId]));
  const plates = new Map(vehicles.map(({ id, plate }) => [id, plate]));
  const gone = new Set(
    (record?.done ?? []).filter((stroke) => stroke.what === "unplugged").map((stroke) => stroke.stayId),
  );
  return (session) => {
    const outcome = outcomes.get(session.stay);
    return {
      stayId: session.stay,
      plate: plates.get(vehicleIds.get(session.stay) ?? "") ?? session.stay,
      fromUtcMs: session.plugUtcMs,
      toUtcMs: session.unplugUtcMs,
      chargeFromUtcMs: session.startUtcMs,
      chargeToUtcMs: outcome?.lastPowerUtcMs ?? session.stopUtcMs,
      state: stateOf(session, gone, nowUtcMs),
      short: outcome?.short === true,
    };
  };
}

function stateOf(
  session: { readonly stay: string; readonly plugUtcMs: number; readonly unplugUtcMs: number },
  gone: ReadonlySet<string>,
  nowUtcMs: number | null,
): BlockState {
  if (gone.has(session.stay) || (nowUtcMs !== null && session.unplugUtcMs <= nowUtcMs)) return "done";
  return nowUtcMs !== null && session.plugUtcMs <= nowUtcMs ? "live" : "planned";
}

function evenHoursOf(fromUtcMs: number, toUtcMs: number, zone: string): BoardModel["evenHours"] {
  const hours: { utcMs: number; hour: number }[] = [];
  for (let utcMs = Math.ceil(fromUtcMs / (HOUR_MS / 4)) * (HOUR_MS / 4); utcMs <= toUtcMs; utcMs += HOUR_MS / 4) {
    const minute = Math.round(minuteOfDay(utcMs, zone));
    if (minute % 120 === 0) hours.push({ utcMs, hour: minute / 60 });
  }
  return hours;
}

function pricesOf(shown: NightShown, fromUtcMs: number, toUtcMs: number): PriceBand[] {
  const { night } = shown.layout;
  if (night.tariff.kind !== "bands") return [];
  const slotMs = night.slotMinutes * 60_000;
  const bands: PriceBand[] = [];
  const all = [...new Set(shown.walked.pricePerKwh)].sort((a, b) => a - b);
  const tierOf = (perKwh: number): PriceTier =>
    all.length < 2 ? "usual" : perKwh === all[0] ? "cheap" : perKwh === all[all.length - 1] ? "dear" : "usual";
  shown.walked.pricePerKwh.forEach((perKwh, t) => {
    const from = Math.max(fromUtcMs, night.startUtcMs + t * slotMs);
    const to = Math.min(toUtcMs, night.startUtcMs + (t + 1) * slotMs);
    if (to <= from) return;
    const last = bands[bands.length - 1];
    if (last && last.perKwh === perKwh) bands[bands.length - 1] = { ...last, toUtcMs: to };
    else bands.push({ fromUtcMs: from, toUtcMs: to, perKwh, tier: tierOf(perKwh) });
  });
  return bands;
}

function gapsOf(spans: readonly Span[], whole: Span): Span[] {
  const gaps: Span[] = [];
  let at = whole.fromUtcMs;
  for (const span of spans) {
    if (span.fromUtcMs > at) gaps.push({ fromUtcMs: at, toUtcMs: span.fromUtcMs });
    at = Math.max(at, span.toUtcMs);
  }
  if (at < whole.toUtcMs) gaps.push({ fromUtcMs: at, toUtcMs: whole.toUtcMs });
  return gaps;
}

/** Rows of one bank: at most `size` sockets hang on a sheet or a phone. */
export const banksOf = (model: BoardModel, size: number): BoardRow[][] => {
  const count = Math.max(1, Math.ceil(model.rows.length / size));
  const each = Math.ceil(model.rows.length / count);
  return Array.from({ length: count }, (_, i) => model.rows.slice(i * each, (i + 1) * each));
};
