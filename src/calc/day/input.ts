import type { StoreModel } from "../battery/index.js";
import type { Roof } from "../roof/index.js";
import { DAY_TOGETHER } from "../sun/index.js";
import type { LegNote, Missing, ReadingDoubt } from "./answer.js";
import type { Doubt } from "./draws.js";
import type { DaySegment } from "./segments.js";
import type { DaySky } from "./sky-table.js";

/** All that the answer about one vehicle's day depends on. */
export interface DayInput {
  readonly vehicleId: string;
  readonly nowUtcMs: number;
  /** From the last known charge on, without a gap, in time order; shift segments are marked. */
  readonly segments: readonly DaySegment[];
  /** Midnight of the shift's day at the place: sums of energy count from here. */
  readonly dayFromUtcMs: number;
  readonly sky: DaySky;
  readonly roof: Roof | null;
  readonly store: StoreModel;
  /** The same set as cold as it is in the night before, when it would be plugged in. */
  readonly nightStore: StoreModel;
  /** "The line": level that is kept back. */
  readonly reserveShare: number;
  /** Level at which the vehicle stops: the maker's floor, or the controller's cut-off under the start-off current. */
  readonly floorShare: number;
  /** Charger used before the shift: most W into the battery side, and its share of the meter's units that arrives there. */
  readonly chargerW: number;
  readonly chargerEfficiency: number;
  /** When it may stand on a socket before the shift, in order: at the yard, no slot of its own yet, no cut announced. Left out: all the time. */
  readonly plugSpans?: readonly { readonly fromUtcMs: number; readonly toUtcMs: number }[];
  readonly doubt: Doubt;
  readonly missing: readonly Missing[];
  readonly readingDoubt: ReadingDoubt | null;
  readonly lateMinutes: number;
  readonly legNotes: readonly LegNote[];
  readonly fullDue: boolean;
  readonly draws: number;
  readonly seed: number;
}

/** Figures of the doubt where nothing has been learned. Common practice, no source, but for the drive line (methods: prior spread 20 %). */
export const PRIOR_DOUBT = {
  driveSdLog: 0.2,
  /** Band 0.45 to 0.90 around a share of 0.70 on the road (80 %), less what the shade classes already say. */
  roofSdLog: 0.22,
  otherSdLog: 0.25,
  coverDayCorrelation: DAY_TOGETHER,
} as const;

export const DRAWS = 256;
