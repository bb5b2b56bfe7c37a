/** A straight open-circuit line behind a constant resistance, charged at constant current, then at constant voltage. */
export interface CcCv {
  readonly capacityAh: number;
  /** 0..1 */
  readonly startShare: number;
  readonly emptyOpenCircuitV: number;
  readonly fullOpenCircuitV: number;
  readonly resistanceOhm: number;
  readonly chargeCurrentA: number;
  readonly limitV: number;
  readonly endCurrentA: number;
  /** Stored Ah of an Ah passed, 0..1. */
  readonly chargeAcceptance: number;
}
export interface CcCvCharge {
  readonly constantCurrentH: number;
  readonly constantVoltageH: number;
  readonly totalH: number;
  /** Level at the end of the constant-current part. */
  readonly switchShare: number;
  readonly endShare: number;
  readonly finalCurrentA: number;
  readonly passedAh: number;
  /** At the battery terminals. */
  readonly terminalWh: number;
}

interface Part {
  readonly hours: number;
  readonly endShare: number;
  readonly endA: number;
  readonly wh: number;
}
const voltAt = (of: CcCv, share: number): number =>
  of.emptyOpenCircuitV + (of.fullOpenCircuitV - of.emptyOpenCircuitV) * share;

/** Until the terminals meet the limit or the battery is full. */
function constantCurrent(of: CcCv): Part {
  const riseV = of.fullOpenCircuitV - of.emptyOpenCircuitV;
  const amps = of.chargeCurrentA;
  const spareV = of.limitV - amps * of.resistanceOhm - of.emptyOpenCircuitV;
  const meets = riseV > 0 ? spareV / riseV : spareV >= 0 ? 1 : 0;
  const endShare = Math.max(of.startShare, Math.min(1, meets));
  const hours = ((endShare - of.startShare) * of.capacityAh) / (of.chargeAcceptance * amps);
  const meanV = (voltAt(of, of.startShare) + voltAt(of, endShare)) / 2 + amps * of.resistanceOhm;
  return { hours, endShare, endA: amps, wh: hours * amps * meanV };
}

/** Current falls as exp(-t/tau) while the level rises, until the end current or full. */
function constantVoltage(of: CcCv, fromShare: number): Part {
  const startA = (of.limitV - voltAt(of, fromShare)) / of.resistanceOhm;
  const fullA = (of.limitV - of.fullOpenCircuitV) / of.resistanceOhm;
  const endA = Math.max(fullA, of.endCurrentA);
  if (startA < endA || startA <= of.endCurrentA)
    return { hours: 0, endShare: fromShare, endA: Math.max(0, startA), wh: 0 };
  const riseV = of.fullOpenCircuitV - of.emptyOpenCircuitV;
  if (riseV <= 0) return evenly(of, fromShare, startA);
  const tauH = (of.capacityAh * of.resistanceOhm) / (of.chargeAcceptance * riseV);
  const hours = tauH * Math.log(startA / endA);
  const gained = (of.chargeAcceptance * tauH * (startA - endA)) / of.capacityAh;
  const endShare = endA === fullA ? 1 : fromShare + gained;
  return { hours, endShare, endA, wh: of.limitV * tauH * (startA - endA) };
}

/** A flat line takes the same current until full. */
function evenly(of: CcCv, fromShare: number, amps: number): Part {
  const hours = ((1 - fromShare) * of.capacityAh) / (of.chargeAcceptance * amps);
  return { hours, endShare: 1, endA: amps, wh: hours * amps * of.limitV };
}

/**
 * Time and energy of a charge, closed form; a start above the limit begins at constant voltage. The line must rise or stay flat.
 * Source: the charge balance of a linear battery model, ds/dt = acceptance x I / capacity.
 */
export function ccCvCharge(of: CcCv): CcCvCharge {
  const first = constantCurrent(of);
  const atLimit = first.endShare < 1;
  const second = atLimit ? constantVoltage(of, first.endShare) : { hours: 0, endShare: 1, endA: first.endA, wh: 0 };
  return {
    constantCurrentH: first.hours,
    constantVoltageH: second.hours,
    totalH: first.hours + second.hours,
    switchShare: first.endShare,
    endShare: second.endShare,
    finalCurrentA: second.endA,
    passedAh: ((second.endShare - of.startShare) * of.capacityAh) / of.chargeAcceptance,
    terminalWh: first.wh + second.wh,
  };
}

/** Grid energy of a full recharge, Wh: Ah taken out x charge factor x mean charging voltage over the charger's efficiency. */
export const refillGridWh = (of: {
  readonly removedAh: number;
  readonly averageChargeV: number;
  /** Ah in over Ah out. */
  readonly chargeFactor: number;
  readonly chargerEfficiency: number;
}): number => (of.removedAh * of.chargeFactor * of.averageChargeV) / of.chargerEfficiency;
