import { useEffect, useRef, useState } from "preact/hooks";
import type { StripModel } from "./strip-model.js";

const MOVE_MS = 240;
const STAY_MS = 3000;
type Line = Pick<StripModel, "hours" | "mid">;

const still = (): boolean => matchMedia("(prefers-reduced-motion: reduce)").matches;
const mix = (a: readonly number[], b: readonly number[], share: number): number[] =>
  b.map((value, i) => (a[i] ?? value) + (value - (a[i] ?? value)) * share);

const moved = (a: StripModel, b: StripModel): boolean =>
  a.mid.length !== b.mid.length || b.mid.some((value, i) => Math.abs(value - (a.mid[i] ?? value)) > 1e-4);

/**
 * The one motion of the app: when what a day stands on changes, the level moves from old to new and the old line stays dashed for a
 * while. Another vehicle or day (`key`) is shown at once.
 */
export function useMoving(model: StripModel | null, key: string): { model: StripModel | null; before: Line | null } {
  const last = useRef<{ model: StripModel | null; key: string }>({ model, key });
  const [shown, setShown] = useState(model);
  const [before, setBefore] = useState<Line | null>(null);
  useEffect(() => {
    const old = last.current;
    last.current = { model, key };
    const comparable = old.key === key && old.model?.known && model?.known && moved(old.model, model);
    if (!comparable || !old.model || !model) {
      setShown(model);
      setBefore(null);
      return;
    }
    const from = old.model;
    setBefore({ hours: from.hours, mid: from.mid });
    const end = setTimeout(() => setBefore(null), STAY_MS);
    let frame = 0;
    if (still() || from.hours.length !== model.hours.length) setShown(model);
    else {
      const began = performance.now();
      const step = (now: number) => {
        const share = Math.min(1, (now - began) / MOVE_MS);
        setShown({
          ...model,
          low: mix(from.low, model.low, share),
          mid: mix(from.mid, model.mid, share),
          high: mix(from.high, model.high, share),
        });
        if (share < 1) frame = requestAnimationFrame(step);
      };
      frame = requestAnimationFrame(step);
    }
    return () => {
      clearTimeout(end);
      cancelAnimationFrame(frame);
    };
  }, [model, key]);
  return { model: shown, before };
}
