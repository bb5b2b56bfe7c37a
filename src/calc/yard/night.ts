/** A depot's night as plain values (format depot-night/1): who comes and goes, what each wants, and what the yard can give. */
export interface Night {
  readonly id: string;
  readonly title?: string;
  /** IANA name; decides only which tariff band a slot falls into. */
  readonly zone: string;
  readonly startUtcMs: number;
  readonly slotMinutes: number;
  readonly slotCount: number;
  readonly site: SitePower;
  readonly staff: Staff;
  readonly tariff: Tariff;
  readonly sockets: readonly Socket[];
  readonly stays: readonly Stay[];
  /** Sun on the roofs, kW per kW rated, by slot. */
  readonly sunKwPerKw?: readonly number[];
  /** A plan people already follow, and the moment it is planned again. */
  readonly published?: { readonly nowUtcMs: number; readonly sessions: readonly Session[] };
}

export interface SitePower {
  readonly limitKw: number;
  readonly marginKw: number;
  /** Other users of the meter, by slot. */
  readonly baseLoadKw: readonly number[];
  readonly cuts: readonly Span[];
}

export interface Span {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
}

export interface Staff {
  /** Somebody is awake, both ends included. */
  readonly awake: readonly Span[];
  /** Single moments at which somebody can be woken. */
  readonly wakeUtcMs: readonly number[];
  /** How many swaps one waking counts for. */
  readonly wakeWeightSwaps: number;
  /** Money that sparing one swap is worth to the owner: it is added to the money of a plan while plans are compared. Nothing when left out. */
  readonly swapWorth?: number;
}

export interface Band {
  /** Local wall clock `22:00`; a band may cross midnight, and the first that fits counts. */
  readonly from: string;
  readonly to: string;
  readonly perKwh: number;
}

interface Demand {
  /** Money per kW of the billed peak above what is billed anyway. */
  readonly demandPerKw?: number;
  readonly billedPeakKw?: number;
}

export type Tariff =
  | ({ readonly kind: "bands"; readonly bands: readonly Band[]; readonly otherwisePerKwh: number } & Demand)
  | ({ readonly kind: "flatFee"; readonly feePerCharge: number } & Demand)
  | ({ readonly kind: "none" } & Demand);

export interface Socket {
  readonly id: string;
  readonly limitKw: number;
  readonly plug: string;
  /** A timer can start and stop the charge; without one the charge begins at the plug-in and ends at the unplugging. */
  readonly timer: boolean;
}

export interface AcceptancePoint {
  readonly levelKwh: number;
  readonly kw: number;
}

/** One visit of a vehicle; all kWh are units on the meter, that is before charging loss. */
export interface Stay {
  readonly id: string;
  readonly arriveUtcMs: number;
  readonly departUtcMs: number;
  readonly fullKwh: number;
  readonly arriveKwh: number;
  readonly needKwh: number;
  readonly safeKwh: number;
  readonly chargerKw: number;
  /** Most power taken by level: straight between the points, concave, first at 0, last at full. */
  readonly acceptance: readonly AcceptancePoint[];
  readonly plugs: readonly string[];
  readonly roundWeight?: number;
  readonly fullDue: boolean;
  readonly roofKw?: number;
  readonly chemistry?: string;
}

/** One vehicle on one socket; a session is one uninterrupted run that only a power cut pauses. */
export interface Session {
  readonly stay: string;
  readonly socket: string;
  readonly plugUtcMs: number;
  readonly startUtcMs: number;
  readonly stopUtcMs: number;
  readonly unplugUtcMs: number;
}

/** What the checker reads (format depot-plan/1). */
export interface Plan {
  readonly format: "depot-plan/1";
  readonly night: string;
  readonly sessions: readonly Session[];
}

/** The eight aims, in the order in which they are compared. */
export interface Score {
  /** Stays that leave below their target. */
  readonly short: number;
  readonly shortWeight: number;
  readonly missingKwh: number;
  /** Promises of the published plan that are not kept. */
  readonly changes: number;
  readonly fullMissed: number;
  readonly money: number;
  /** Swaps, and wakings counted by their weight. */
  readonly handling: number;
  /** Slots from arrival until the target is reached, over all stays. */
  readonly readySlots: number;
}

export const AIMS = [
  "short",
  "shortWeight",
  "missingKwh",
  "changes",
  "fullMissed",
  "money",
  "handling",
  "readySlots",
] as const satisfies readonly (keyof Score)[];

const LEAST_DIFFERENCE: Partial<Record<keyof Score, number>> = { missingKwh: 0.006, money: 0.006 };

/** Below zero when `one` is the better plan; the aims are compared strictly in order, money and kWh to half a hundredth. */
export function compareScores(one: Score, other: Score): number {
  for (const aim of AIMS) {
    const difference = one[aim] - other[aim];
    if (Math.abs(difference) > (LEAST_DIFFERENCE[aim] ?? 0)) return difference;
  }
  return 0;
}
