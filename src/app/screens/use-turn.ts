import { useEffect, useState } from "preact/hooks";
import type { TurnPoint } from "../../work/advice.js";
import { askDay } from "../../work/ask-day.js";
import type { Answered } from "../answers.js";
import { nowUtcMs } from "../state.js";

/** Where to turn, worked out on the day as it stands; null until it is known. */
export function useTurn(known: Answered | undefined, outKm: number): TurnPoint | null {
  const [point, setPoint] = useState<TurnPoint | null>(null);
  useEffect(() => {
    if (!known) return;
    const stop = new AbortController();
    const given = { ...known.case, nowUtcMs: nowUtcMs.peek() };
    askDay("turnPoint", { given, outKm }, stop.signal).then(setPoint, (problem: unknown) => {
      if (!stop.signal.aborted) throw problem;
    });
    return () => stop.abort();
  }, [known, outKm]);
  return point;
}
