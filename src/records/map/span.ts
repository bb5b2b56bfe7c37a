export interface Span {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
}

/** What is left of a span when others are taken out of it, in order. */
export function spanWithout({ fromUtcMs, toUtcMs }: Span, others: readonly Span[]): Span[] {
  const within = others
    .filter((other) => other.toUtcMs > fromUtcMs && other.fromUtcMs < toUtcMs)
    .sort((a, b) => a.fromUtcMs - b.fromUtcMs);
  const spans: Span[] = [];
  let at = fromUtcMs;
  for (const other of within) {
    if (other.fromUtcMs > at) spans.push({ fromUtcMs: at, toUtcMs: other.fromUtcMs });
    at = Math.max(at, other.toUtcMs);
  }
  if (at < toUtcMs) spans.push({ fromUtcMs: at, toUtcMs });
  return spans;
}
