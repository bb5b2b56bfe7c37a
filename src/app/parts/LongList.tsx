import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

/** A long list in a scrolling place: only the rows near the glass are drawn. Every row has the same height. */
export function LongList<T>(props: {
  readonly items: readonly T[];
  readonly rowPx: number;
  readonly row: (item: T) => ComponentChildren;
}) {
  const { items, rowPx } = props;
  const place = useRef<HTMLUListElement>(null);
  const [seen, setSeen] = useState({ from: 0, to: 20 });
  useLayoutEffect(() => {
    const list = place.current;
    const scroller = list?.closest(".mid, .rows");
    if (!list || !scroller) return;
    const look = () => {
      const above = scroller.getBoundingClientRect().top - list.getBoundingClientRect().top;
      const from = Math.max(0, Math.floor(above / rowPx) - 6);
      const to = Math.ceil((above + scroller.clientHeight) / rowPx) + 6;
      setSeen((old) => (old.from === from && old.to === to ? old : { from, to }));
    };
    look();
    scroller.addEventListener("scroll", look, { passive: true });
    addEventListener("resize", look);
    return () => {
      scroller.removeEventListener("scroll", look);
      removeEventListener("resize", look);
    };
  }, [rowPx, items.length]);
  const shown = items.slice(seen.from, seen.to);
  const before = Math.min(seen.from, items.length) * rowPx;
  const after = Math.max(0, items.length - seen.to) * rowPx;
  return (
    <ul ref={place} class="long" style={{ paddingTop: `${before}px`, paddingBottom: `${after}px` }}>
      {shown.map((item) => props.row(item))}
    </ul>
  );
}
