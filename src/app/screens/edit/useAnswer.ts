import { useEffect, useRef, useState } from "preact/hooks";
import type { DayCase } from "../../../records/map/day.js";
import { askDay } from "../../../work/ask-day.js";
import type { Answered } from "../../answers.js";

/**
 * The answer to a case that changes under the reader's fingers: the last one stays until the next is there, and an ask that is overtaken is
 * given up. `key` names what the case stands on.
 */
export function useAnswer(asked: DayCase | null, key: string): Answered | null {
  const [answered, setAnswered] = useState<Answered | null>(null);
  const latest = useRef(asked);
  latest.current = asked;
  useEffect(() => {
    const now = latest.current;
    if (!now) return;
    const gaveUp = new AbortController();
    askDay("answerDay", now, gaveUp.signal)
      .then((answer) => setAnswered({ case: now, answer }))
      .catch((why: unknown) => {
        if (!gaveUp.signal.aborted) throw why;
      });
    return () => gaveUp.abort();
  }, [key]);
  return asked ? answered : null;
}
