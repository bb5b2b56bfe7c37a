import { core } from "../words/core.js";

const percent = (hour: number): string => `${((hour / 24) * 100).toFixed(2)}%`;

/** 24 hours: night in ink, daylight in marigold, a pointer for now. The same place on every screen. */
export function Ribbon(props: { riseH: number | null; setH: number | null; nowH: number }) {
  const words = core.now();
  const { riseH, setH, nowH } = props;
  const known = riseH !== null && setH !== null;
  return (
    <svg
      class="ribbon"
      width="100%"
      height="14"
      role="img"
      aria-label={known ? words.ribbon(riseH, setH, nowH) : words.ribbonNow(nowH)}
    >
      <rect width="100%" height="8" fill="var(--ribbon)" />
      {known && (
        <rect
          class="daylight"
          x={percent(riseH)}
          width={percent(Math.max(0, setH - riseH))}
          y="1.5"
          height="5"
          fill="var(--sun)"
        />
      )}
      <svg x={percent(nowH)} overflow="visible" aria-hidden="true">
        <path d="M-7 14h14L0 5z" fill="var(--ink)" stroke="var(--ground)" stroke-width="1.5" />
      </svg>
    </svg>
  );
}
