import type { Charger, StoreModel } from "../battery/index.js";
import type { DaySegment } from "../day/segments.js";
import type { Roof } from "../roof/index.js";
import type { Site, UsualSky } from "../sun/index.js";

/** A usual day of one month, from coming home to coming home. Both lists cover the same 24 hours. */
export interface SizingMonth {
  readonly days: number;
  /** Parked from the evening before, then the shift. */
  readonly workDay: readonly DaySegment[];
  /** Parked all the time. */
  readonly restDay: readonly DaySegment[];
  readonly usualSky: UsualSky;
  readonly linkeTurbidity: number;
  /** The set of a size at the month's temperature. */
  readonly storeOf: (packWh: number) => StoreModel;
}

export interface SizingCase {
  readonly site: Site;
  readonly albedo: number;
  /** January to December. */
  readonly months: readonly SizingMonth[];
  /** The roof as it is built; other sizes of it give power in proportion to their watts. */
  readonly roof: Roof;
  /** Sizes to try, rising: watts of the roof, Wh of the set. */
  readonly roofW: readonly number[];
  readonly packWh: readonly number[];
  /** Consumption of a vehicle that carries such a kit, over that of the segments: panels and sets weigh. [1] */
  readonly driveFactor: (roofW: number, packWh: number) => number;
  readonly reserveShare: number;
  readonly charger: Charger;
  /** Lead-acid wants a full charge so often; null for sets that do not. */
  readonly fullChargeEveryDays: number | null;
  /** 1 to 7. */
  readonly workDaysPerWeek: number;
  /** What a plug-in charges to: what tomorrow needs, or full. */
  readonly plugTo: "need" | "full";
  /** Years to draw, and where the dice start. */
  readonly years: number;
  readonly seed: number;
}

/** How a day of the year went. */
export const DAY_MARK = { sun: 0, plug: 1, short: 2, rest: 3 } as const;

export interface SizingMonthResult {
  /** Mean over the years drawn. */
  readonly daysWithoutPlug: number;
  readonly daysShort: number;
  readonly gridKwh: number;
  readonly sunTakenKwh: number;
  readonly sunSpilledKwh: number;
  readonly usedKwh: number;
}

/** What a size of roof and set does over a year. */
export interface SizingCell {
  readonly roofW: number;
  readonly packWh: number;
  /** Mean of the years drawn, and one year in ten below and above. */
  readonly daysWithoutPlug: number;
  readonly poorYear: number;
  readonly goodYear: number;
  readonly daysShort: number;
  readonly gridKwh: number;
  readonly months: readonly SizingMonthResult[];
  /** DAY_MARK of each day of a middling year, 1 January first. */
  readonly marks: Uint8Array;
}

/** Why a month brings less than the best one of the year: the sun stands low, clouds, or dust and haze; null where it hardly does. */
export type MonthCause = "lowSun" | "cloud" | "dust" | null;

export interface SizingYear {
  /** By roof, then by set, as in the case. */
  readonly cells: readonly SizingCell[];
  readonly causes: readonly MonthCause[];
  /** Sun that one watt of the roof offers on a mean day of each month. [Wh] */
  readonly sunPerWattWh: readonly number[];
}
