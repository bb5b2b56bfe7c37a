import { DAY_MARK } from "../../calc/sizing/input.js";

const LEFT = 30;
const RIGHT = 44;
const ROW = 15;
const TALL = 12.5;
const DAYS_IN = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

interface Props {
  readonly marks: Uint8Array;
  readonly width: number;
  /** First letters of the months, and the whole picture in words. */
  readonly letters: readonly string[];
  readonly counts: readonly string[];
  readonly says: string;
}

/** A year as 365 boxes: full where the sun was enough, two pins where the plug was needed, a wedge where it was short. */
export function KitYear({ marks, width, letters, counts, says }: Props) {
  const pitch = (width - LEFT - RIGHT) / 31;
  const paths = pathsOf(marks, pitch);
  const height = 12 * ROW;
  return (
    <svg class="kit-year" width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={says}>
      <path class="ky-rest" d={paths.rest} />
      <path class="ky-sun" d={paths.sun} />
      <path class="ky-plug" d={paths.plug} />
      <path class="ky-short" d={paths.short} />
      {letters.map((letter, m) => (
        <g key={letter + String(m)}>
          <text x={LEFT - 9} y={m * ROW + 12} text-anchor="end">
            {letter}
          </text>
          <text x={width - 12} y={m * ROW + 12} text-anchor="end">
            {counts[m]}
          </text>
        </g>
      ))}
    </svg>
  );
}

function pathsOf(marks: Uint8Array, pitch: number): { sun: string; plug: string; short: string; rest: string } {
  const paths = { sun: "", plug: "", short: "", rest: "" };
  const r = (value: number): string => value.toFixed(1);
  const wide = pitch - 1;
  let day = 0;
  DAYS_IN.forEach((days, month) => {
    const y = month * ROW + 1;
    for (let d = 0; d < days; d++, day++) {
      const x = LEFT + d * pitch;
      const box = `M${r(x)} ${y}h${r(wide)}v${TALL}h${r(-wide)}z`;
      if (marks[day] === DAY_MARK.sun) paths.sun += box;
      else if (marks[day] === DAY_MARK.rest) paths.rest += `M${r(x)} ${y + TALL}h${r(wide)}`;
      else if (marks[day] === DAY_MARK.short)
        paths.short += `M${r(x)} ${y}h${r(wide)}v${r(TALL * 0.4)}L${r(x)} ${y + TALL}z`;
      else paths.plug += `M${r(x + wide * 0.32)} ${y + 4}v${TALL - 5}M${r(x + wide * 0.74)} ${y + 4}v${TALL - 5}`;
    }
  });
  return paths;
}

/** The same shapes beside their words. */
export function KitLegend({
  words,
  shown,
}: {
  words: Readonly<Record<LegendMark, string>>;
  shown: readonly LegendMark[];
}) {
  return (
    <ul class="kit-legend" aria-hidden="true">
      {shown.map((mark) => (
        <li key={mark}>
          <svg width="12" height="14" viewBox="0 0 12 14" aria-hidden="true">
            <path class={`ky-${mark}`} d={SHAPES[mark]} />
          </svg>
          {words[mark]}
        </li>
      ))}
    </ul>
  );
}
export type LegendMark = "sun" | "plug" | "short" | "rest";
const SHAPES: Record<LegendMark, string> = {
  sun: "M1 1h10v12h-10z",
  plug: "M3.5 3v9M8.5 3v9",
  short: "M1 1h10v5L1 13z",
  rest: "M1 13h10",
};
