import type { LegProfile } from "../../records/map/leg-profile.js";

const LABEL = 16;
const LANE = 34;
const GAP = 8;
const AXIS = 18;
/** Least height of a hill that fills its lane, so that a kerb is no mountain. [m] */
const LEAST_HILL_M = 10;

interface Words {
  readonly picture: string;
  readonly speed: string;
  readonly height: string;
  readonly energy: string;
  readonly kmh: (kmh: number) => string;
  readonly metres: (m: number) => string;
  readonly whPerKm: (wh: number) => string;
  readonly km: (km: number) => string;
}

/** Speed, height and energy of a round, leg after leg along its km: what each way asks of the set. */
export function LegPicture({ legs, width, words }: { legs: readonly LegProfile[]; width: number; words: Words }) {
  const km = legs.reduce((sum, leg) => sum + leg.km, 0);
  const x = (at: number): number => (at / Math.max(km, 1e-9)) * width;
  const fastest = Math.max(...legs.map((leg) => leg.kmh), 1);
  const most = Math.max(...legs.map((leg) => leg.whPerKm), 1);
  const hills = hillsOf(legs);
  const low = Math.min(...hills.map(([, m]) => m));
  const high = Math.max(...hills.map(([, m]) => m));
  const span = Math.max(high - low, LEAST_HILL_M);
  const foot = (lane: number): number => (lane + 1) * (LABEL + LANE) + lane * GAP;
  const ends = legs.map((_, i) => legs.slice(0, i).reduce((sum, leg) => sum + leg.km, 0));
  const boxes = (lane: number, share: (leg: LegProfile) => number): string =>
    legs
      .map((leg, i) => {
        const tall = Math.max(0, share(leg)) * LANE;
        return `M${x(ends[i] ?? 0).toFixed(1)} ${foot(lane)}v${(-tall).toFixed(1)}h${Math.max(1, x(leg.km) - 1).toFixed(1)}v${tall.toFixed(1)}z`;
      })
      .join("");
  const hill = hills.map(([at, m]) => `${x(at).toFixed(1)} ${(foot(1) - ((m - low) / span) * LANE).toFixed(1)}`);
  const height = foot(2) + AXIS;
  const label = (lane: number, text: string) => (
    <text x={0} y={foot(lane) - LANE - 4}>
      {text}
    </text>
  );
  return (
    <svg class="leg-picture" width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img">
      <title>{words.picture}</title>
      {label(0, `${words.speed}, ${words.kmh(Math.round(fastest))}`)}
      <path d={boxes(0, (leg) => leg.kmh / fastest)} />
      {label(1, `${words.height}, ${words.metres(Math.round(high - low))}`)}
      <path d={`M0 ${foot(1)}L${hill.join("L")}L${width} ${foot(1)}z`} />
      {label(2, `${words.energy}, ${words.whPerKm(Math.round(most))}`)}
      <path d={boxes(2, (leg) => leg.whPerKm / most)} />
      <text x={0} y={height - 3}>
        {words.km(0)}
      </text>
      <text x={width} y={height - 3} text-anchor="end">
        {words.km(km)}
      </text>
    </svg>
  );
}

/** Height against the start at each turn of the way: a leg climbs first and then drops, as nothing else is known. */
function hillsOf(legs: readonly LegProfile[]): readonly (readonly [km: number, m: number])[] {
  const points: [number, number][] = [[0, 0]];
  let [at, m] = [0, 0];
  for (const { km, climbM, dropM } of legs) {
    const up = climbM + dropM > 0 ? climbM / (climbM + dropM) : 0;
    points.push([at + up * km, m + climbM]);
    at += km;
    m += climbM - dropM;
    points.push([at, m]);
  }
  return points;
}
