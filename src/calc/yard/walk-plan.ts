import { acceptanceOf, slotKwh, TINY_KWH, toCents } from "./energy.js";
import type { Night, Plan, Session, Stay } from "./night.js";
import { slotPrices } from "./tariff.js";

/** What a plan does for one stay. All kWh are units on the meter. */
export interface StayOutcome {
  readonly stay: Stay;
  readonly session: Session | null;
  readonly departKwh: number;
  readonly gridKwh: number;
  readonly money: number;
  /** Below the target on leaving; `missingKwh` is how far. */
  readonly short: boolean;
  readonly missingKwh: number;
  readonly full: boolean;
  /** Last moment at which power flows; null without a session. */
  readonly lastPowerUtcMs: number | null;
}

export interface WalkedPlan {
  readonly outcomes: readonly StayOutcome[];
  /** kW of the vehicles by slot, beside the yard's other users. */
  readonly chargeKw: readonly number[];
  readonly pricePerKwh: readonly number[];
  readonly money: number;
  readonly topKw: number;
}

/** Follows a plan through the night, slot by slot: the level of every stay, the power of the yard, the money. Sessions of unknown stays or sockets draw nothing. */
export function walkPlan(night: Night, plan: Pick<Plan, "sessions">): WalkedPlan {
  const prices = slotPrices(night, []);
  const chargeKw = new Float64Array(night.slotCount);
  const sessions = new Map(plan.sessions.map((session) => [session.stay, session]));
  const outcomes = night.stays.map((stay) =>
    walkStay(stay, sessions.get(stay.id) ?? null, { night, prices, chargeKw }),
  );
  const { baseLoadKw } = night.site;
  return {
    outcomes,
    chargeKw: [...chargeKw],
    pricePerKwh: [...prices],
    money: outcomes.reduce((sum, { money }) => sum + money, 0),
    topKw: Math.max(0, ...chargeKw.map((kw, t) => kw + (baseLoadKw[t] ?? 0))),
  };
}

interface Ground {
  readonly night: Night;
  readonly prices: Float64Array;
  readonly chargeKw: Float64Array;
}

function walkStay(stay: Stay, asked: Session | null, { night, prices, chargeKw }: Ground): StayOutcome {
  const slotMs = night.slotMinutes * 60_000;
  const hours = night.slotMinutes / 60;
  const slotOf = (utcMs: number): number => Math.round((utcMs - night.startUtcMs) / slotMs);
  const socket = night.sockets.find(({ id }) => id === asked?.socket);
  const session = socket ? asked : null;
  const ceilingKw = Math.min(stay.chargerKw, socket?.limitKw ?? 0);
  const curve = acceptanceOf(stay.acceptance);
  let level = stay.arriveKwh;
  let gridKwh = 0;
  let priced = 0;
  let last: number | null = null;
  for (let t = slotOf(stay.arriveUtcMs); t < slotOf(stay.departUtcMs); t++) {
    level = Math.min(stay.fullKwh, level + (stay.roofKw ?? 0) * (night.sunKwPerKw?.[t] ?? 0) * hours);
    const running = session !== null && t >= slotOf(session.startUtcMs) && t < slotOf(session.stopUtcMs);
    if (running && !isCut(night, t)) {
      const kwh = slotKwh(level, stay.fullKwh, ceilingKw, curve, hours);
      level += kwh;
      gridKwh += kwh;
      priced += kwh * (prices[t] as number);
      chargeKw[t] = (chargeKw[t] ?? 0) + kwh / hours;
      if (kwh > 0) last = night.startUtcMs + (t + 1) * slotMs;
    }
    if (stay.fullKwh - level < TINY_KWH) level = stay.fullKwh;
  }
  const missingKwh = stay.arriveKwh + stay.needKwh + stay.safeKwh - level;
  const fee = session && night.tariff.kind === "flatFee" ? night.tariff.feePerCharge : 0;
  return {
    stay,
    session,
    departKwh: level,
    gridKwh,
    money: session ? toCents(priced + fee) / 100 : 0,
    short: missingKwh > TINY_KWH,
    missingKwh: Math.max(0, missingKwh),
    full: level >= stay.fullKwh - TINY_KWH,
    lastPowerUtcMs: last,
  };
}

function isCut({ site, startUtcMs, slotMinutes }: Night, slot: number): boolean {
  const fromUtcMs = startUtcMs + slot * slotMinutes * 60_000;
  return site.cuts.some((cut) => cut.fromUtcMs < fromUtcMs + slotMinutes * 60_000 && cut.toUtcMs > fromUtcMs);
}
