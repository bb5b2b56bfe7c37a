import { acceptanceOf, slotKwh, TINY_KWH } from "./energy.js";
import type { Night, Session, Stay } from "./night.js";
import type { StayOutcome, WalkedPlan } from "./walk-plan.js";

/** Why a vehicle ends short, first that applies, with what would do. */
export type WhyShort =
  | { readonly code: "fullTooLittle" }
  | { readonly code: "noSocketFits" }
  | { readonly code: "stayTooShort"; readonly missingMinutes: number }
  | { readonly code: "cutTakesTheTime" }
  | { readonly code: "nobodyAwake"; readonly atUtcMs: number }
  | { readonly code: "siteFull"; readonly fromUtcMs: number; readonly toUtcMs: number; readonly moreKw: number }
  | { readonly code: "socketsHeld"; readonly fromUtcMs: number }
  | { readonly code: "nothingFree"; readonly fromUtcMs: number; readonly toUtcMs: number }
  | { readonly code: "roomLeft" };

/** Why a vehicle is plugged in when it is. */
export type WhyThen =
  | { readonly code: "onArrival" }
  | { readonly code: "waitsForCheap"; readonly saves: number }
  | { readonly code: "noHurry" }
  | { readonly code: "siteWasFull" }
  | { readonly code: "socketWasHeld" };

interface Yard {
  readonly night: Night;
  readonly walked: WalkedPlan;
  readonly slotMs: number;
  readonly hours: number;
}
const yardOf = (night: Night, walked: WalkedPlan): Yard => ({
  night,
  walked,
  slotMs: night.slotMinutes * 60_000,
  hours: night.slotMinutes / 60,
});
const slotOf = ({ night, slotMs }: Yard, utcMs: number): number => Math.round((utcMs - night.startUtcMs) / slotMs);
const timeOf = ({ night, slotMs }: Yard, slot: number): number => night.startUtcMs + slot * slotMs;

/** Best socket of those that fit: the strongest. */
const bestLimitKw = (night: Night, stay: Stay): number =>
  Math.max(0, ...night.sockets.filter(({ plug }) => stay.plugs.includes(plug)).map(({ limitKw }) => limitKw));

const cutSlots = (yard: Yard): boolean[] =>
  yard.night.site.baseLoadKw.map((_, t) =>
    yard.night.site.cuts.some((cut) => cut.fromUtcMs < timeOf(yard, t + 1) && cut.toUtcMs > timeOf(yard, t)),
  );

/** Units and power by slot of a charge that runs from one slot to another; `cuts` may be left out to see what they cost. */
function run(yard: Yard, stay: Stay, span: { readonly from: number; readonly to: number }, cuts: readonly boolean[]) {
  const ceilingKw = ceilingKwOf(yard, stay);
  const curve = acceptanceOf(stay.acceptance);
  const kw: number[] = [];
  let level = stay.arriveKwh;
  for (let t = span.from; t < span.to; t++) {
    const kwh = cuts[t] ? 0 : slotKwh(level, stay.fullKwh, ceilingKw, curve, yard.hours);
    level += kwh;
    kw.push(kwh / yard.hours);
  }
  return { level, kw };
}
const targetOf = (stay: Stay): number => stay.arriveKwh + stay.needKwh + stay.safeKwh;

/** The others' power stays as it is: what is left for this one by slot. */
function spareKw(yard: Yard, own: StayOutcome): number[] {
  const { night, walked } = yard;
  const { limitKw, marginKw, baseLoadKw } = night.site;
  const curve = acceptanceOf(own.stay.acceptance);
  const ceilingKw = Math.min(
    own.stay.chargerKw,
    night.sockets.find(({ id }) => id === own.session?.socket)?.limitKw ?? 0,
  );
  const cuts = cutSlots(yard);
  let level = own.stay.arriveKwh;
  return walked.chargeKw.map((kw, t) => {
    const on =
      own.session !== null && t >= slotOf(yard, own.session.startUtcMs) && t < slotOf(yard, own.session.stopUtcMs);
    const mine = on && !cuts[t] ? slotKwh(level, own.stay.fullKwh, ceilingKw, curve, yard.hours) : 0;
    level += mine;
    return limitKw - marginKw - (baseLoadKw[t] ?? 0) - kw + mine / yard.hours;
  });
}

/** A socket by the others' sessions on it. */
interface Held {
  readonly limitKw: number;
  readonly timer: boolean;
  readonly sessions: readonly Session[];
}

/** Sockets that fit a stay, with what hangs there beside it. */
function fitting({ night, walked }: Yard, own: StayOutcome): Held[] {
  const others = walked.outcomes.flatMap(({ session }) => (session && session !== own.session ? [session] : []));
  return night.sockets
    .filter(({ plug }) => own.stay.plugs.includes(plug))
    .map(({ id, limitKw, timer }) => ({ limitKw, timer, sessions: others.filter(({ socket }) => socket === id) }));
}

const isFree = ({ sessions }: Held, fromUtcMs: number, toUtcMs: number): boolean =>
  !sessions.some((one) => one.plugUtcMs < toUtcMs && one.unplugUtcMs > fromUtcMs);

/** Somebody is awake or can be woken; the driver is there when he comes and when he leaves. */
const someoneAt = ({ night }: Yard, stay: Stay, utcMs: number): boolean =>
  utcMs === stay.arriveUtcMs ||
  utcMs === stay.departUtcMs ||
  night.staff.wakeUtcMs.includes(utcMs) ||
  night.staff.awake.some(({ fromUtcMs, toUtcMs }) => fromUtcMs <= utcMs && utcMs <= toUtcMs);

/** First moment from which on a plug can be pulled. */
function freedAt(yard: Yard, stay: Stay, fromUtcMs: number): number {
  let utcMs = fromUtcMs;
  while (utcMs < stay.departUtcMs && !someoneAt(yard, stay, utcMs)) utcMs += yard.slotMs;
  return Math.min(utcMs, stay.departUtcMs);
}

/** Moments at which somebody can plug in for a charge from `start`: with a timer any before it. */
function plugInsFor(yard: Yard, stay: Stay, startUtcMs: number, timer: boolean): number[] {
  const moments: number[] = [];
  for (let utcMs = timer ? stay.arriveUtcMs : startUtcMs; utcMs <= startUtcMs; utcMs += yard.slotMs)
    if (someoneAt(yard, stay, utcMs)) moments.push(utcMs);
  return moments;
}

/** Why a stay ends short, from trials with the others kept as they are; null when it is served. */
export function whyShort(night: Night, walked: WalkedPlan, own: StayOutcome): WhyShort | null {
  if (!own.short) return null;
  const { stay } = own;
  const yard = yardOf(night, walked);
  const from = slotOf(yard, stay.arriveUtcMs);
  const to = slotOf(yard, stay.departUtcMs);
  const target = targetOf(stay);
  if (target > stay.fullKwh + TINY_KWH) return { code: "fullTooLittle" };
  if (bestLimitKw(night, stay) === 0) return { code: "noSocketFits" };
  const cuts = cutSlots(yard);
  const none = cuts.map(() => false);
  if (run(yard, stay, { from, to }, none).level < target - TINY_KWH)
    return { code: "stayTooShort", missingMinutes: minutesMissing(yard, stay, from) };
  if (run(yard, stay, { from, to }, cuts).level < target - TINY_KWH) return { code: "cutTakesTheTime" };
  return blockedBy(yard, own, { from, to, cuts });
}

/** How much longer the charger would need, beyond the stay. */
function minutesMissing(yard: Yard, stay: Stay, from: number): number {
  const target = targetOf(stay);
  const slots = slotOf(yard, stay.departUtcMs) - from;
  for (let more = 1; more < 400; more++)
    if (run(yard, stay, { from, to: from + slots + more }, []).level >= target - TINY_KWH)
      return more * yard.night.slotMinutes;
  return 400 * yard.night.slotMinutes;
}

interface Trial {
  readonly from: number;
  readonly to: number;
  readonly cuts: readonly boolean[];
}

/**
 * Power, sockets or hands, whichever alone stands in the way, the cheapest to get first: a waking, a socket, kW. What is named as enough is
 * enough with the others kept as they are.
 */
function blockedBy(yard: Yard, own: StayOutcome, { from, to, cuts }: Trial): WhyShort {
  const { stay } = own;
  const sockets = fitting(yard, own);
  const spare = spareKw(yard, own);
  let noHands: WhyShort | null = null;
  let noSocket: WhyShort | null = null;
  let leastKw = Number.POSITIVE_INFINITY;
  let noPower: WhyShort | null = null;
  let nothing: WhyShort = { code: "nothingFree", fromUtcMs: stay.arriveUtcMs, toUtcMs: stay.departUtcMs };
  for (let start = from; start < to; start++) {
    const { level, kw } = run(yard, stay, { from: start, to }, cuts);
    if (level < targetOf(stay) - TINY_KWH) break; // a later start reaches less
    const end = endOfNeed(yard, stay, start, kw);
    const [fromUtcMs, toUtcMs] = [timeOf(yard, start), timeOf(yard, end)];
    if (start === from) nothing = { code: "nothingFree", fromUtcMs, toUtcMs };
    const moreKw = Math.max(...kw.slice(0, end - start).map((each, i) => each - (spare[start + i] ?? 0)));
    const hasPower = moreKw <= TINY_KWH;
    const untilUtcMs = freedAt(yard, stay, toUtcMs);
    const strong = sockets.filter(({ limitKw }) => Math.min(limitKw, stay.chargerKw) >= ceilingKwOf(yard, stay));
    const hasSocket = strong.some((each) => isFree(each, fromUtcMs, untilUtcMs));
    const hasHands = strong.some((each) =>
      plugInsFor(yard, stay, fromUtcMs, each.timer).some((plugUtcMs) => isFree(each, plugUtcMs, untilUtcMs)),
    );
    if (hasPower && hasHands) return { code: "roomLeft" };
    if (hasPower && hasSocket) noHands ??= { code: "nobodyAwake", atUtcMs: fromUtcMs };
    if (hasPower) noSocket ??= { code: "socketsHeld", fromUtcMs };
    if (!hasHands || moreKw >= leastKw) continue;
    leastKw = moreKw;
    noPower = { code: "siteFull", fromUtcMs, toUtcMs, moreKw: Math.ceil(moreKw * 10 - 1e-6) / 10 };
  }
  return noHands ?? noSocket ?? noPower ?? nothing;
}

const ceilingKwOf = (yard: Yard, stay: Stay): number => Math.min(stay.chargerKw, bestLimitKw(yard.night, stay));

function endOfNeed(yard: Yard, stay: Stay, start: number, kw: readonly number[]): number {
  let level = stay.arriveKwh;
  for (const [i, each] of kw.entries()) {
    level += each * yard.hours;
    if (level >= targetOf(stay) - TINY_KWH) return start + i + 1;
  }
  return start + kw.length;
}

/** Why a served vehicle is plugged in at its time and not on arrival; null without a slot. */
export function whyThen(night: Night, walked: WalkedPlan, own: StayOutcome): WhyThen | null {
  const { session, stay } = own;
  if (!session) return null;
  const yard = yardOf(night, walked);
  const start = slotOf(yard, session.startUtcMs);
  const arrive = slotOf(yard, stay.arriveUtcMs);
  if (start <= arrive) return { code: "onArrival" };
  const slots = slotOf(yard, session.stopUtcMs) - start;
  const cuts = cutSlots(yard);
  const { kw } = run(yard, stay, { from: arrive, to: arrive + slots }, cuts);
  const spare = spareKw(yard, own);
  if (kw.some((each, i) => each > (spare[arrive + i] ?? 0) + 1e-6)) return { code: "siteWasFull" };
  const untilUtcMs = freedAt(yard, stay, timeOf(yard, arrive + slots));
  if (!fitting(yard, own).some((each) => isFree(each, stay.arriveUtcMs, untilUtcMs))) return { code: "socketWasHeld" };
  const atOnce = kw.reduce((sum, each, i) => sum + each * yard.hours * (walked.pricePerKwh[arrive + i] ?? 0), 0);
  if (night.tariff.kind === "bands" && atOnce > own.money + 0.005)
    return { code: "waitsForCheap", saves: atOnce - own.money };
  return { code: "noHurry" };
}
