import type { ComponentChildren } from "preact";

/** How a day stands against the line; `done` and `off` belong to the night board and to repair. */
export type MarkState = "enough" | "tight" | "short" | "notKnown" | "done" | "off";

const LINE = "M0 23h40v5H0z";
const CROSS = "M8 9l24 24M32 9 8 33";

/** What each state draws, on a 40 grid, standing on the line at 23 to 28. `small`: below 30 px hatching turns to noise. */
const DRAWN: Record<MarkState, (small: boolean) => ComponentChildren> = {
  enough: () => (
    <>
      <path d="M3 1 37 10.5V23H3z" class="m-ink" />
      <path d={LINE} class="m-ink" />
    </>
  ),
  tight: (small) => (
    <>
      <path d="M3 7 37 21v2H3z" class="m-ink" />
      <path d={LINE} class="m-ink" />
      <path d="M12 29.4h23.6v8.8z" class="m-wedge" fill={small ? "var(--ground)" : "url(#hatch-brick)"} />
    </>
  ),
  short: () => (
    <>
      <path d="M3 12.5 13 23H3z" class="m-ink" />
      <path d={LINE} class="m-ink" />
      <path d="M9 28h28v12h-8z" class="m-brick" />
    </>
  ),
  notKnown: () => (
    <>
      <path d="M0 23h9v5H0zM31 23h9v5h-9z" class="m-ink" />
      <path d="M4.5 3.5 35.5 10v26h-31z" class="m-line" stroke-width="2.8" stroke-dasharray="4.6 3.2" />
      <path d="M15.4 18.2c0-3 1.9-5 4.8-5s4.8 1.8 4.8 4.5c0 3.5-4.3 3.6-4.3 7.1" class="m-line" stroke-width="3.6" />
      <path d="M18.7 27.8h4v3.8h-4z" class="m-ink" />
    </>
  ),
  done: () => (
    <>
      <path d="M4.3 3 35.7 11.7V23H4.3z" class="m-line" stroke-width="2.6" />
      <path d={LINE} class="m-ink" />
      <path d="M5 38 36 3" class="m-ground" stroke-width="8" />
      <path d="M4 39 37 2" class="m-line" stroke-width="3.8" />
    </>
  ),
  off: () => (
    <>
      <path d={LINE} class="m-rule" />
      <path d={CROSS} class="m-ground" stroke-width="9" />
      <path d={CROSS} class="m-line" stroke-width="4.8" />
    </>
  ),
};

/** The mark: a day strip cut down to its last hour. Give `says` only where no word stands beside it. */
export function Mark({ state, size = 40, says }: { state: MarkState; size?: number; says?: string }) {
  const drawn = DRAWN[state](size < 30);
  if (says === undefined)
    return (
      <svg class="mark" width={size} height={size} viewBox="0 0 40 40" aria-hidden="true">
        {drawn}
      </svg>
    );
  return (
    <svg class="mark" width={size} height={size} viewBox="0 0 40 40" role="img" aria-label={says}>
      {drawn}
    </svg>
  );
}
