import { currencyPlaces } from "../../calc/money/index.js";
import type { SitePower, Socket as SocketPlace, Span, Staff, Tariff } from "../../calc/yard/night.js";
import { MINUTE_MS } from "../../units/numbers.js";
import type { Problem } from "../../units/outcome.js";
import { type CivilDate, civilDate, minuteOfDay, plusDays, utcMsAt } from "../../units/zone.js";
import { minuteOfClock } from "../clock.js";
import type { NightEvent, Socket, Yard } from "../index.js";
import { plugKind } from "./plug.js";

/** The hours a night's plan covers, in whole slots. */
export interface NightWindow {
  /** Day on whose evening the night begins. */
  readonly date: CivilDate;
  readonly startUtcMs: number;
  readonly slotCount: number;
}
export const SLOT_MINUTES = 15;
export const SLOT_MS = SLOT_MINUTES * MINUTE_MS;
/** Plans run from ten to ten: the midday wave and the night, up to the last usual departure. */
const TURNS_AT_MINUTE = 600;

/** The night that an instant belongs to. */
export function nightWindowAt(utcMs: number, zone: string): NightWindow {
  const today = civilDate(utcMs, zone);
  const date = minuteOfDay(utcMs, zone) < TURNS_AT_MINUTE ? plusDays(today, -1) : today;
  return nightWindowOf(date, zone);
}

export function nightWindowOf(date: CivilDate, zone: string): NightWindow {
  const startUtcMs = roundedDown(utcMsAt(date, TURNS_AT_MINUTE, zone));
  const endUtcMs = utcMsAt(plusDays(date, 1), TURNS_AT_MINUTE, zone);
  return { date, startUtcMs, slotCount: Math.round((endUtcMs - startUtcMs) / SLOT_MS) };
}

export const endOf = ({ startUtcMs, slotCount }: NightWindow): number => startUtcMs + slotCount * SLOT_MS;
export const roundedUp = (utcMs: number): number => Math.ceil(utcMs / SLOT_MS) * SLOT_MS;
export const roundedDown = (utcMs: number): number => Math.floor(utcMs / SLOT_MS) * SLOT_MS;

const within = (span: Span, window: NightWindow): Span[] => {
  const fromUtcMs = Math.max(window.startUtcMs, span.fromUtcMs);
  const toUtcMs = Math.min(endOf(window), span.toUtcMs);
  return toUtcMs > fromUtcMs ? [{ fromUtcMs, toUtcMs }] : [];
};

/** Daily from-to stretches of the yard's clock as instants; ends lie on the grid, inside the stretch. */
function dailySpans(
  spans: readonly { readonly from: string; readonly to: string }[],
  window: NightWindow,
  zone: string,
): Span[] {
  const days = [-1, 0, 1].map((by) => plusDays(window.date, by));
  return days.flatMap((day) =>
    spans.flatMap(({ from, to }) => {
      const fromMinute = minuteOfClock(from);
      const toMinute = minuteOfClock(to);
      const lastsTo = toMinute > fromMinute ? toMinute : toMinute + 1440;
      const span = { fromUtcMs: utcMsAt(day, fromMinute, zone), toUtcMs: utcMsAt(day, lastsTo, zone) };
      return within({ fromUtcMs: roundedUp(span.fromUtcMs), toUtcMs: roundedDown(span.toUtcMs) }, window);
    }),
  );
}

/** One waking counts for this many swaps where the yard has not said what they are worth. Common practice, no source. */
const WAKE_SWAPS = 5;

/** A swap that is worth nothing beside a waking that is: so many of them weigh as much as it. */
const MANY_SWAPS = 1000;

function worthOf(
  swapMinor: number,
  wakeMinor: number,
  coins: number,
): Pick<Required<Staff>, "wakeWeightSwaps" | "swapWorth"> {
  if (swapMinor > 0)
    return { wakeWeightSwaps: wakeMinor > 0 ? wakeMinor / swapMinor : WAKE_SWAPS, swapWorth: swapMinor / coins };
  if (wakeMinor > 0) return { wakeWeightSwaps: MANY_SWAPS, swapWorth: wakeMinor / coins / MANY_SWAPS };
  return { wakeWeightSwaps: WAKE_SWAPS, swapWorth: 0 };
}

export function staffOf(yard: Yard, window: NightWindow): Staff {
  const { awake, wake, swapWorthMinor, wakeWorthMinor } = yard.staff;
  const moments = [0, 1]
    .flatMap((by) => wake.map((at) => roundedUp(utcMsAt(plusDays(window.date, by), minuteOfClock(at), yard.zone))))
    .filter((utcMs) => utcMs >= window.startUtcMs && utcMs <= endOf(window));
  return {
    awake: dailySpans(awake, window, yard.zone),
    wakeUtcMs: [...new Set(moments)].sort((a, b) => a - b),
    ...worthOf(swapWorthMinor, wakeWorthMinor, coinsOf(yard.currency)),
  };
}

/** A currency nobody knows is taken to have two places. */
const coinsOf = (currency: string): number => 10 ** (currencyPlaces(currency) ?? 2);

/** Prices in whole money, as the plan counts it. */
export function tariffOf({ tariff, currency }: Yard): Tariff {
  const coins = coinsOf(currency);
  const demand = { demandPerKw: tariff.demandPerKwMinor / coins, billedPeakKw: tariff.billedPeakKw };
  if (tariff.kind === "flatFee") return { kind: "flatFee", feePerCharge: tariff.feeMinor / coins, ...demand };
  if (tariff.kind === "none") return { kind: "none", ...demand };
  return {
    kind: "bands",
    bands: tariff.bands.map(({ from, to, perKwhMinor }) => ({
      from: from === "24:00" ? "00:00" : from,
      to: to === "24:00" ? "00:00" : to,
      perKwh: perKwhMinor / coins,
    })),
    otherwisePerKwh: tariff.otherwisePerKwhMinor / coins,
    ...demand,
  };
}

export const socketsOf = (sockets: readonly Socket[], events: readonly NightEvent[]): SocketPlace[] => {
  const dead = new Set(events.flatMap((event) => (event.kind === "socketDead" ? [event.socketId] : [])));
  return sockets
    .filter(({ id }) => !dead.has(id))
    .map(({ id, limitKw, plug, timer }) => ({ id, limitKw, plug: plugKind(plug), timer }));
};

/** A limit that never binds, for a yard that has not said what its meter bears. */
const noLimitKw = (sockets: readonly SocketPlace[], baseLoadKw: readonly number[], marginKw: number): number =>
  marginKw + Math.max(0, ...baseLoadKw) + sockets.reduce((sum, { limitKw }) => sum + limitKw, 0);

export function siteOf(
  yard: Yard,
  given: {
    readonly window: NightWindow;
    readonly sockets: readonly SocketPlace[];
    readonly events: readonly NightEvent[];
  },
): { readonly site: SitePower; readonly problems: readonly Problem[] } {
  const { window, sockets, events } = given;
  const hours = Array.from({ length: window.slotCount }, (_, t) =>
    Math.floor(minuteOfDay(window.startUtcMs + t * SLOT_MS, yard.zone) / 60),
  );
  const baseLoadKw = hours.map((hour) => yard.baseLoadKwByHour[hour] ?? 0);
  const limitKw = yard.siteLimitKw ?? noLimitKw(sockets, baseLoadKw, yard.marginKw);
  const lost = events.flatMap((event) => (event.kind === "supplyLost" ? [event] : []));
  const cuts = [...yard.cuts, ...lost].flatMap(({ fromUtcMs, toUtcMs }) =>
    within({ fromUtcMs: roundedDown(fromUtcMs), toUtcMs: roundedUp(toUtcMs) }, window),
  );
  const over =
    yard.siteLimitKw === null
      ? []
      : [...new Set(hours)].filter((hour) => (yard.baseLoadKwByHour[hour] ?? 0) + yard.marginKw >= limitKw);
  return {
    site: { limitKw, marginKw: yard.marginKw, baseLoadKw, cuts },
    problems: [
      ...(yard.siteLimitKw === null ? [{ code: "noMeterLimit", where: "yard.siteLimitKw" }] : []),
      ...over.map((hour) => ({
        code: "baseLoadFillsLimit",
        where: `yard.baseLoadKwByHour.${hour}`,
        figures: { hour, limitKw },
      })),
    ],
  };
}
