import { effect, untracked } from "@preact/signals";
import type { Learned, PlaceLearned, Vehicle, Yard } from "../records/index.js";
import type { Store } from "../store/index.js";
import { DAY_MS, HOUR_MS } from "../units/numbers.js";
import { type CivilDate, civilDate, plusDays } from "../units/zone.js";
import { askLearn } from "../work/ask-learn.js";
import type { LearnAnswer, LearnedNow, LearnerAsk } from "../work/learned.js";
import {
  book,
  type Change,
  holdRecords,
  inTurn,
  keep,
  lastKept,
  listed,
  ownedBy,
  vehicleOf,
  vehicles,
} from "./fleet.js";
import { keepForecasts } from "./forecasts.js";
import { openedStore } from "./shelf.js";
import { writeWorkedOut } from "./shelf-full.js";
import { nowUtcMs } from "./state.js";

/** Older days say little about a vehicle of today: what is learned is forgotten slowly anyway. */
const LOOKS_BACK_DAYS = 90;
/** Days before the settled ones that a plug or a reading can reach back. */
const REACHES_BACK_DAYS = 17;
/** Days whose forecasts are scored. */
export const SCORED_DAYS = 60;
/** Vehicles that go to the worker together; of so few that each one's history is read by itself. */
const AT_ONCE = 60;
const FEW = 20;
/** Nights end and days begin without a tap: then it looks again. */
const AGAIN_AFTER_MS = 2 * HOUR_MS;
/** A change of the factor that nobody could see in an answer is not worth writing. */
const TOO_SMALL = 0.003;

export interface LearnHow {
  /** From the first day on: something before yesterday was written in, corrected or brought in. */
  readonly afresh: boolean;
}

let turn: Promise<void> = Promise.resolve();

/** Learns from the log of the vehicles named, or of all, one call after the other, and keeps what is new. */
export function learnFromLog(ids?: readonly string[], how: LearnHow = { afresh: false }): Promise<void> {
  turn = turn.then(() => learnAll(ids, how)).catch(() => undefined); // a part has not come over the network: the next time, then
  return turn;
}

/** Learns from the whole log now, whenever a night or a day has gone by, and from what is written in. */
export function keepLearning(): void {
  keepForecasts();
  effect(() => {
    const at = nowUtcMs.value;
    untracked(() => {
      if (isDue(at)) void learnFromLog();
    });
  });
  effect(() => {
    const changes = lastKept.value;
    untracked(() => learnFromChanges(changes));
  });
}

let lastLookUtcMs = 0;
function isDue(at: number): boolean {
  if (Math.abs(at - lastLookUtcMs) < AGAIN_AFTER_MS) return false;
  lastLookUtcMs = at;
  return true;
}

const DAY_KINDS: ReadonlySet<string> = new Set(["entry", "reading"]);

/** Days written in, and readings: their vehicles learn; anew from the start where the day is before yesterday. */
function learnFromChanges(changes: readonly Change[]): void {
  const late = new Set<string>();
  const fresh = new Set<string>();
  for (const change of changes) {
    if (!DAY_KINDS.has(change.kind)) continue;
    const id = "put" in change ? (change.put as { readonly vehicleId: string }).vehicleId : ownerOf(change.drop);
    const vehicle = id === null ? undefined : vehicleOf(id);
    if (vehicle) (isLate(change, vehicle) ? late : fresh).add(vehicle.id);
  }
  if (fresh.size > 0) void learnFromLog([...fresh].filter((id) => !late.has(id)));
  if (late.size > 0) void learnFromLog([...late], { afresh: true });
}

/** Ids of days and readings begin with their vehicle's. */
const ownerOf = (id: string): string | null =>
  vehicles.value.find((vehicle) => id.startsWith(`${vehicle.id}/`))?.id ?? null;

function isLate(change: Change, vehicle: Vehicle): boolean {
  const yesterday = plusDays(todayOf(yardOfVehicle(vehicle)), -1);
  if ("drop" in change) return !change.drop.includes(yesterday) && !change.drop.includes(plusDays(yesterday, 1));
  return change.kind === "entry" && change.put.date < yesterday;
}

const yardOfVehicle = (vehicle: Vehicle): Yard | undefined =>
  listed(book.value, "yard").find(({ id }) => id === vehicle.yardId);
const todayOf = (yard: Yard | undefined): CivilDate => civilDate(Date.now(), yard?.zone ?? "UTC");

async function learnAll(ids: readonly string[] | undefined, how: LearnHow): Promise<void> {
  const wanted = ids && new Set(ids);
  for (const yard of listed(book.value, "yard")) {
    const its = vehicles.value.filter(
      ({ id, yardId, status }) => yardId === yard.id && status === "working" && (!wanted || wanted.has(id)),
    );
    const whole = wanted === undefined;
    for (let at = 0; at < its.length; at += AT_ONCE)
      await learnSome(
        { yard, its: its.slice(at, at + AT_ONCE), whole: whole && at === 0, settles: whole || how.afresh },
        how,
      );
  }
}

interface Batch {
  readonly yard: Yard;
  readonly its: readonly Vehicle[];
  /** The place learns from these vehicles too. */
  readonly whole: boolean;
  /** Days that are over are settled. */
  readonly settles: boolean;
}

async function learnSome({ yard, its, whole, settles }: Batch, { afresh }: LearnHow): Promise<void> {
  const store = await openedStore();
  const now = Date.now();
  const asks = await asksOf(store, yard, its, { now, afresh });
  const known = asks.filter(({ entries, readings, held }) => held || entries.length > 0 || readings.length > 0);
  if (known.length === 0) return;
  const from = plusDays(civilDate(now, "UTC"), -LOOKS_BACK_DAYS);
  const skies = await store.history("sky", yard.id, from, civilDate(now + DAY_MS, "UTC"));
  const place = placeOf(yard);
  const answer = await askLearn("learn", {
    yard,
    place: place ?? null,
    rounds: listed(book.value, "round"),
    skies: skies.ok ? skies.value.records : [],
    vehicles: known,
    nowUtcMs: now,
  });
  if (store !== (await openedStore())) return; // another yard's records are open by now
  await keepLearned(answer, { settles, whole: whole || place === undefined });
}

const placeOf = (yard: Yard): PlaceLearned | undefined =>
  ownedBy(listed(book.value, "placeLearned"), "yardId", yard.id)[0];
export const learnedOf = (vehicleId: string): Learned | undefined =>
  ownedBy(listed(book.value, "learned"), "vehicleId", vehicleId)[0];

interface Reach {
  readonly now: number;
  readonly afresh: boolean;
}

/** The log of some vehicles as far back as each needs it. */
async function asksOf(
  store: Store,
  yard: Yard,
  its: readonly Vehicle[],
  { now, afresh }: Reach,
): Promise<LearnerAsk[]> {
  const few = its.length <= FEW;
  const heldOf = ({ id }: Vehicle): Learned | null => {
    const held = learnedOf(id) ?? null;
    return held && afresh ? { ...held, settled: null } : held;
  };
  const back = Math.max(...its.map((vehicle) => daysBack(heldOf(vehicle), now)), few ? SCORED_DAYS : 0);
  const from = plusDays(civilDate(now, yard.zone), -back);
  const to = civilDate(now + DAY_MS, yard.zone);
  const read = async <K extends "entry" | "reading" | "shift" | "forecast">(kind: K) => {
    if (!few) {
      const all = await store.between(kind, from, to);
      return (vehicle: Vehicle) => (all.ok ? ownedBy(all.value.records, "vehicleId", vehicle.id) : []);
    }
    const each = new Map<string, Awaited<ReturnType<typeof store.history<K>>>>();
    for (const { id } of its) each.set(id, await store.history(kind, id, from, to));
    return ({ id }: Vehicle) => {
      const found = each.get(id);
      return found?.ok ? found.value.records : [];
    };
  };
  const [entries, readings, shifts] = [await read("entry"), await read("reading"), await read("shift")];
  const forecasts = few ? await read("forecast") : () => []; // scored when a day is written in, one vehicle at a time
  return its.map((vehicle) => ({
    vehicle,
    held: heldOf(vehicle),
    entries: entries(vehicle),
    readings: readings(vehicle),
    shifts: shifts(vehicle),
    forecasts: forecasts(vehicle),
  }));
}

function daysBack(held: Learned | null, now: number): number {
  const settledUtcMs = held?.settled ? settledThrough(held.settled) : null;
  if (settledUtcMs === null) return LOOKS_BACK_DAYS;
  return Math.min(LOOKS_BACK_DAYS, Math.ceil((now - settledUtcMs) / DAY_MS) + REACHES_BACK_DAYS);
}

function settledThrough(packed: string): number | null {
  const found = /"throughUtcMs":(\d+)/.exec(packed);
  return found ? Number(found[1]) : null;
}

interface HowKept {
  readonly settles: boolean;
  readonly whole: boolean;
}

async function keepLearned(answer: LearnAnswer, how: HowKept): Promise<void> {
  if (await inTurn(() => writeLearned(answer, how))) await keepInShort(answer.vehicles);
}

async function writeLearned({ place, vehicles: all }: LearnAnswer, how: HowKept): Promise<boolean> {
  const news = all.flatMap(({ record }) => {
    const had = learnedOf(record.vehicleId);
    const { on, sinceDate } = had ?? record; // they may have been changed meanwhile
    if (had && had.sinceDate !== record.sinceDate) return [];
    const put = { ...record, on, sinceDate, settled: how.settles ? record.settled : (had?.settled ?? null) };
    return had && isSame(had, put) ? [] : [put];
  });
  const changes: Change[] = news.map((put) => ({ kind: "learned", put }));
  if (how.whole) changes.push({ kind: "placeLearned", put: place });
  const done = await writeWorkedOut(changes);
  if (!done.ok) return false;
  const fresh = new Set(news.map(({ id }) => id));
  holdRecords({
    learned: [...listed(book.value, "learned").filter(({ id }) => !fresh.has(id)), ...news],
    ...(how.whole
      ? { placeLearned: [...listed(book.value, "placeLearned").filter(({ id }) => id !== place.id), place] }
      : {}),
  });
  return true;
}

const through = /"throughUtcMs":\d+/;
const isSame = (a: Learned, b: Learned): boolean =>
  a.pluggedUtcMs === b.pluggedUtcMs &&
  a.settled?.replace(through, "") === b.settled?.replace(through, "") &&
  a.state?.replace(through, "") === b.state?.replace(through, "") &&
  JSON.stringify(a.score) === JSON.stringify(b.score);

/** The three figures that a vehicle's own record keeps; none while its learning is off. */
async function keepInShort(all: readonly LearnedNow[]): Promise<void> {
  await keep(() =>
    all.flatMap(({ record, inShort }): Change[] => {
      const vehicle = vehicleOf(record.vehicleId);
      const learned = inShort.days === 0 || learnedOf(record.vehicleId)?.on === false ? null : inShort;
      return vehicle && isNews(vehicle.learned, learned) ? [{ kind: "vehicle", put: { ...vehicle, learned } }] : [];
    }),
  );
}

function isNews(had: Vehicle["learned"], has: Vehicle["learned"]): boolean {
  if (had === null || has === null) return had !== has;
  return (
    had.days !== has.days ||
    Math.abs(had.driveFactor - has.driveFactor) > TOO_SMALL ||
    Math.abs(had.spread - has.spread) > TOO_SMALL
  );
}
