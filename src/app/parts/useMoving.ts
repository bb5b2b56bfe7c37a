import { useEffect, useRef, useState } from "preact/hooks";
import type { Line } from "./moving.js";
import type { StripModel } from "./strip-model.js";

/**
 * The one motion of the app: when what a day stands on changes, the level moves from old to new and the old line stays dashed for a
 * while. Another vehicle or day (`key`) is shown at once. What moves it is fetched at the first change.
 */
export function useMoving(model: StripModel | null, key: string): { model: StripModel | null; before: Line | null } {
  const last = useRef<{ model: StripModel | null; key: string }>({ model, key });
  const [shown, setShown] = useState(model);
  const [before, setBefore] = useState<Line | null>(null);
  useEffect(() => {
    const old = last.current;
    last.current = { model, key };
    const from = old.model;
    if (old.key !== key || !from?.known || !model?.known || from === model) {
      setShown(model);
      setBefore(null);
      return;
    }
    let over = false;
    let stop = () => {};
    import("./moving.js").then(
      ({ moveLevel }) => {
        if (!over) stop = moveLevel(from, model, { show: setShown, before: setBefore });
      },
      () => over || setShown(model),
    );
    return () => {
      over = true;
      stop();
    };
  }, [model, key]);
  return { model: shown, before };
}
