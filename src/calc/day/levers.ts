import { HOUR_MS } from "../../units/numbers.js";
import type { DayAnswer } from "./answer.js";
import type { DayInput } from "./input.js";
import type { DaySegment } from "./segments.js";

/** One thing changed about a day, everything else as it was. */
export type DayChange =
  | { readonly kind: "km"; readonly by: number }
  | { readonly kind: "kg"; readonly by: number }
  | { readonly kind: "shadeHours"; readonly by: number }
  /** Degrees of slope on one kilometre of the way, up and down again. */
  | { readonly kind: "slopeDeg"; readonly by: number };

export interface Lever {
  readonly change: DayChange["kind"];
  /** Of what one unit costs: 1 km, 10 kg, 1 h of shade, 1 degree on a kilometre. */
  readonly per: number;
  /** Kilometres left that it costs, likely; below 0 it brings some. */
  readonly costKm: number;
}

/** Steps wide enough to stand out of the rounding, narrow enough to stay on the line; and what a screen counts in. */
const STEPS: readonly { readonly kind: DayChange["kind"]; readonly by: number; readonly per: number }[] = [
  { kind: "km", by: 2, per: 1 },
  { kind: "kg", by: 50, per: 10 },
  { kind: "shadeHours", by: 1, per: 1 },
  // on less than about 1 degree the way down gives back what the way up takes
  { kind: "slopeDeg", by: 3, per: 1 },
];

/**
 * What each km, each 10 kg, each hour of shade and each degree of slope costs in km: finite differences on the day's answer.
 * `answerOf` answers the changed day with the same dice as `base`.
 */
export function leversOf(base: DayAnswer, answerOf: (change: DayChange) => DayAnswer): Lever[] {
  return STEPS.map(({ kind, by, per }) => {
    const changed = answerOf({ kind, by });
    return { change: kind, per, costKm: ((base.kmLeft.p50 - changed.kmLeft.p50) * per) / by };
  });
}

/** Deep shade: trees in leaf or a wall. */
const DEEP = { directBlocked: 0.95, diffuseBlocked: 0.6 };

/** The day with so many hours of deep shade around the middle of its shift, or of the whole day without one. */
export function withShade(input: DayInput, hours: number): DayInput {
  const middle = middleOf(input);
  const from = middle - (hours / 2) * HOUR_MS;
  const to = middle + (hours / 2) * HOUR_MS;
  return { ...input, segments: input.segments.flatMap((segment) => shaded(segment, from, to)) };
}

function middleOf(input: DayInput): number {
  const shift = input.segments.filter((segment) => segment.onShift);
  const all = shift.length > 0 ? shift : input.segments;
  const first = all[0]?.fromUtcMs ?? input.nowUtcMs;
  const last = all[all.length - 1]?.toUtcMs ?? first;
  return (first + last) / 2;
}

function shaded(segment: DaySegment, fromUtcMs: number, toUtcMs: number): DaySegment[] {
  const cuts = [fromUtcMs, toUtcMs].map(Math.round).filter((cut) => cut > segment.fromUtcMs && cut < segment.toUtcMs);
  const edges = [segment.fromUtcMs, ...cuts, segment.toUtcMs];
  const long = segment.toUtcMs - segment.fromUtcMs;
  return edges.slice(1).map((end, i): DaySegment => {
    const start = edges[i] as number;
    const piece = { ...segment, fromUtcMs: start, toUtcMs: end, km: (segment.km * (end - start)) / long };
    if (start < Math.round(fromUtcMs) || end > Math.round(toUtcMs)) return piece;
    return {
      ...piece,
      directBlocked: Math.max(piece.directBlocked, DEEP.directBlocked),
      diffuseBlocked: Math.max(piece.diffuseBlocked, DEEP.diffuseBlocked),
    };
  });
}
