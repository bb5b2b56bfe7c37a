import type { DayAnswer, SegmentShown } from "./answer.js";
import type { DaySegment } from "./segments.js";

/** The day as a person lives it: what the calculation cut in pieces, as the air of a long stand, is one again. */
export function segmentsShown(segments: readonly DaySegment[]): readonly SegmentShown[] {
  const found: SegmentShown[] = [];
  for (const segment of segments) {
    const last = found.at(-1);
    const next = shown(segment);
    if (last && isSameStand(last, next)) found[found.length - 1] = { ...last, toUtcMs: next.toUtcMs };
    else found.push(next);
  }
  return found;
}

const isSameStand = (a: SegmentShown, b: SegmentShown): boolean =>
  a.kind !== "drive" && a.kind === b.kind && a.label === b.label && a.inSun === b.inSun && a.onShift === b.onShift;

const shown = (segment: DaySegment): SegmentShown => ({
  fromUtcMs: segment.fromUtcMs,
  toUtcMs: segment.toUtcMs,
  kind: segment.kind,
  label: segment.label,
  km: segment.km,
  inSun: segment.directBlocked < 0.5,
  onShift: segment.onShift,
});

/** Places of the shift whose sockets the answer counts on after an instant: nobody has promised that they are free. */
export const socketsOnTheWay = ({ segments }: Pick<DayAnswer, "segments">, utcMs: number): readonly string[] => [
  ...new Set(
    segments.flatMap(({ kind, onShift, toUtcMs, label }) =>
      kind === "plug" && onShift && toUtcMs > utcMs ? [label] : [],
    ),
  ),
];
