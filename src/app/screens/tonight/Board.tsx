import { minuteOfDay } from "../../../units/zone.js";
import { handOver } from "../../settings.js";
import { clock, figures } from "../../words/format.js";
import type { Block, BoardModel, BoardRow } from "./board-model.js";

export interface BoardWords {
  readonly picture: string;
  readonly dear: string;
  readonly usual: string;
  readonly cheap: string;
  readonly awake: string;
  readonly asleep: string;
  readonly noSupply: string;
}

/** Sizes of the three boards: phone, desk, paper. */
export interface BoardSize {
  readonly width: number;
  readonly rowPx: number;
  readonly gapPx: number;
  readonly labelPx: number;
  readonly numberPx: number;
  readonly textPx: number;
  readonly kwPx: number;
  /** End times inside the blocks. */
  readonly times: boolean;
  readonly paper: boolean;
}
export const PHONE = {
  rowPx: 26,
  gapPx: 3,
  labelPx: 30,
  numberPx: 18,
  textPx: 14,
  kwPx: 46,
  times: false,
  paper: false,
};
export const DESK = { rowPx: 27, gapPx: 4, labelPx: 46, numberPx: 19, textPx: 15, kwPx: 72, times: true, paper: false };
export const PAPER = { rowPx: 54, gapPx: 5, labelPx: 62, numberPx: 54, textPx: 19, kwPx: 38, times: true, paper: true };

interface Draw {
  readonly model: BoardModel;
  readonly size: BoardSize;
  readonly words: BoardWords;
  readonly x: (utcMs: number) => number;
  readonly id: string;
}

const INK = "var(--ink)";
const GROUND = "var(--ground)";
const RULE = "var(--rule)";
const BRICK = "var(--brick)";
const plugHue = (size: BoardSize): string => (size.paper ? INK : "var(--plug)");
/** Room a text needs, a little more than most faces take. */
const roomOf = (text: string, px: number): number => text.length * px * 0.58;

export const boardHeight = (rows: number, size: BoardSize): number =>
  headPx(size) + rows * (size.rowPx + size.gapPx) + 6 + size.kwPx + 4;
const headPx = (size: BoardSize): number => 3 * size.textPx + 20;

/** Sockets against the hours: prices as height, hands awake or not, charges as plugs lying on their side, the cut as a torn column, kW below. */
export function Board(props: {
  readonly model: BoardModel;
  readonly rows: readonly BoardRow[];
  readonly size: BoardSize;
  readonly words: BoardWords;
  readonly id: string;
}) {
  const { model, rows, size, words, id } = props;
  const { width, labelPx } = size;
  const span = model.toUtcMs - model.fromUtcMs;
  const x = (utcMs: number) => labelPx + ((utcMs - model.fromUtcMs) / span) * (width - labelPx - (size.paper ? 18 : 8));
  const draw: Draw = { model, size, words, x, id };
  const top = headPx(size);
  const bottom = top + rows.length * (size.rowPx + size.gapPx);
  return (
    <svg class="board" width={width} height={boardHeight(rows.length, size)} role="img" aria-label={words.picture}>
      <defs>
        <pattern id={`${id}u`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="9" height="9" fill={GROUND} />
          <rect width="2" height="9" fill={INK} />
        </pattern>
        <pattern id={`${id}s`} width="7" height="7" patternUnits="userSpaceOnUse">
          <circle cx="2" cy="2" r="1.3" fill={RULE} />
        </pattern>
      </defs>
      <Prices {...draw} />
      <HandsBand {...draw} />
      <Ground {...draw} top={top} bottom={bottom} />
      {rows.map((row, i) => (
        <Row key={row.socketId} {...draw} row={row} y={top + i * (size.rowPx + size.gapPx)} />
      ))}
      {model.cuts.map((cut) => (
        <Torn key={cut.fromUtcMs} {...draw} from={x(cut.fromUtcMs)} to={x(cut.toUtcMs)} top={top} bottom={bottom} />
      ))}
      <Power {...draw} y={bottom + 6} />
      {model.nowUtcMs !== null && !size.paper && (
        <Now at={x(model.nowUtcMs)} top={top} bottom={bottom + 6 + size.kwPx} />
      )}
    </svg>
  );
}

const TIER_HEIGHT = { dear: 1, usual: 0.5, cheap: 0.16 };
function Prices({ model, size, words, x }: Draw) {
  const high = size.textPx + 6;
  return (
    <>
      {model.prices.map((band) => {
        const left = x(band.fromUtcMs);
        const wide = x(band.toUtcMs) - left - 1.5;
        const tall = high * TIER_HEIGHT[band.tier];
        const word =
          size.times && wide > 120 && !handOver.value
            ? `${words[band.tier]} ${figures(band.perKwh, band.perKwh % 1 ? 2 : 0)}`
            : words[band.tier];
        const fits = roomOf(word, size.textPx) < wide - 4;
        return (
          <g key={band.fromUtcMs}>
            <rect x={left} y={high - tall} width={Math.max(0, wide)} height={tall} fill={INK} />
            {fits && band.tier === "usual" && (
              <rect
                x={left + wide / 2 - roomOf(word, size.textPx) / 2 - 4}
                width={roomOf(word, size.textPx) + 8}
                height={high}
                fill={GROUND}
              />
            )}
            {fits && (
              <text
                x={left + wide / 2}
                y={band.tier === "cheap" ? size.textPx - 1 : high / 2 + size.textPx * 0.36}
                font-size={size.textPx}
                text-anchor="middle"
                style={{ fill: band.tier === "dear" ? GROUND : INK }}
              >
                {word}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}

function HandsBand({ model, size, words, x }: Draw) {
  const y = size.textPx + 9;
  const middle = y + size.textPx / 2 + 1;
  const said = (span: { fromUtcMs: number; toUtcMs: number }, word: string) => {
    const wide = x(span.toUtcMs) - x(span.fromUtcMs);
    const room = roomOf(word, size.textPx) + 8;
    if (room > wide) return null;
    const at = (x(span.fromUtcMs) + x(span.toUtcMs)) / 2;
    return (
      <>
        <rect x={at - room / 2} y={y} width={room} height={size.textPx + 2} fill={GROUND} />
        <text x={at} y={y + size.textPx - 1} font-size={size.textPx} text-anchor="middle">
          {word}
        </text>
      </>
    );
  };
  return (
    <>
      {model.awake.map((span) => (
        <g key={span.fromUtcMs}>
          <rect
            x={x(span.fromUtcMs)}
            y={middle - 2}
            width={x(span.toUtcMs) - x(span.fromUtcMs) - 1}
            height="4"
            fill={INK}
          />
          {said(span, words.awake)}
        </g>
      ))}
      {model.asleep.map((span) => (
        <g key={span.fromUtcMs}>{said(span, words.asleep)}</g>
      ))}
    </>
  );
}

function Ground({ model, size, x, id, top, bottom }: Draw & { readonly top: number; readonly bottom: number }) {
  const every = (x(model.toUtcMs) - x(model.fromUtcMs)) / Math.max(1, model.evenHours.length) < 30 ? 2 : 1;
  return (
    <>
      {model.asleep.map((span) => (
        <rect
          key={span.fromUtcMs}
          x={x(span.fromUtcMs)}
          y={top}
          width={x(span.toUtcMs) - x(span.fromUtcMs)}
          height={bottom - top}
          fill={`url(#${id}s)`}
        />
      ))}
      {model.evenHours.map(({ utcMs, hour }, i) => (
        <g key={utcMs}>
          <rect x={x(utcMs) - 0.6} y={top} width="1.2" height={bottom - top} fill={RULE} />
          {i % every === 0 && (
            <text x={x(utcMs)} y={top - 4} font-size={size.textPx} text-anchor="middle">
              {clock(hour).slice(0, -3)}
            </text>
          )}
        </g>
      ))}
    </>
  );
}

function Row({ row, y, ...draw }: Draw & { readonly row: BoardRow; readonly y: number }) {
  const { size, model, x } = draw;
  return (
    <g>
      <text
        class="f"
        x={size.labelPx - 8}
        y={y + size.rowPx / 2 + size.numberPx * 0.36}
        font-size={Math.min(size.numberPx, 40)}
        text-anchor="end"
      >
        {row.name}
      </text>
      <rect
        x={size.labelPx}
        y={y + size.rowPx + size.gapPx / 2 - 0.6}
        width={x(model.toUtcMs) - size.labelPx}
        height="1.2"
        fill={RULE}
      />
      {row.blocks.map((block, i) => (
        <PlugBlock
          key={block.stayId}
          {...draw}
          block={block}
          y={y}
          nextUtcMs={row.blocks[i + 1]?.fromUtcMs ?? model.toUtcMs}
        />
      ))}
    </g>
  );
}

/** A plug lying on its side; brick with a falling top when the vehicle ends short. */
function PlugBlock({
  block,
  y,
  nextUtcMs,
  ...draw
}: Draw & { readonly block: Block; readonly y: number; readonly nextUtcMs: number }) {
  const { size, x, model } = draw;
  const left = x(Math.max(model.fromUtcMs, block.fromUtcMs)) + 1;
  const right = x(Math.min(model.toUtcMs, block.toUtcMs)) - 2;
  const pin = Math.max(4, size.rowPx * 0.2);
  const wide = Math.max(3, right - left - pin);
  const done = block.state === "done";
  const filled = !done && (block.short || (block.state === "live" && !size.paper));
  const edge = done ? RULE : block.short ? (size.paper ? INK : BRICK) : plugHue(size);
  const ink = filled ? GROUND : INK;
  const bx = left + pin;
  const by = y + 1.3;
  const bh = size.rowPx - 2.6;
  const pins = size.rowPx * 0.17;
  const end = timeText(block.toUtcMs, model.zone);
  const endRoom = roomOf(end, size.textPx) + 8;
  const place = placeOf(block.plate, { left: clearOf(draw, bx) + 5, right, beyond: x(nextUtcMs), size });
  const showEnd = size.times && place.inside && right - endRoom > clearOf(draw, place.x + place.room);
  const shape = block.short && !done ? falling(bx, by, wide, bh) : null;
  return (
    <g>
      <path
        d={`M${left} ${y + size.rowPx * 0.22}h${pin + 2}v${pins}h${-pin - 2}zM${left} ${y + size.rowPx * 0.61}h${pin + 2}v${pins}h${-pin - 2}z`}
        fill={edge}
      />
      {shape ? (
        <path d={shape} fill={edge} stroke={edge} stroke-width="2" />
      ) : (
        <rect
          x={bx}
          y={by}
          width={wide}
          height={bh}
          rx={Math.min(7, size.rowPx * 0.2)}
          fill={filled ? edge : GROUND}
          stroke={edge}
          stroke-width={size.paper ? 3 : 2.6}
        />
      )}
      {!filled && !done && <Flow {...draw} block={block} y={by + bh - 3} />}
      {place.px > 0 && (
        <text
          class="f"
          transform={`translate(${place.x} ${y + size.rowPx / 2}) rotate(${place.upright ? -90 : 0})`}
          x={place.upright ? -roomOf(block.plate, place.px) / 2 : 0}
          y={place.px * 0.36}
          font-size={place.px}
          style={{ fill: place.inside ? ink : INK }}
        >
          {block.plate}
        </text>
      )}
      {showEnd && (
        <text
          x={right - 5}
          y={y + size.rowPx / 2 + size.textPx * 0.36 + (shape ? size.rowPx * 0.08 : 0)}
          font-size={size.textPx}
          text-anchor="end"
          style={{ fill: ink }}
        >
          {end}
        </text>
      )}
      {done && (
        <path
          d={`M${bx + 3} ${y + size.rowPx - 4}L${right - 3} ${y + 4}`}
          stroke={INK}
          stroke-width={Math.max(2.4, size.rowPx * 0.07)}
        />
      )}
    </g>
  );
}

/** A place to the right of any torn column that covers `at`. */
const clearOf = ({ model, x }: Draw, at: number): number =>
  Math.max(
    at,
    ...model.cuts
      .filter((cut) => x(cut.fromUtcMs) - 4 <= at && x(cut.toUtcMs) + 4 > at)
      .map((cut) => x(cut.toUtcMs) + 4),
  );

const LEAST_PX = 14;
interface NumberPlace {
  readonly x: number;
  readonly px: number;
  readonly room: number;
  readonly inside: boolean;
  readonly upright: boolean;
}
/** The number of a block: inside, smaller inside, beside it where the socket is free, or standing on its head; 0 px where none of it can be read. */
function placeOf(
  plate: string,
  at: { readonly left: number; readonly right: number; readonly beyond: number; readonly size: BoardSize },
): NumberPlace {
  const { left, right, beyond, size } = at;
  const fits = (right - left - 2) / (plate.length * 0.58);
  const inside = { x: left, inside: true, upright: false };
  if (fits >= size.numberPx * 0.75) {
    const px = Math.min(size.numberPx, fits);
    return { ...inside, px, room: roomOf(plate, px) };
  }
  const room = roomOf(plate, size.numberPx);
  if (beyond - right > room + 8) return { x: right + 5, px: size.numberPx, room, inside: false, upright: false };
  const standing = Math.min((right - left + 4) * 1.2, (size.rowPx - 14) / (plate.length * 0.58));
  if (standing >= Math.max(LEAST_PX, fits))
    return { x: (left + right) / 2 - 2, px: standing, room: standing, inside: true, upright: true };
  const px = fits >= LEAST_PX ? fits : 0;
  return { ...inside, px, room: roomOf(plate, px) };
}

/** Where power flows within a longer visit: a bar along the lower edge. */
function Flow({ block, y, size, x, model }: Draw & { readonly block: Block; readonly y: number }) {
  const whole = block.toUtcMs - block.fromUtcMs;
  if (block.chargeToUtcMs - block.chargeFromUtcMs > 0.97 * whole) return null;
  const body = x(Math.max(model.fromUtcMs, block.fromUtcMs)) + 1 + Math.max(4, size.rowPx * 0.2) + 3;
  const from = Math.max(body, x(Math.max(model.fromUtcMs, block.chargeFromUtcMs)));
  const to = x(Math.min(model.toUtcMs, block.chargeToUtcMs)) - 3;
  return to > from ? (
    <rect x={from} y={y - (size.paper ? 2 : 0)} width={to - from} height={size.paper ? 5 : 3} fill={plugHue(size)} />
  ) : null;
}

const falling = (x: number, y: number, w: number, h: number): string =>
  `M${x + 4} ${y}L${x + w} ${y + h * 0.2}V${y + h - 4}q0 4 -4 4H${x + 4}q-4 0 -4 -4V${y + 4}q0 -4 4 -4z`;

export const timeText = (utcMs: number, zone: string): string => clock(minuteOfDay(utcMs, zone) / 60);

const TOOTH = 6;
function Torn({
  from,
  to,
  top,
  bottom,
  size,
  words,
}: Draw & { readonly from: number; readonly to: number; readonly top: number; readonly bottom: number }) {
  const steps = Math.ceil((bottom - top) / TOOTH);
  const edge = (at: number, way: number): string[] =>
    Array.from(
      { length: steps + 1 },
      (_, i) => `L${at + (i % 2 ? way * TOOTH : 0)} ${Math.min(bottom, top + i * TOOTH)}`,
    );
  const path = `M${from} ${top}${edge(from, 1).join("")}${edge(to, -1).reverse().join("")}Z`;
  const middle = (top + bottom) / 2;
  const fits = to - from > size.textPx + 4 && bottom - top > roomOf(words.noSupply, size.textPx);
  return (
    <>
      <path d={path} fill={GROUND} stroke={INK} stroke-width="2.4" />
      {fits && (
        <text
          transform={`translate(${(from + to) / 2} ${middle}) rotate(-90)`}
          font-size={size.textPx}
          text-anchor="middle"
          y={size.textPx * 0.36}
        >
          {words.noSupply}
        </text>
      )}
    </>
  );
}

/** kW of the vehicles on top of the other users, against the limit. */
function Power({ model, size, x, id, y }: Draw & { readonly y: number }) {
  const { kw } = model;
  const most = Math.max(kw.topKw, kw.limitKw ?? 0) * 1.12;
  const at = (value: number) => y + size.kwPx - (value / most) * size.kwPx;
  const steps = (of: (slot: (typeof kw.slots)[number]) => number): string => {
    const points = kw.slots.map(
      (slot) =>
        `L${x(slot.fromUtcMs).toFixed(1)} ${at(of(slot)).toFixed(1)}H${x(slot.fromUtcMs + kw.slotMs).toFixed(1)}`,
    );
    return `M${x(model.fromUtcMs)} ${y + size.kwPx}${points.join("")}V${y + size.kwPx}Z`;
  };
  return (
    <>
      <path
        d={steps((slot) => slot.baseKw + slot.chargeKw)}
        fill={size.paper ? `url(#${id}u)` : plugHue(size)}
        stroke={plugHue(size)}
        stroke-width={size.paper ? 2 : 0}
      />
      <path d={steps((slot) => slot.baseKw)} fill={size.paper ? INK : `url(#${id}u)`} stroke={INK} stroke-width="1" />
      {kw.limitKw !== null && (
        <>
          <rect
            x={size.labelPx - 4}
            y={at(kw.limitKw) - 2}
            width={x(model.toUtcMs) - size.labelPx + 8}
            height="4"
            fill={INK}
          />
          <text x={size.labelPx - 8} y={at(kw.limitKw) + size.textPx * 0.36} font-size={size.textPx} text-anchor="end">
            {figures(kw.limitKw, kw.limitKw % 1 ? 1 : 0)}
          </text>
        </>
      )}
      <text x={size.labelPx - 8} y={y + size.kwPx} font-size={size.textPx} text-anchor="end">
        kW
      </text>
    </>
  );
}

function Now({ at, top, bottom }: { at: number; top: number; bottom: number }) {
  return (
    <>
      <path d={`M${at} ${top - 4}V${bottom}`} stroke={GROUND} stroke-width="6" />
      <path d={`M${at} ${top - 6}V${bottom}`} stroke={INK} stroke-width="2.6" />
      <path d={`M${at - 7} ${top - 10}h14l-7 10z`} fill={INK} />
    </>
  );
}
