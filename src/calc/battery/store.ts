import { clamp, interpolate } from "../../units/numbers.js";
import { coldFactor, restedVoltage } from "./curves.js";
import type { AtShare, Battery, Chemistry, PowerAtShare, StoreModel } from "./types.js";

const isLead = (chemistry: Chemistry): boolean => chemistry !== "lfp";

/**
 * Capacity over that at 25 C. LFP: at least 70, 80, 100 and 95 % at -20, 0, 25 and 55 C on a data sheet of a 24 V 25 Ah pack, about 90 % at
 * 0 C by a dealer: 85 % taken there. Lead-acid: 60 to 65 % at -18 C, 80 to 85 % at 0 C (from memory).
 */
const CAPACITY = {
  lfp: { cellC: [-20, 0, 25, 45, 55], share: [0.7, 0.85, 1, 1, 0.95] },
  lead: { cellC: [-20, 0, 25, 55], share: [0.62, 0.825, 1, 1] },
};
/** Share of the capacity at 25 C that a set gives at a temperature, -20..55 C; held flat beyond. */
export function capacityFactor(chemistry: Chemistry, cellC: number): number {
  const of = isLead(chemistry) ? CAPACITY.lead : CAPACITY.lfp;
  return interpolate(of.cellC, of.share, cellC);
}

/**
 * Most charging current over the capacity, 1/h, by temperature. LFP: nothing below 0 C (lithium plates), 0.1 up to 10 C, 0.5 in the good band,
 * 0.1 towards 55 C and nothing above. Source: operation manual of a 48 V 50 Ah LFP battery, table 4.3, at its fast figures below 0.5.
 * Lead-acid: 0.2 flooded and 0.25 sealed in the first part of a charge, half of it at 0 C (common practice).
 */
function bulkRatePerH(chemistry: Chemistry, cellC: number): number {
  if (chemistry === "lfp") {
    if (cellC < 0 || cellC > 55) return 0;
    return interpolate([0, 10, 15, 45, 50], [0.1, 0.1, 0.5, 0.5, 0.1], cellC);
  }
  if (cellC > 55) return 0;
  return (chemistry === "floodedLead" ? 0.2 : 0.25) * interpolate([-20, 0, 25], [0.2, 0.5, 1], cellC);
}
/** Level from which the set takes less and less, and the rate left when full: a constant voltage behind a resistance makes it a straight fall. */
const TAPER: Readonly<Record<Chemistry, { readonly fromShare: number; readonly endRatePerH: number }>> = {
  lfp: { fromShare: 0.95, endRatePerH: 0.05 },
  floodedLead: { fromShare: 0.8, endRatePerH: 0.02 },
  sealedLead: { fromShare: 0.8, endRatePerH: 0.02 },
};
/** Mean voltage while charging over the rested one (lead-acid 2.35 over 2.06 V a cell; LFP with its hysteresis; from memory). */
const CHARGE_OVER_RESTED: Readonly<Record<Chemistry, number>> = { lfp: 1.02, floodedLead: 1.14, sealedLead: 1.13 };

function acceptanceOf(battery: Battery, cellC: number): readonly PowerAtShare[] {
  const { fromShare, endRatePerH } = TAPER[battery.chemistry];
  const bulk = bulkRatePerH(battery.chemistry, cellC);
  const wPerRate = battery.ratedAh * battery.health * battery.nominalV * CHARGE_OVER_RESTED[battery.chemistry];
  const w = (rate: number) => rate * wPerRate;
  return [
    { share: 0, w: w(bulk) },
    { share: fromShare, w: w(bulk) },
    { share: 1, w: w(Math.min(bulk, endRatePerH)) },
  ];
}

/**
 * Stored Ah of an Ah put in, by level. Lead-acid: above 95 % at low levels, falling near full (Stevens and Corey, IEEE PVSC 1996); laid so that a charge
 * from 20 % takes the charge factors 1.10 to 1.20 of flooded and 1.05 to 1.12 of sealed sets (from memory). LFP: 0.99 or more (from memory).
 */
const CHARGE_KEPT: Readonly<Record<Chemistry, readonly (readonly [share: number, kept: number])[]>> = {
  lfp: [
    [0, 0.995],
    [1, 0.995],
  ],
  floodedLead: [
    [0, 0.97],
    [0.6, 0.94],
    [0.8, 0.85],
    [0.9, 0.65],
    [1, 0.5],
  ],
  sealedLead: [
    [0, 0.98],
    [0.6, 0.97],
    [0.8, 0.93],
    [0.9, 0.85],
    [1, 0.7],
  ],
};
const storedOf = (chemistry: Chemistry): readonly AtShare[] =>
  CHARGE_KEPT[chemistry].map(([share, kept]) => ({ share, value: kept / CHARGE_OVER_RESTED[chemistry] }));

/** Share of the capacity lost in a month at 25 C, doubling with every 10 K (common practice). */
const LOST_PER_MONTH: Readonly<Record<Chemistry, number>> = { lfp: 0.03, floodedLead: 0.06, sealedLead: 0.03 };
const MONTH_H = 730;

/** Usable now, Wh: rated x health x temperature. */
export const usableWh = (battery: Battery, cellC: number): number =>
  battery.ratedAh * battery.nominalV * battery.health * capacityFactor(battery.chemistry, cellC);

/**
 * The set at a cell temperature of -20..60 C; figures and sources above.
 * Assumes the whole set at one temperature and no weak block.
 */
export function storeModel(battery: Battery, cellC: number): StoreModel {
  const wh = usableWh(battery, cellC);
  const restedV = restedVoltage(battery, 0.5);
  return {
    usableWh: wh,
    lossPerW: (battery.resistanceOhm * coldFactor(battery.chemistry, cellC)) / restedV ** 2,
    peukertExponent: isLead(battery.chemistry) ? battery.peukertExponent : 1,
    peukertRatedW: (battery.ratedAh * battery.nominalV) / battery.ratedHours,
    acceptance: acceptanceOf(battery, cellC),
    stored: storedOf(battery.chemistry),
    selfDischargeW: (wh * LOST_PER_MONTH[battery.chemistry] * 2 ** ((cellC - 25) / 10)) / MONTH_H,
  };
}

/**
 * Rate at which the set empties while `terminalW` flows out, W of `usableWh`: resistance, and Peukert above the rated rate. Below it Peukert is left
 * out, or a lamp would last for ever.
 */
export function emptyingW(store: StoreModel, terminalW: number): number {
  const withHeat = terminalW * (1 + store.lossPerW * terminalW);
  const over = terminalW / store.peukertRatedW;
  return over > 1 && store.peukertExponent > 1 ? withHeat * over ** (store.peukertExponent - 1) : withHeat;
}

export const acceptanceW = (store: StoreModel, share: number): number => {
  const at = clamp(share, 0, 1);
  let i = 1;
  while (i < store.acceptance.length - 1 && at > (store.acceptance[i] as PowerAtShare).share) i++;
  const a = store.acceptance[i - 1] as PowerAtShare;
  const b = store.acceptance[i] as PowerAtShare;
  return a.w + ((b.w - a.w) * (at - a.share)) / (b.share - a.share);
};

export const storedShare = (store: StoreModel, share: number): number => {
  const at = clamp(share, 0, 1);
  let i = 1;
  while (i < store.stored.length - 1 && at > (store.stored[i] as AtShare).share) i++;
  const a = store.stored[i - 1] as AtShare;
  const b = store.stored[i] as AtShare;
  return a.value + ((b.value - a.value) * (at - a.share)) / (b.share - a.share);
};
