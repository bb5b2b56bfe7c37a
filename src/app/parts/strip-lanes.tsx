import { figures } from "../words/format.js";
import { fitting, textWidth } from "./measure.js";
import { type StripFrame, type StripSize, sunWordsY } from "./strip-geometry.js";
import type { RoadBlock, StripModel, StripWords } from "./strip-model.js";
import { Label } from "./strip-text.jsx";

interface Lane {
  readonly model: StripModel;
  readonly frame: StripFrame;
  readonly size: StripSize;
}

/** One column an hour hangs from the sky line: full = taken into the set, hollow = on the roof but not taken. */
export function SunLane({ model, frame, size, words }: Lane & { words: StripWords }) {
  const small = size.text === 0;
  const sky = small ? 2 : 4;
  const tall = size.sun - sky - 2;
  const wide = Math.max(2, frame.pxPerHour - Math.max(2, frame.pxPerHour * 0.22));
  const columns = model.sun.filter(
    ({ offered, hour }) => offered * tall >= 1.2 && hour + 1 > model.fromH && hour < model.toH,
  );
  const wordsY = (fromX: number, toX: number) => sunWordsY(model, frame, size, fromX, toX);
  return (
    <>
      {columns.map(({ hour, offered, taken }) => {
        const left = Math.max(size.side, frame.x(hour) + (frame.pxPerHour - wide) / 2);
        const right = Math.min(frame.width - size.side, frame.x(hour) + (frame.pxPerHour + wide) / 2);
        const box = { x: left.toFixed(1), y: sky, width: Math.max(1, right - left).toFixed(1) };
        return (
          <g key={hour}>
            {!small && <rect {...box} height={(offered * tall).toFixed(1)} class="s-offered" />}
            {taken * tall > 0.8 && <rect {...box} height={(taken * tall).toFixed(1)} class="s-taken" />}
          </g>
        );
      })}
      <rect class="s-ink" x={size.side} y="0" width={frame.width - 2 * size.side} height={sky} />
      {!small && (
        <>
          <Label x={size.side} y={wordsY(0, size.side + textWidth(words.sun, size.text))} size={size.text} halo>
            {words.sun}
          </Label>
          <Label
            x={frame.width - size.side}
            y={wordsY(frame.width - size.side - textWidth(words.sunSum, size.text), frame.width)}
            size={size.text}
            anchor="end"
            halo
          >
            {words.sunSum}
          </Label>
        </>
      )}
    </>
  );
}

/** Where it is: blocks are rounds (filled when done) with posts for stops, a thin rail is parking, a gold one parking in sun. */
export function RoadLane({ model, frame, size }: Lane) {
  return (
    <>
      {model.road.map((block) => {
        const x = Math.max(size.side, frame.x(block.fromH));
        const wide = Math.min(frame.width - size.side, frame.x(block.toH)) - x;
        if (wide <= 0.5) return null;
        const at = { x, y: frame.roadTop, wide, tall: size.road };
        return <Block key={`${block.kind}${block.fromH}`} block={block} frame={frame} text={size.text} at={at} />;
      })}
    </>
  );
}

interface Placed {
  readonly block: RoadBlock;
  readonly frame: StripFrame;
  readonly text: number;
  readonly at: { readonly x: number; readonly y: number; readonly wide: number; readonly tall: number };
}

function Block({ block, frame, text, at }: Placed) {
  const { x, y, wide, tall } = at;
  if (block.kind === "plug") return <PlugBlock block={block} frame={frame} text={text} at={at} />;
  if (block.kind === "rail")
    return text ? <rect class="s-rule" x={x} y={y + tall / 2 - 1} width={wide} height="2" /> : null;
  if (block.kind === "sunRail")
    return text ? (
      <rect class="s-taken" x={x + 1} y={y + tall / 2 - 2} width={Math.max(1, wide - 2)} height="4" />
    ) : null;
  if (!text) return <rect class="s-ink" x={x} y={y} width={wide} height={tall} />;
  const name = fitting(block.names, text, wide - 6);
  return (
    <>
      <rect
        class={block.done ? "s-block s-full" : "s-block"}
        x={x + 1.1}
        y={y + 1.1}
        width={Math.max(1, wide - 2.2)}
        height={tall - 2.2}
      />
      {block.posts.map((hour) => (
        <rect key={hour} class="s-ink" x={frame.x(hour) - 1.2} y={y - 5} width="2.4" height="6" />
      ))}
      {name && (
        <Label
          x={x + wide / 2}
          y={y + tall / 2 + text * 0.36}
          size={text}
          anchor="middle"
          on={block.done ? "ground" : "ink"}
        >
          {name}
        </Label>
      )}
    </>
  );
}

/** A plug lying on its side: two pins to the left. */
function PlugBlock({ block, text, at }: Placed) {
  const { x, y, wide, tall } = at;
  const pin = text ? 7 : 3;
  const bar = tall * 0.18;
  const name = text ? fitting(block.names, text, wide - pin - 6) : "";
  return (
    <>
      <path
        class="s-plug"
        d={`M${x} ${y + tall * 0.24}h${pin + 1}v${bar}h${-pin - 1}zM${x} ${y + tall * 0.58}h${pin + 1}v${bar}h${-pin - 1}z`}
      />
      <rect
        class={block.done || !text ? "s-socket s-full" : "s-socket"}
        x={x + pin + 1}
        y={y + 1}
        width={Math.max(2, wide - pin - 2)}
        height={tall - 2}
        rx={text ? 5 : 1}
      />
      {name && (
        <Label
          x={x + pin + (wide - pin) / 2}
          y={y + tall / 2 + text * 0.36}
          size={text}
          anchor="middle"
          on={block.done ? "ground" : "plug"}
        >
          {name}
        </Label>
      )}
    </>
  );
}

/** Hours; the dome stands for noon. */
export function AxisLane({ model, frame, size }: Lane) {
  const step = model.toH - model.fromH > 20 ? 6 : frame.pxPerHour * 3 > 90 ? 2 : 3;
  const hours: number[] = [];
  for (let hour = Math.ceil(model.fromH / step) * step; hour <= model.toH; hour += step) hours.push(hour);
  return (
    <>
      {hours.map((hour) => {
        const x = frame.x(hour);
        const anchor = x < size.side + 6 ? "start" : x > frame.width - size.side - 6 ? "end" : "middle";
        return (
          <g key={hour}>
            <rect class="s-ink" x={x - 1} y={frame.axisTop + 1} width="2" height="5" />
            {hour % 24 === 12 ? (
              <g transform={`translate(${(x - 7).toFixed(1)} ${frame.axisTop + 6})`}>
                <path class="s-dome" d="M0 9a7 7 0 0 1 14 0z" />
                <path class="s-ink" d="M2.8 10.5h3v4h-3zM8.2 10.5h3v4h-3z" />
              </g>
            ) : (
              <Label x={x} y={frame.axisTop + size.axis - 2} size={size.text} anchor={anchor}>
                {figures(hour % 24)}
              </Label>
            )}
          </g>
        );
      })}
    </>
  );
}
