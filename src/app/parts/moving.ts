import type { StripModel } from "./strip-model.js";

const MOVE_MS = 240;
const STAY_MS = 3000;
export type Line = Pick<StripModel, "hours" | "mid">;

/** Where the moving level is shown. */
export interface Stage {
  readonly show: (model: StripModel) => void;
  /** The old line, dashed; null takes it away. */
  readonly before: (line: Line | null) => void;
}

const still = (): boolean => matchMedia("(prefers-reduced-motion: reduce)").matches;
const mix = (a: readonly number[], b: readonly number[], share: number): number[] =>
  b.map((value, i) => (a[i] ?? value) + (value - (a[i] ?? value)) * share);

const moved = (a: StripModel, b: StripModel): boolean =>
  a.mid.length !== b.mid.length || b.mid.some((value, i) => Math.abs(value - (a.mid[i] ?? value)) > 1e-4);

/** Moves the level from the old picture to the new one and leaves the old line dashed for a while; the function given back ends it. */
export function moveLevel(from: StripModel, to: StripModel, { show, before }: Stage): () => void {
  if (!moved(from, to)) {
    show(to);
    before(null);
    return () => undefined;
  }
  before({ hours: from.hours, mid: from.mid });
  const end = setTimeout(() => before(null), STAY_MS);
  let frame = 0;
  if (still() || from.hours.length !== to.hours.length) show(to);
  else {
    const began = performance.now();
    const step = (now: number) => {
      const share = Math.min(1, (now - began) / MOVE_MS);
      show({
        ...to,
        low: mix(from.low, to.low, share),
        mid: mix(from.mid, to.mid, share),
        high: mix(from.high, to.high, share),
      });
      if (share < 1) frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
  }
  return () => {
    clearTimeout(end);
    cancelAnimationFrame(frame);
  };
}
