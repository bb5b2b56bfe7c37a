import { signal } from "@preact/signals";
import { nightId } from "../../../records/ids.js";
import type { NightEvent, NightRecord, Socket, Yard } from "../../../records/index.js";
import type { NightCase } from "../../../records/map/night.js";
import { nightRecordOf } from "../../../records/map/night-plan.js";
import { nightWindowAt } from "../../../records/map/night-yard.js";
import type { Problem } from "../../../units/outcome.js";
import { isZone } from "../../../units/zone.js";
import { askNight } from "../../../work/night-call.js";
import type { NightShown } from "../../../work/night-calls.js";
import { answerBroke } from "../../answers.js";
import { type Book, book, byNumber, keep, listed } from "../../fleet.js";
import { nowUtcMs } from "../../state.js";

/** How far the plan of a yard is. */
export interface NightState {
  readonly shown: NightShown | null;
  /** 0..1 while the forecasts are worked out; null when nothing is being worked out. */
  readonly share: number | null;
  readonly problems: readonly Problem[];
}
const NOTHING: NightState = { shown: null, share: null, problems: [] };

export const nights = signal<ReadonlyMap<string, NightState>>(new Map());
export const nightOf = (yardId: string): NightState => nights.value.get(yardId) ?? NOTHING;
/** The plan of a yard that can be followed, printed and told otherwise of; null while there is only a first look. */
export function readyOf(yardId: string): NightShown | null {
  const { shown } = nightOf(yardId);
  return shown?.rough ? null : shown;
}
const put = (yardId: string, change: Partial<NightState>): void => {
  nights.value = new Map(nights.peek()).set(yardId, { ...(nights.peek().get(yardId) ?? NOTHING), ...change });
};

export function recordOf(of: Book, yard: Yard, at: number): NightRecord | null {
  if (!isZone(yard.zone)) return null;
  const id = nightId(yard.id, nightWindowAt(at, yard.zone).date);
  return listed(of, "night").find((record) => record.id === id) ?? null;
}

export function caseOfYard(of: Book, yard: Yard, at: number): NightCase {
  const vehicles = listed(of, "vehicle").filter((vehicle) => vehicle.yardId === yard.id);
  const own = new Set(vehicles.map(({ id }) => id));
  return {
    yard,
    vehicles: [...vehicles].sort((a, b) => byNumber(a.plate, b.plate)),
    sockets: socketsIn(of, yard),
    rounds: listed(of, "round"),
    shifts: listed(of, "shift").filter(({ vehicleId }) => own.has(vehicleId)),
    skies: listed(of, "sky").filter(({ yardId }) => yardId === yard.id),
    readings: listed(of, "reading").filter(({ vehicleId }) => own.has(vehicleId)),
    nowUtcMs: at,
    followed: recordOf(of, yard, at),
    ...(vehicles.length > MANY ? { draws: 48 } : {}),
  };
}
/** From here on fewer days are drawn for each forecast, so that the first plan does not wait. */
const MANY = 120;

const ordered = new WeakMap<readonly Socket[], Map<string, readonly Socket[]>>();
/** A yard's sockets by name, sorted once for a list: every drawing of the board asks. */
export function socketsIn(of: Book, yard: Yard): readonly Socket[] {
  const all = listed(of, "socket");
  const held = ordered.get(all) ?? new Map<string, readonly Socket[]>();
  ordered.set(all, held);
  const known = held.get(yard.id);
  if (known) return known;
  const own = all.filter(({ yardId }) => yardId === yard.id).sort((a, b) => byNumber(a.name, b.name));
  held.set(yard.id, own);
  return own;
}

const BUDGET_MS = 1000;
/** Within this time a plan is not worked out again for the clock alone. */
const FRESH_MS = 900_000;

interface Asked {
  readonly given: NightCase;
  readonly abort: AbortController;
}
const asked = new Map<string, Asked>();
let lane: Promise<void> = Promise.resolve();

const LISTS = ["vehicles", "sockets", "rounds", "shifts", "skies", "readings"] as const;
const sameCase = (a: NightCase, b: NightCase): boolean =>
  a.yard === b.yard &&
  a.followed === b.followed &&
  Math.abs(a.nowUtcMs - b.nowUtcMs) < FRESH_MS &&
  LISTS.every((list) => a[list].length === b[list].length && a[list].every((one, i) => one === b[list][i]));

/** Plans a yard's night when what it stands on has changed. Yards wait for each other; a changed mind ends what is being worked out. */
export function planTonight(yard: Yard): void {
  const given = caseOfYard(book.value, yard, nowUtcMs.value);
  const before = asked.get(yard.id);
  if (before && sameCase(before.given, given)) return;
  before?.abort.abort();
  const abort = new AbortController();
  asked.set(yard.id, { given, abort });
  put(yard.id, { share: 0 });
  lane = lane
    .then(() => work(yard, given, abort.signal))
    .catch((problem: unknown) => {
      if (asked.get(yard.id)?.abort === abort) asked.delete(yard.id); // to be asked again
      answerBroke.value = problem;
    });
}

async function work(yard: Yard, given: NightCase, aborted: AbortSignal): Promise<void> {
  if (aborted.aborted) return;
  try {
    const outcome = await askNight({
      given,
      budgetMs: BUDGET_MS,
      signal: aborted,
      onShare: (share) => put(yard.id, { share }),
      onBetter: (shown) => put(yard.id, { shown, problems: shown.layout.problems }),
    });
    if (outcome.ok) put(yard.id, { shown: outcome.value, share: null, problems: outcome.value.layout.problems });
    else put(yard.id, { shown: null, share: null, problems: outcome.problems });
  } catch (problem) {
    if (aborted.aborted) return;
    put(yard.id, { share: null });
    throw problem;
  }
}

/** The shown plan as a record to follow. */
export function toFollow(yard: Yard, shown: NightShown): NightRecord {
  const at = nowUtcMs.value;
  const before = recordOf(book.value, yard, at);
  return nightRecordOf(shown.layout, shown.plan, { walked: shown.walked, yardId: yard.id, nowUtcMs: at, before });
}

/** Whether the shown plan is the one people follow. */
export function isFollowed(record: NightRecord | null, shown: NightShown): boolean {
  if (!record || record.sessions.length !== shown.plan.sessions.length) return false;
  const held = new Map(record.sessions.map((session) => [session.stayId, session]));
  return shown.plan.sessions.every((session) => {
    const old = held.get(session.stay);
    return (
      old !== undefined &&
      old.socketId === session.socket &&
      old.plugUtcMs === session.plugUtcMs &&
      old.startUtcMs === session.startUtcMs &&
      old.stopUtcMs === session.stopUtcMs &&
      old.unplugUtcMs === session.unplugUtcMs
    );
  });
}

export const follow = (yard: Yard, shown: NightShown, says: string): Promise<boolean> =>
  keep(() => [{ kind: "night", put: toFollow(yard, shown) }], says);

/** Strokes of chalk: what was just done, on the plan that is shown. */
export async function markDone(
  yard: Yard,
  shown: NightShown,
  given: { readonly strokes: readonly Pick<NightRecord["done"][number], "stayId" | "what">[]; readonly says: string },
): Promise<void> {
  const marked = (): NightRecord => {
    const record = toFollow(yard, shown);
    const at = nowUtcMs.value;
    const before = recordOf(book.value, yard, at);
    const done = [...record.done, ...given.strokes.map((stroke) => ({ ...stroke, atUtcMs: at }))];
    return { ...record, plan: before && isFollowed(before, shown) ? before.plan : record.plan, done };
  };
  await keep(() => [{ kind: "night", put: marked() }], given.says);
}

type NewEvent = NightEvent extends infer E ? (E extends NightEvent ? Omit<E, "atUtcMs"> : never) : never;
/** Keeps what turned out otherwise; the plan is then worked out again around it. */
export async function tellEvent(yard: Yard, shown: NightShown, event: NewEvent, says: string): Promise<void> {
  const at = nowUtcMs.value;
  const told = (): NightRecord => {
    const record = recordOf(book.value, yard, at) ?? toFollow(yard, shown);
    return { ...record, events: [...record.events, { ...event, atUtcMs: at } as NightEvent] };
  };
  await keep(() => [{ kind: "night", put: told() }], says);
}
