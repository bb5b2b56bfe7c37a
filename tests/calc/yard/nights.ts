// Invented nights for the tests: the same seed gives the same night on every machine.
import type { Night, Session, Stay, Tariff } from "../../../src/calc/yard/night.js";
import { type Dice, diceOf } from "../../../src/units/dice.js";

export interface NightWish {
  readonly seed: number;
  readonly vehicles: number;
  readonly sockets: number;
  /** kW free for charging, as a share of the need spread evenly over the night: 1 is just enough, 2 is loose. */
  readonly power: number;
  readonly slots?: number;
  readonly slotMinutes?: number;
  readonly tariff?: "evening" | "day" | "flatFee" | "none" | "demand";
  readonly awake?: "evening" | "always" | "never";
  readonly wakes?: number;
  readonly cuts?: number;
  readonly roofs?: boolean;
  readonly plugs?: readonly string[];
  /** Share of sockets with a timer. */
  readonly timers?: number;
  readonly zone?: string;
  readonly start?: number;
}

const HALF_PAST_FIVE = Date.UTC(2026, 2, 10, 11, 30); // 17:00 in Kolkata

const rounded = (value: number, step: number): number => Math.round(Math.round(value / step) * step * 1000) / 1000;
const between = (dice: Dice, low: number, high: number, step: number): number =>
  rounded(low + (high - low) * dice(), step);
const one = <T>(dice: Dice, of: readonly T[]): T => of[Math.floor(dice() * of.length)] as T;

export function inventNight(wish: NightWish): Night {
  const dice = diceOf(wish.seed * 7919 + 17);
  const slotCount = wish.slots ?? 56;
  const slotMinutes = wish.slotMinutes ?? 15;
  const startUtcMs = wish.start ?? HALF_PAST_FIVE;
  const at = (slot: number): number => startUtcMs + slot * slotMinutes * 60_000;
  const plugs = wish.plugs ?? ["A"];
  const stays = Array.from({ length: wish.vehicles }, (_, k) =>
    inventStay(dice, { k, slotCount, at, plugs, roofs: wish.roofs === true }),
  );
  const sockets = Array.from({ length: wish.sockets }, (_, k) => ({
    id: `s${String(k + 1).padStart(2, "0")}`,
    limitKw: wish.timers === undefined ? 3.3 : one(dice, [2.3, 3.3]),
    plug: plugs[k % plugs.length] as string,
    timer: dice() < (wish.timers ?? 1),
  }));
  const baseLoadKw = Array.from({ length: slotCount }, (_, t) =>
    t < slotCount * 0.28 || t > slotCount * 0.78 ? between(dice, 0.8, 1.1, 0.05) : between(dice, 0.35, 0.45, 0.05),
  );
  const needKwh = stays.reduce((sum, stay) => sum + stay.needKwh + stay.safeKwh, 0);
  const limitKw = rounded((wish.power * needKwh) / ((slotCount * 0.6 * slotMinutes) / 60) + 0.8 + 0.3, 0.5);
  const evening = [
    { fromUtcMs: at(0), toUtcMs: at(Math.round(slotCount * 0.43)) },
    { fromUtcMs: at(Math.round(slotCount * 0.78)), toUtcMs: at(slotCount) },
  ];
  const awake = { evening, always: [{ fromUtcMs: at(0), toUtcMs: at(slotCount) }], never: [] }[wish.awake ?? "evening"];
  return {
    id: `invented-${wish.seed}`,
    zone: wish.zone ?? "Asia/Kolkata",
    startUtcMs,
    slotMinutes,
    slotCount,
    site: {
      limitKw,
      marginKw: 0.3,
      baseLoadKw,
      cuts: Array.from({ length: wish.cuts ?? 0 }, () => {
        const from = Math.floor(slotCount * (0.3 + 0.4 * dice()));
        return { fromUtcMs: at(from), toUtcMs: at(Math.min(slotCount, from + 2 + Math.floor(5 * dice()))) };
      }),
    },
    staff: {
      awake,
      wakeUtcMs: Array.from({ length: wish.wakes ?? 0 }, () =>
        at(Math.floor(slotCount * (0.45 + 0.3 * dice()))),
      ).sort(),
      wakeWeightSwaps: 3,
    },
    tariff: inventTariff(wish.tariff ?? "evening", needKwh),
    sockets,
    stays,
    ...(wish.roofs
      ? {
          sunKwPerKw: Array.from({ length: slotCount }, (_, t) =>
            Math.max(0, rounded(0.7 * Math.sin((Math.PI * (t + 8)) / (slotCount * 0.6)), 0.01)),
          ),
        }
      : {}),
  };
}

interface StayWish {
  readonly k: number;
  readonly slotCount: number;
  readonly at: (slot: number) => number;
  readonly plugs: readonly string[];
  readonly roofs: boolean;
}

function inventStay(dice: Dice, { k, slotCount, at, plugs, roofs }: StayWish): Stay {
  const lead = dice() < 0.65;
  const fullKwh = lead ? between(dice, 6.5, 9.5, 0.05) : between(dice, 5.2, 8.2, 0.05);
  const chargerKw = lead ? between(dice, 0.9, 1.2, 0.1) : between(dice, 1.5, 3, 0.5);
  const knee = rounded(fullKwh * (lead ? 0.78 + 0.05 * dice() : 0.88 + 0.05 * dice()), 0.05);
  const tailKw = lead ? between(dice, 0.05, 0.11, 0.01) : between(dice, 0.2, 0.6, 0.01);
  const arriveKwh = between(dice, fullKwh * 0.12, fullKwh * 0.45, 0.05);
  const safeKwh = rounded(fullKwh * 0.08, 0.05);
  const needKwh = between(dice, fullKwh * 0.22, Math.min(0.62 * fullKwh, 0.9 * fullKwh - arriveKwh - safeKwh), 0.05);
  const arrive = Math.floor(slotCount * (0.12 + 0.26 * dice()));
  return {
    id: `v${String(k + 1).padStart(2, "0")}`,
    chemistry: lead ? "lead-acid" : "lithium",
    arriveUtcMs: at(arrive),
    departUtcMs: at(Math.floor(slotCount * (0.78 + 0.2 * dice()))),
    fullKwh,
    arriveKwh,
    needKwh,
    safeKwh,
    chargerKw,
    acceptance: [
      { levelKwh: 0, kw: chargerKw },
      { levelKwh: knee, kw: chargerKw },
      { levelKwh: fullKwh, kw: tailKw },
    ],
    plugs: plugs.length > 1 && dice() < 0.3 ? plugs : [one(dice, plugs)],
    roundWeight: one(dice, [1, 1, 2, 2, 3]),
    fullDue: dice() < 0.15,
    ...(roofs && dice() < 0.6 ? { roofKw: between(dice, 0.2, 0.5, 0.01) } : {}),
  };
}

function inventTariff(kind: NonNullable<NightWish["tariff"]>, needKwh: number): Tariff {
  const bands = [
    { from: "22:00", to: "06:00", perKwh: 6 },
    { from: "18:00", to: "22:00", perKwh: 10 },
  ];
  if (kind === "flatFee") return { kind: "flatFee", feePerCharge: 120 };
  if (kind === "none") return { kind: "none" };
  if (kind === "day") return { kind: "bands", bands: [{ from: "17:00", to: "23:00", perKwh: 12 }], otherwisePerKwh: 7 };
  if (kind === "demand")
    return { kind: "bands", bands, otherwisePerKwh: 8, demandPerKw: 25, billedPeakKw: rounded(needKwh / 12, 0.5) };
  return { kind: "bands", bands, otherwisePerKwh: 8 };
}

/** The same night planned again at a slot: what was told stands in `published`, and one vehicle comes late. */
export function lateArrival(
  night: Night,
  sessions: readonly Session[],
  { nowSlot, stay, slots }: { nowSlot: number; stay: number; slots: number },
): Night {
  const nowUtcMs = night.startUtcMs + nowSlot * night.slotMinutes * 60_000;
  const stays = night.stays.map((one, k) =>
    k === stay ? { ...one, arriveUtcMs: one.arriveUtcMs + slots * night.slotMinutes * 60_000 } : one,
  );
  return { ...night, stays, published: { nowUtcMs, sessions } };
}
