/** What a vehicle does for a while, with everything that holds steady meanwhile. Powers are at the battery terminals. */
export interface DaySegment {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  readonly kind: "drive" | "stop" | "park" | "plug";
  /** What a person calls it: the leg, the stop, the yard. */
  readonly label: string;
  readonly km: number;
  /** Mean W the drive line takes at drive factor 1; 0 while standing. */
  readonly drainW: number;
  /** Mean W that braking gives back at drive factor 1. */
  readonly regenW: number;
  /** Lamps, fridge, grinder, fan and the base load. */
  readonly otherW: number;
  /** Way the vehicle points, clockwise from north; null when it is not known: the mean over all ways is taken. */
  readonly headingDeg: number | null;
  /** Share of the sun's direct light, and of sky and ground light, that shade takes away, 0..1. */
  readonly directBlocked: number;
  readonly diffuseBlocked: number;
  /** Wind over the panels, with the wind of the road while driving. */
  readonly windMs: number;
  readonly airC: number;
  /** Most W that a charger gives to the battery side; 0 without a plug. */
  readonly chargerW: number;
  readonly payloadKg: number;
  /** True between leaving and coming home. */
  readonly onShift: boolean;
}
