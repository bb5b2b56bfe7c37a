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
  | { readonly code: "roomLeft" };

/** Why a vehicle is plugged in when it is. */
export type WhyThen =
  | { readonly code: "onArrival" }
  | { readonly code: "waitsForCheap"; readonly saves: number }
  | { readonly code: "handsAwake" }
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
  const ceilingKw = Math.min(stay.chargerKw, bestLimitKw(yard.night, stay));
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

const awakeAt = (night: Night, utcMs: number): boolean =>
  night.staff.awake.some(({ fromUtcMs, toUtcMs }) => fromUtcMs <= utcMs && utcMs <= toUtcMs) ||
  night.staff.wakeUtcMs.includes(utcMs);

/** Whether one socket that fits is free of the others over a span. */
const socketFree = (
  night: Night,
  others: readonly Session[],
  stay: Stay,
  fromUtcMs: number,
  toUtcMs: number,
): boolean =>
  night.sockets.some(
    ({ id, plug }) =>
      stay.plugs.includes(plug) &&
      !others.some((one) => one.socket === id && one.plugUtcMs < toUtcMs && one.unplugUtcMs > fromUtcMs),
  );

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
  const others = walked.outcomes.flatMap(({ session }) => (session && session !== own.session ? [session] : []));
  return blockedBy(yard, own, others, { from, to, cuts });
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

/** Power, sockets or hands: the run that lacks least decides. */
function blockedBy(yard: Yard, own: StayOutcome, others: readonly Session[], { from, to, cuts }: Trial): WhyShort {
  const { night } = yard;
  const { stay } = own;
  const spare = spareKw(yard, own);
  const target = targetOf(stay);
  let least = { moreKw: Number.POSITIVE_INFINITY, start: from, end: to };
  let fitsPower = false;
  let fitsSocket = false;
  for (let start = from; start < to; start++) {
    const { level, kw } = run(yard, stay, { from: start, to }, cuts);
    if (level < target - TINY_KWH) break; // a later start reaches less
    const end = endOfNeed(yard, stay, start, kw);
    const moreKw = Math.max(...kw.slice(0, end - start).map((each, i) => each - (spare[start + i] ?? 0)));
    if (moreKw < least.moreKw) least = { moreKw, start, end };
    if (moreKw > 1e-6) continue;
    fitsPower = true;
    if (!socketFree(night, others, stay, timeOf(yard, start), timeOf(yard, end))) continue;
    fitsSocket = true;
    if (start === from || awakeAt(night, timeOf(yard, start))) return { code: "roomLeft" };
  }
  if (fitsSocket) return { code: "nobodyAwake", atUtcMs: timeOf(yard, least.start) };
  if (fitsPower) return { code: "socketsHeld", fromUtcMs: timeOf(yard, least.start) };
  return {
    code: "siteFull",
    fromUtcMs: timeOf(yard, least.start),
    toUtcMs: timeOf(yard, least.end),
    moreKw: Math.ceil(least.moreKw * 10) / 10,
  };
}

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
  const others = walked.outcomes.flatMap((one) => (one.session && one.session !== session ? [one.session] : []));
  if (!socketFree(night, others, stay, stay.arriveUtcMs, timeOf(yard, arrive + slots)))
    return { code: "socketWasHeld" };
  const atOnce = kw.reduce((sum, each, i) => sum + each * yard.hours * (walked.pricePerKwh[arrive + i] ?? 0), 0);
  if (night.tariff.kind === "bands" && atOnce > own.money + 0.005)
    return { code: "waitsForCheap", saves: atOnce - own.money };
  return { code: "handsAwake" };
}
