import type { Vehicle } from "../../../records/index.js";
import { Label } from "../../parts/strip-text.js";
import { figures, joined } from "../../words/format.js";
import { sheetWords } from "../../words/sheet.js";

type Side = "front" | "right" | "back" | "left" | "flat";
const FLAT_BELOW_DEG = 3;

/** Which way a face looks, in the words of people: a side, or up. */
export function sideOf(face: { readonly tiltDeg: number; readonly sideDeg: number }): Side {
  if (face.tiltDeg < FLAT_BELOW_DEG) return "flat";
  return (["front", "right", "back", "left"] as const)[Math.round(face.sideDeg / 90) % 4] ?? "front";
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly tall: number;
}
const WIDE = 104;
const TALL = 132;
const NOSE = 16;

/** Where the faces lie: front and back across, left and right along, flat ones in what is left. */
function placesOf(sides: readonly Side[]): Place[] {
  const count = (side: Side) => sides.filter((one) => one === side).length;
  const has = (side: Side) => count(side) > 0;
  const long = has("left") || has("right");
  const across = has("front") || has("back");
  const top = has("front") ? 0.28 : 0;
  const foot = has("back") ? 0.28 : 0;
  const middleTall = 1 - (across && (long || has("flat")) ? top + foot : 0);
  const edge = long ? (has("flat") ? 0.3 : 0.5) : 0;
  const rooms: Record<Side, Place> = {
    front: { x: 0, y: 0, wide: 1, tall: long || has("flat") ? top : has("back") ? 0.5 : 1 },
    back: {
      x: 0,
      y: long || has("flat") ? 1 - foot : has("front") ? 0.5 : 0,
      wide: 1,
      tall: long || has("flat") ? foot : has("front") ? 0.5 : 1,
    },
    left: { x: 0, y: top, wide: has("right") || has("flat") ? edge : 1, tall: middleTall },
    right: {
      x: has("left") || has("flat") ? 1 - edge : 0,
      y: top,
      wide: has("left") || has("flat") ? edge : 1,
      tall: middleTall,
    },
    flat: {
      x: has("left") ? edge : 0,
      y: top,
      wide: 1 - (has("left") ? edge : 0) - (has("right") ? edge : 0),
      tall: middleTall,
    },
  };
  const used: Record<Side, number> = { front: 0, right: 0, back: 0, left: 0, flat: 0 };
  return sides.map((side) => {
    const room = rooms[side];
    const nth = used[side]++;
    const tall = room.tall / count(side);
    return { x: room.x * WIDE, y: NOSE + (room.y + nth * tall) * TALL, wide: room.wide * WIDE, tall: tall * TALL };
  });
}

const LOW_EDGE: Record<Side, (at: Place) => string> = {
  front: ({ x, y, wide }) => `M${x + 3} ${y + 3}h${wide - 6}`,
  back: ({ x, y, wide, tall }) => `M${x + 3} ${y + tall - 3}h${wide - 6}`,
  left: ({ x, y, tall }) => `M${x + 3} ${y + 3}v${tall - 6}`,
  right: ({ x, y, wide, tall }) => `M${x + wide - 3} ${y + 3}v${tall - 6}`,
  flat: () => "",
};

/** The roof from above, front upwards: each face with its watts, a thick edge where it leans down. */
export function RoofPicture({ vehicle }: { vehicle: Vehicle }) {
  const words = sheetWords.now();
  const { faces } = vehicle.roof;
  const sides = faces.map(sideOf);
  const places = placesOf(sides);
  const told = joined(...faces.map((face, n) => `${words.sides[sides[n] ?? "flat"]} ${figures(face.ratedW)} W`));
  return (
    <svg
      class="roof-picture"
      width={WIDE + 6}
      height={TALL + NOSE + 6}
      viewBox={`-3 -3 ${WIDE + 6} ${TALL + NOSE + 6}`}
      role="img"
      aria-label={words.roofPicture(told || words.sums.noRoof)}
    >
      <path d={`M18 ${NOSE}C24 2 36 -1 ${WIDE / 2} -1S${WIDE - 24} 2 ${WIDE - 18} ${NOSE}z`} class="s-ink" />
      <rect x="0" y={NOSE} width={WIDE} height={TALL} rx="4" class="roof-body" />
      {places.map((at, n) => {
        const side = sides[n] ?? "flat";
        return (
          <g key={`${side}${at.x}${at.y}`}>
            <rect x={at.x + 3} y={at.y + 3} width={at.wide - 6} height={at.tall - 6} class="s-taken" />
            <path d={LOW_EDGE[side](at)} class="roof-edge" />
            <text
              class="f on-sun"
              x={at.x + at.wide / 2}
              y={at.y + at.tall / 2 + 7}
              font-size={at.wide < 48 ? 16 : 20}
              text-anchor="middle"
            >
              {figures(faces[n]?.ratedW ?? 0)}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** A bar with a mark that it should not pass: what is over it is brick. */
export function LimitBar(props: {
  readonly value: number;
  readonly limit: number | null;
  readonly width: number;
  readonly valueText: string;
  readonly limitText: string;
  readonly says: string;
}) {
  const { value, limit, width } = props;
  const most = Math.max(value, limit ?? 0, 1) * 1.12;
  const x = (of: number) => (of / most) * width;
  const over = limit !== null && value > limit;
  const limitX = limit === null ? 0 : x(limit);
  const right = limitX > width * 0.55;
  return (
    <svg width={width} height="62" viewBox={`0 0 ${width} 62`} role="img" aria-label={props.says}>
      <rect x="0" y="22" width={x(over ? (limit ?? 0) : value)} height="26" class="s-mass" />
      {over && limit !== null && <rect x={limitX} y="22" width={x(value) - limitX} height="26" fill="var(--brick)" />}
      <rect x="0" y="48" width={width} height="3" class="s-ink" />
      <Label x={8} y={41} size={17} figures on="mass">
        {props.valueText}
      </Label>
      {limit !== null && (
        <>
          <path d={`M${limitX} 16V58`} class="s-halo" stroke-width="8" />
          <path d={`M${limitX} 16V58`} class="s-line" stroke-width="4" />
          <Label x={right ? limitX + 4 : limitX - 4} y={13} size={15} anchor={right ? "end" : "start"}>
            {props.limitText}
          </Label>
        </>
      )}
    </svg>
  );
}

/** A slope as steep as it is, drawn twice as steep so that 5 % shows; brick where the vehicle does not get up. */
export function Wedge({ percent, holds }: { percent: number; holds: boolean }) {
  const rise = Math.min(34, percent * 1.5 + 3);
  return (
    <svg width="56" height="40" viewBox="0 0 56 40" aria-hidden="true">
      <path d={`M2 36H54V${36 - rise}z`} fill={holds ? "var(--mass)" : "var(--brick)"} />
      <rect x="0" y="35" width="56" height="3" class="s-ink" />
    </svg>
  );
}

/** What the charge controller takes, between two posts, and where the string stands when cold and when hot. */
export function VoltWindow(props: {
  readonly leastV: number | null;
  readonly mostV: number | null;
  readonly coldV: number | null;
  readonly hotV: number | null;
  readonly width: number;
  readonly says: string;
}) {
  const { leastV, mostV, coldV, hotV, width } = props;
  const top = Math.max(leastV ?? 0, mostV ?? 0, coldV ?? 0, hotV ?? 0, 1) * 1.12;
  const x = (volts: number) => (volts / top) * width;
  const from = x(leastV ?? 0);
  const to = mostV === null ? width : x(mostV);
  const bad = (volts: number) => (mostV !== null && volts > mostV) || (leastV !== null && volts < leastV);
  const tick = (volts: number, up: boolean) => (
    <>
      <path
        d={`M${x(volts)} ${up ? 18 : 34}v16`}
        class="s-line"
        stroke-width="4"
        stroke={bad(volts) ? "var(--brick)" : ""}
      />
      <Label x={clampX(x(volts), width)} y={up ? 14 : 64} size={16} anchor="middle" figures>
        {figures(volts)}
      </Label>
    </>
  );
  return (
    <svg width={width} height="70" viewBox={`0 0 ${width} 70`} role="img" aria-label={props.says}>
      <rect x="0" y="32" width={width} height="4" class="s-rule" />
      <rect x={from} y="28" width={Math.max(0, to - from)} height="12" class="s-mass" />
      {leastV !== null && <rect x={from - 2} y="20" width="4" height="28" class="s-ink" />}
      {mostV !== null && <rect x={to - 2} y="20" width="4" height="28" class="s-ink" />}
      {coldV !== null && tick(coldV, true)}
      {hotV !== null && tick(hotV, false)}
    </svg>
  );
}
const clampX = (x: number, width: number): number => Math.min(width - 16, Math.max(16, x));
