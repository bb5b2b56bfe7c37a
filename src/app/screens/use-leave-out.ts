import { useEffect, useState } from "preact/hooks";
import type { Verdict } from "../../calc/day/answer.js";
import { askDay } from "../../work/ask-day.js";
import type { Answered } from "../answers.js";

const NOT_ENOUGH: readonly Verdict[] = ["tight", "short"];

/** Km that may be left out of a tight or short day for it to be enough, worked out once its answer is there; null until then, and where no km do it. */
export function useLeaveOut(known: Answered | undefined): number | null {
  const [found, setFound] = useState<{ readonly of: Answered; readonly km: number | null } | null>(null);
  useEffect(() => {
    if (!known || known.answer.stuck || !NOT_ENOUGH.includes(known.answer.verdict)) return;
    const stop = new AbortController();
    askDay("leaveOut", known.case, stop.signal).then(
      (km) => setFound({ of: known, km }),
      () => undefined, // given up, or the part that works it out has not come: then the day has one way less
    );
    return () => stop.abort();
  }, [known]);
  return found && found.of === known ? found.km : null;
}
