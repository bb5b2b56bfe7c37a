import type { Battery, Chemistry } from "./types.js";

/**
 * fullCharge: fill it to the end (lead-acid against sulphation, lithium so that its cells and its counter even out); water: distilled water and
 * terminals; notFlat: do not leave it standing low; noColdCharge, slowColdCharge, noHotCharge: lithium by temperature.
 */
export type CareCode = "fullCharge" | "water" | "notFlat" | "noColdCharge" | "slowColdCharge" | "noHotCharge";

export interface CareItem {
  readonly code: CareCode;
  /** 0 or less: now. */
  readonly dueInDays: number;
}

export interface CareState {
  /** Null when nobody knows. */
  readonly daysSinceFull: number | null;
  readonly daysSinceWater: number | null;
  /** From the vehicle's record; null for the usual of its chemistry. */
  readonly fullChargeEveryDays: number | null;
  readonly cellC: number;
  readonly share: number | null;
}

/** Days between full charges (common practice, no source): lead-acid weekly, lithium monthly. */
const FULL_EVERY: Readonly<Record<Chemistry, number>> = { lfp: 30, floodedLead: 7, sealedLead: 7 };
/** Water once a month, oftener in heat; never left flat (common practice, no source). */
const WATER_EVERY = 30;
const WATER_EVERY_HOT = 15;
const HOT_C = 35;
const FLAT_SHARE = 0.3;
/** Of a lithium set, by its maker's table as in store.ts: nothing below 0 C or above 55 C, slowly up to 10 C. */
export const LFP_CHARGE_C = { noneBelow: 0, slowBelow: 10, noneAbove: 55 } as const;

/** Days until the set wants a full charge for its own sake, 0 or less when due; one of unknown age counts as due. */
export const fullChargeDueIn = (
  chemistry: Chemistry,
  state: Pick<CareState, "daysSinceFull" | "fullChargeEveryDays">,
): number =>
  state.daysSinceFull === null ? 0 : (state.fullChargeEveryDays ?? FULL_EVERY[chemistry]) - state.daysSinceFull;

function lithium(cellC: number): CareItem[] {
  if (cellC < LFP_CHARGE_C.noneBelow) return [{ code: "noColdCharge", dueInDays: 0 }];
  if (cellC < LFP_CHARGE_C.slowBelow) return [{ code: "slowColdCharge", dueInDays: 0 }];
  return cellC > LFP_CHARGE_C.noneAbove ? [{ code: "noHotCharge", dueInDays: 0 }] : [];
}

function lead(chemistry: Chemistry, state: CareState): CareItem[] {
  const items: CareItem[] = [];
  const every = state.cellC > HOT_C ? WATER_EVERY_HOT : WATER_EVERY;
  if (chemistry === "floodedLead" && state.daysSinceWater !== null)
    items.push({ code: "water", dueInDays: every - state.daysSinceWater });
  if (state.share !== null && state.share < FLAT_SHARE) items.push({ code: "notFlat", dueInDays: 0 });
  return items;
}

/** What a set of this chemistry asks for, most pressing first. The maker's manual goes first. */
export function careOf(battery: Pick<Battery, "chemistry">, state: CareState): readonly CareItem[] {
  const { chemistry } = battery;
  const full: CareItem = { code: "fullCharge", dueInDays: fullChargeDueIn(chemistry, state) };
  const own = chemistry === "lfp" ? lithium(state.cellC) : lead(chemistry, state);
  return [...own, full].sort((a, b) => a.dueInDays - b.dueInDays);
}
