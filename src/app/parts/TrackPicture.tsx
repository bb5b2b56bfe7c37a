import type { TrackPicture as Picture } from "../../records/import/track-picture.js";

const LANE = 74;
const SPEED = 46;
const AXIS = 18;
const GAP = 8;

interface Words {
  readonly height: string;
  readonly speed: string;
  readonly kmh: (kmh: number) => string;
  readonly metres: (m: number) => string;
  readonly km: (km: number) => string;
  readonly picture: string;
}

/** Height and speed of a track along its km, with a post where it stood. */
export function TrackProfile({ of, width, words }: { of: Picture; width: number; words: Words }) {
  const km = of.km[of.km.length - 1] ?? 0;
  const x = (i: number): number => (i / Math.max(1, of.km.length - 1)) * width;
  const heights = of.heightM ?? of.km.map(() => 0);
  const low = Math.min(...heights);
  const high = Math.max(...heights, low + 10);
  const base = SPEED + GAP + LANE;
  const top = (m: number): number => base - 6 - ((m - low) / (high - low)) * (LANE - 24);
  const fastest = Math.max(1, ...(of.speedKmh ?? []));
  const mass = heights.map((m, i) => `${x(i).toFixed(1)} ${top(m).toFixed(1)}`).join("L");
  const speed = (of.speedKmh ?? []).map(
    (v, i) => `${x(i).toFixed(1)} ${(SPEED - (v / fastest) * (SPEED - 18)).toFixed(1)}`,
  );
  const height = base + AXIS;
  return (
    <svg
      class="track-picture"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={words.picture}
    >
      {speed.length > 0 && (
        <>
          <text x={0} y={12}>
            {words.speed}, {words.kmh(Math.round(fastest))}
          </text>
          <path class="t-speed" d={`M${speed.join("L")}`} />
          <path class="t-axis" d={`M0 ${SPEED}H${width}`} />
        </>
      )}
      {of.heightM && (
        <text x={0} y={SPEED + GAP + 10}>
          {words.height}, {words.metres(Math.round(high - low))}
        </text>
      )}
      <path class="t-height" d={`M0 ${base}L${mass}L${width} ${base}z`} />
      {of.stopsKm.map((at) => (
        <path
          key={at}
          class="t-post"
          d={`M${((at / Math.max(km, 0.001)) * width).toFixed(1)} ${SPEED + GAP + 14}V${base}`}
        />
      ))}
      <text x={0} y={height - 3}>
        {words.km(0)}
      </text>
      <text x={width} y={height - 3} text-anchor="end">
        {words.km(km)}
      </text>
    </svg>
  );
}

/** The way as a bare line; where it lies is not known here. */
export function TrackWay({ of, size }: { of: Picture; size: number }) {
  const { x, y } = of.outline;
  const at = (i: number): string =>
    `${(6 + (x[i] ?? 0) * (size - 12)).toFixed(1)} ${(size - 6 - (y[i] ?? 0) * (size - 12)).toFixed(1)}`;
  const [startX, startY] = at(0).split(" ");
  return (
    <svg width={size} height={size} viewBox={`0 0 ${size} ${size}`} aria-hidden="true">
      <path class="t-way" d={`M${x.map((_, i) => at(i)).join("L")}`} />
      <circle class="t-ring" cx={startX} cy={startY} r="5" />
    </svg>
  );
}
