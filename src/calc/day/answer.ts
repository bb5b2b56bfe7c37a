import type { LegProblem } from "../road/index.js";

/** The answer about one vehicle's day: what screens show and `npm run plan` prints. Levels are shares of the set's usable charge, 0..1. */

export type Verdict = "enough" | "tight" | "short" | "notKnown";

/** What would have to be typed for an answer. */
export type Missing = "reading" | "round" | "battery";

export type ReadingDoubt = "voltsSayLittle" | "notRested" | "outOfRange";

/** A leg that does not go as the round says: which gear it takes, how fast, that the slope cannot be climbed with this load, or that no road is so steep. */
export interface LegNote {
  /** Place in the round's parts, from 0. */
  readonly part: number;
  readonly label: string;
  readonly problem: LegProblem;
  readonly gear: number | null;
  readonly speedKmh: number;
  readonly payloadKg: number;
  /** When the leg is behind. */
  readonly untilUtcMs: number;
}

/** Quantiles of one quantity. */
export interface Band {
  readonly p05: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly p95: number;
}

/** Charge over time: one value per instant of `atUtcMs`. */
export interface LevelLines {
  readonly atUtcMs: readonly number[];
  readonly p05: readonly number[];
  readonly p10: readonly number[];
  readonly p50: readonly number[];
  readonly p90: readonly number[];
  readonly p95: readonly number[];
}

/** Sun of one clock hour, likely values in Wh at the battery side. `takenWh` went into loads or the set, the rest found no room. */
export interface SunHour {
  readonly fromUtcMs: number;
  readonly offeredWh: number;
  readonly takenWh: number;
  /** What the same hour would bring unshaded under a clear sky: the height of the hollow column. */
  readonly openSkyWh: number;
}

/** The book of a day in Wh at the battery side: start + grid + sunTaken + missing - drive - other - losses = end. */
export interface EnergyBook {
  readonly startWh: number;
  readonly endWh: number;
  readonly sunOfferedWh: number;
  readonly sunTakenWh: number;
  readonly sunSpilledWh: number;
  /** From the charger to the battery side. */
  readonly gridWh: number;
  readonly driveWh: number;
  readonly otherWh: number;
  readonly lossWh: number;
  /** Asked for and not there, once the set was empty. */
  readonly missingWh: number;
}

export type TopUpCode =
  | "none" // the shift is enough as it stands
  | "needed" // plug in for `gridKwh`
  | "fullNotEnough" // even a full set does not make the shift enough
  | "noTime" // not enough time is left before leaving
  | "cannotCharge"; // the set takes nothing: lithium below freezing

export interface TopUp {
  readonly code: TopUpCode;
  /** Units at the meter, kWh; 0 when none is needed. */
  readonly gridKwh: number;
  /** Level to charge to, likely. */
  readonly toShare: number;
  readonly chargeMinutes: number;
  /** Last moment to plug in; null when none is needed, when it is past, and when the set takes nothing. */
  readonly latestPlugInUtcMs: number | null;
  /** True when the shift is enough with the sun and would not be without it. */
  readonly sunDoesIt: boolean;
  /** Lowest level (low guess) if the sun brought nothing. */
  readonly lowestWithoutSun: number;
  /** Share of a full set that should be left empty tonight because the sun would fill it anyway; 0 when there is no such room. */
  readonly roomForSunShare: number;
  /** A full charge is due for the set's own sake (lead-acid). */
  readonly fullDue: boolean;
}

export interface DayAnswer {
  readonly vehicleId: string;
  readonly fromUtcMs: number;
  readonly leaveUtcMs: number | null;
  readonly homeUtcMs: number | null;
  /** Minutes that hills or weak drive make the vehicle later than the round says. */
  readonly lateMinutes: number;
  readonly legNotes: readonly LegNote[];
  readonly verdict: Verdict;
  /** A slope ahead is too steep for every gear: short, and no chance, whatever the charge. */
  readonly stuck: boolean;
  readonly missing: readonly Missing[];
  /** Why the reading behind the start says little, when it does. */
  readonly readingDoubt: ReadingDoubt | null;
  /** Chance of getting home with the lowest point above the reserve, 0..1. */
  readonly chance: number;
  /** The line: the reserve asked for, or the level at which the vehicle stops where that is higher. */
  readonly reserveShare: number;
  /** Level at which the vehicle stops with charge left: the set's floor, or the controller's cut-off at a start. */
  readonly floorShare: number;
  readonly lines: LevelLines;
  /** Level at the start of the answer, and of the lowest point between leaving and home. */
  readonly start: Band;
  readonly lowest: Band;
  readonly lowestAtUtcMs: number;
  /** Level on coming home. */
  readonly home: Band;
  /** Charge above the reserve at the lowest point, share of the set; negative is missing, what an emptied set could not give with it. */
  readonly spare: Band;
  /**
   * The same in km: what is left carries on without sun; negative is how many of the last km before the lowest point would have to be left
   * out, and with them the sun they would have met.
   */
  readonly kmLeft: Band;
  /** Hours the stall could go on at the lowest point, where standing takes more than driving; null elsewhere. */
  readonly hoursLeft: Band | null;
  /** Likely moment the level first goes below the reserve, and below where the vehicle stops; null when it does not. */
  readonly belowReserveUtcMs: number | null;
  readonly stopsUtcMs: number | null;
  readonly km: number;
  /** Likely Wh per km out of the set without sun, with the lamps and the losses of giving; those of charging are not in it. */
  readonly whPerKm: number;
  readonly usableWh: number;
  readonly book: EnergyBook;
  readonly sunHours: readonly SunHour[];
  /** Sun and drive energy of the shift in Wh, with doubt. */
  readonly sunTaken: Band;
  readonly drive: Band;
  readonly topUp: TopUp;
  readonly segments: readonly SegmentShown[];
  /** Where the doubt comes from: share of the variance of the lowest point, adding to 1. */
  readonly doubtShares: {
    readonly start: number;
    readonly drive: number;
    readonly sky: number;
    readonly other: number;
  };
}

/** A segment as screens draw it. */
export interface SegmentShown {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly kind: "drive" | "stop" | "park" | "plug";
  readonly label: string;
  readonly km: number;
  readonly inSun: boolean;
  readonly onShift: boolean;
}
