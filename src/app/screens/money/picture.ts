/** A row of values for a picture; null leaves a gap, as a missing day does. */
export interface Series {
  readonly word: string;
  readonly kind: "bars" | "line" | "steps";
  /** Ink is sure, doubt is a guess's edge, plug is money paid in. */
  readonly look: "ink" | "doubt" | "plug";
  readonly values: readonly (number | null)[];
  /** The room between this edge and the series before it is doubt. */
  readonly fillTo?: "before";
}
export interface Picture {
  /** What the picture says in one sentence, for those who do not see it. */
  readonly says: string;
  readonly labels: readonly string[];
  readonly series: readonly Series[];
}
