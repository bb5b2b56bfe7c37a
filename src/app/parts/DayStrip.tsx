import { textWidth } from "./measure.js";
import {
  flagSpot,
  frameOf,
  levelPaths,
  lineWordsSide,
  pathOf,
  pointsOf,
  type Rect,
  type StartSpot,
  type StripFrame,
  type StripKind,
  type StripSize,
  sizeOf,
  startSpot,
  thinned,
} from "./strip-geometry.js";
import { AxisLane, RoadLane, SunLane } from "./strip-lanes.js";
import { levelAt, type StripModel, type StripWords } from "./strip-model.js";
import { Label } from "./strip-text.jsx";

interface StripProps {
  readonly model: StripModel;
  readonly words: StripWords;
  readonly kind: StripKind;
  readonly width: number;
  /** Extra height for the level lane, px. */
  readonly taller?: number;
  /** The likely line before the last change, drawn dashed. */
  readonly before?: Pick<StripModel, "hours" | "mid"> | null;
  /** Hour that a reader has stepped to; replaces the flag. */
  readonly pickedH?: number | null;
}

/** The day in one picture: light from above, the level, what lies below the line, the road, the hours. */
export function DayStrip(props: StripProps) {
  const { model, words, kind } = props;
  const size = { ...sizeOf(kind), level: sizeOf(kind).level + (props.taller ?? 0) };
  const frame = frameOf(model, size, props.width);
  const small = kind === "row";
  const start = small || !model.known || !words.start ? null : startOf(model, frame, size, words.start);
  return (
    <svg
      class={`strip ${kind}`}
      width={props.width}
      height={frame.height}
      viewBox={`0 0 ${props.width} ${frame.height}`}
      role="img"
      aria-label={words.whole}
    >
      <SunLane model={model} frame={frame} size={size} words={words} />
      {model.known ? (
        <Level {...props} frame={frame} small={small} />
      ) : (
        <Unknown model={model} frame={frame} small={small} />
      )}
      <rect
        class="s-ink"
        x={size.side - (small ? 0 : 4)}
        y={frame.lineY - (small ? 1.25 : 2)}
        width={props.width - 2 * size.side + (small ? 0 : 8)}
        height={small ? 2.5 : 4}
      />
      <RoadLane model={model} frame={frame} size={size} />
      {size.axis > 0 && <AxisLane model={model} frame={frame} size={size} />}
      {!small && (
        <>
          <LineWords model={model} frame={frame} text={size.text} side={size.side} says={words.line} />
          {start && words.start && (
            <StartLabel spot={start} words={words.start} text={size.text} at={frame.x(model.fromH)} />
          )}
          {model.nowH !== null && kind !== "print" && <Now frame={frame} hour={model.nowH} />}
          {props.pickedH != null ? (
            <Picked {...props} frame={frame} hour={props.pickedH} />
          ) : (
            model.known &&
            words.flag && (
              <Flag {...props} frame={frame} text={size.text} flag={words.flag} avoid={start?.box ?? null} />
            )
          )}
        </>
      )}
    </svg>
  );
}

const startOf = (model: StripModel, frame: StripFrame, size: StripSize, [figure, note]: readonly [string, string]) =>
  startSpot({
    model,
    frame,
    size,
    figureWide: textWidth(figure, size.text * 1.7, true),
    noteWide: textWidth(note, size.text),
  });

function LineWords(props: { model: StripModel; frame: StripFrame; text: number; side: number; says: string }) {
  const { model, frame, text, says } = props;
  const anchor = lineWordsSide(model, frame, textWidth(says, text));
  const x = anchor === "start" ? props.side + 2 : frame.width - props.side - 2;
  return (
    <Label x={x} y={frame.lineY + text + 4} size={text} anchor={anchor} halo>
      {says}
    </Label>
  );
}

interface Part extends StripProps {
  readonly frame: StripFrame;
}

function Level({ model, frame, kind, small, before }: Part & { small: boolean }) {
  const paths = levelPaths(model, frame);
  return (
    <>
      <path d={paths.doubt} fill={small ? "var(--doubt)" : "url(#hatch)"} />
      {!small && <path d={paths.highEdge} class="s-line" stroke-width="1" />}
      <path d={paths.sure} class="s-mass" />
      <path
        d={paths.maybeMissing}
        class="s-brickline"
        fill={small || kind === "print" ? "var(--ground)" : "url(#hatch-brick)"}
        stroke-width="1.7"
      />
      <path d={paths.missing} fill={kind === "print" ? "url(#hatch-brick)" : "var(--brick)"} class="s-missing" />
      {!small && (
        <>
          <path d={paths.likely} class="s-halo" stroke-width="5.5" />
          <path d={paths.likely} class="s-line" stroke-width="2.6" />
          {paths.plugged.map((d) => (
            <path key={d} d={d} class="s-plugged" stroke-width="5" />
          ))}
          {before && (
            <path d={pathOf(thinned(pointsOf(frame, before.hours, before.mid)))} class="s-before" stroke-width="2.6" />
          )}
        </>
      )}
    </>
  );
}

/** No fresh reading: doubt between dashed edges and a question. Sun and road are known and stay. */
function Unknown({ model, frame, small }: { model: StripModel; frame: StripFrame; small: boolean }) {
  const paths = levelPaths(model, frame);
  const wide = small ? 0 : 44;
  const middle = (frame.levelTop + frame.lineY) / 2;
  return (
    <>
      {!small && <path d={paths.doubt} fill="url(#hatch)" />}
      <path d={paths.highEdge} class="s-dash" stroke-width={small ? 2 : 2.6} />
      {!small && <path d={paths.lowEdge} class="s-dash" stroke-width="2.6" />}
      {!small && (
        <>
          <rect x={frame.width / 2 - wide / 2} y={middle - 20} width={wide} height="48" fill="var(--ground)" />
          <Label x={frame.width / 2} y={middle + 20} size={46} anchor="middle" figures>
            ?
          </Label>
        </>
      )}
    </>
  );
}

/** The reading: its figure and who gave it. */
function StartLabel({
  spot,
  words,
  text,
  at,
}: {
  spot: StartSpot;
  words: readonly [string, string];
  text: number;
  at: number;
}) {
  const [figure, note] = words;
  const big = text * 1.7;
  if (spot.inMass)
    return (
      <>
        <Label x={at + 8} y={spot.withNote ? spot.base - 4 - text : spot.base} size={big} figures on="mass">
          {figure}
        </Label>
        {spot.withNote && (
          <Label x={at + 8} y={spot.base} size={text} on="mass">
            {note}
          </Label>
        )}
      </>
    );
  return (
    <>
      <Label x={at + 2} y={spot.base} size={big} figures halo>
        {figure}
      </Label>
      <Label x={at + textWidth(figure, big, true) + 10} y={spot.base} size={text} halo>
        {note}
      </Label>
    </>
  );
}

interface FlagPart extends Part {
  readonly text: number;
  readonly flag: readonly [string, string];
  readonly avoid: Rect | null;
}

/** The lowest hour: ring on the likely line, pole up, and the words in clear ground above the band. */
function Flag({ model, frame, kind, text, flag, avoid }: FlagPart) {
  const low = model.lowest;
  if (!low) return null;
  const x = frame.x(low.hour);
  const y = Math.min(frame.y(low.level), frame.levelBottom - 2);
  const big = text * 1.5;
  const wide = Math.max(textWidth(flag[0], big, true), textWidth(flag[1], text)) + 10;
  const spot = flagSpot({ model, frame, size: sizeOf(kind), x, wide, tall: big + text, avoid });
  if (!spot) return <circle cx={x} cy={y} r="6.5" class="s-ring" />;
  const poleEnd = spot.clear ? spot.base - (spot.side === "middle" ? -5 : text * 1.2) : spot.base;
  const on = spot.clear ? "ink" : "mass";
  return (
    <>
      {spot.clear && <path d={`M${x} ${y}V${poleEnd}`} class="s-halo" stroke-width="6" />}
      <path d={`M${x} ${y}V${poleEnd}`} class={spot.clear ? "s-line" : "s-halo"} stroke-width="2.4" />
      <circle cx={x} cy={y} r="6.5" class="s-ring" />
      <Label x={spot.textX} y={spot.base - text - 3} size={big} anchor={spot.side} figures on={on} halo={spot.clear}>
        {flag[0]}
      </Label>
      <Label x={spot.textX} y={spot.base} size={text} anchor={spot.side} on={on} halo={spot.clear}>
        {flag[1]}
      </Label>
    </>
  );
}

/** The hour a reader stepped to. */
function Picked({ model, frame, hour }: Part & { hour: number }) {
  const x = frame.x(hour);
  const y = frame.y(levelAt(model.hours, model.mid, hour));
  return (
    <>
      <path d={`M${x} 0V${frame.axisTop}`} class="s-halo" stroke-width="6" />
      <path d={`M${x} 0V${frame.axisTop}`} class="s-line" stroke-width="2.4" />
      {model.known && <circle cx={x} cy={Math.min(y, frame.levelBottom - 2)} r="6.5" class="s-ring" />}
    </>
  );
}

function Now({ frame, hour }: { frame: StripFrame; hour: number }) {
  const x = frame.x(hour);
  const foot = frame.axisTop;
  return (
    <>
      <path d={`M${x} 0V${foot + 2}`} class="s-halo" stroke-width="5" />
      <path d={`M${x} 0V${foot + 2}`} class="s-line" stroke-width="2.2" />
      <path d={`M${x - 7} ${foot + 9}h14l-7-9z`} class="s-ink" />
    </>
  );
}
