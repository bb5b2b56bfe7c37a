/** m3 of air per Ah of gas current and cell: dilution 24, 0.42e-3 m3/Ah of hydrogen, safety 5, rounded by the standard. Source: IEC 62485-2/-3. */
const AIR_M3_PER_AH = 0.05;
/** Opening in cm2 per m3/h for 0.1 m/s of natural draught. Source: IEC 62485-2/-3. */
const OPENING_CM2_PER_M3H = 28;
/** Free room in m3 per m3/h below which openings alone do not do. Source: IEC 62485-2/-3. */
const FREE_M3_PER_M3H = 2.5;

/** Current that makes gas near the end of a charge, mA per rated Ah. Source: IEC 62485-3 (traction), charger with 2.4 V a cell; 1 A per 100 Ah = 10 mA/Ah. */
export const GAS_MA_PER_AH = { floodedLead: 20, sealedLead: 10 } as const;
/** The same for a plain charger that holds no voltage limit. Source: IEC 62485-3 (traction). */
export const GAS_MA_PER_AH_NO_LIMIT = { floodedLead: 60, sealedLead: 15 } as const;

/** One or several like sets on charge in one room. */
export interface GassingSet {
  readonly cellsInSeries: number;
  readonly gasCurrentMaPerAh: number;
  readonly ratedAh: number;
  /** How many of them charge at the same time. */
  readonly strings: number;
}

export interface Ventilation {
  readonly airflowM3H: number;
  /** Of inlet and outlet, each. */
  readonly openingCm2: number;
  readonly freeVolumeM3: number;
}

/** Air that keeps hydrogen thin where lead-acid sets charge together: flow in m3/h, openings in cm2, least free room in m3. Source: IEC 62485-2/-3. */
export function ventilation(sets: readonly GassingSet[]): Ventilation {
  const airflowM3H = sets.reduce(
    (sum, set) => sum + (AIR_M3_PER_AH * set.strings * set.cellsInSeries * set.gasCurrentMaPerAh * set.ratedAh) / 1000,
    0,
  );
  return {
    airflowM3H,
    openingCm2: OPENING_CM2_PER_M3H * airflowM3H,
    freeVolumeM3: FREE_M3_PER_M3H * airflowM3H,
  };
}
