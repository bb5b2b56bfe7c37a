import { useEffect, useRef } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import { book, vehicles, yards } from "../../fleet.js";
import { Fitted } from "../../parts/Fitted.js";
import { Icon } from "../../parts/Icon.js";
import { slate } from "../../parts/icons.js";
import { Mark, type MarkState } from "../../parts/Mark.js";
import { Page } from "../../parts/Page.js";
import { Plate } from "../../parts/Plate.js";
import { Say } from "../../parts/Say.js";
import { go } from "../../router.js";
import { nowUtcMs } from "../../state.js";
import { core } from "../../words/core.js";
import { figures } from "../../words/format.js";
import { tonightWords } from "../../words/tonight.js";
import { type VehicleNight, vehicleNights } from "./night-facts.js";
import { nightOf, planTonight } from "./night-state.js";
import { nightTitle } from "./night-title.js";

const TALLY: readonly MarkState[] = ["short", "tight", "notKnown", "enough", "off"];

/** Yards, not vehicles: one wall of marks each, its top kW against its limit, and the plates of its short ones. */
export function Walls() {
  const words = tonightWords.now();
  const all = yards.value;
  const records = book.value;
  const at = nowUtcMs.value;
  useEffect(() => {
    for (const yard of all) planTonight(yard);
  }, [all, records, at]);
  const each = all.map((yard) => {
    const own = vehicles.value.filter((vehicle) => vehicle.yardId === yard.id);
    const state = nightOf(yard.id);
    return { yard, state, nights: state.shown ? vehicleNights(own, state.shown) : [], count: own.length };
  });
  const first = all[0];
  const { states } = core.now();
  return (
    <Page
      title={words.walls.title(all.length)}
      sub={first ? nightTitle(first) : ""}
      head={<Icon of={slate} size={40} />}
      place="tonight"
    >
      <ul class="wall-tally">
        {TALLY.map((state) => (
          <li key={state}>
            <Mark state={state} size={46} />
            <b class="fig">
              {figures(each.reduce((sum, { nights }) => sum + nights.filter((one) => one.state === state).length, 0))}
            </b>
            <span>{states[state]}</span>
          </li>
        ))}
      </ul>
      <div class="walls">
        {each.map((one) => (
          <Wall key={one.yard.id} {...one} />
        ))}
      </div>
    </Page>
  );
}

interface WallProps {
  readonly yard: Yard;
  readonly state: ReturnType<typeof nightOf>;
  readonly nights: readonly VehicleNight[];
  readonly count: number;
}
const MOST_PLATES = 6;

function Wall({ yard, state, nights, count }: WallProps) {
  const words = tonightWords.now();
  const short = nights.filter((one) => one.state === "short");
  const { shown } = state;
  const plates = short.map(({ vehicle }) => vehicle.plate).join(", ");
  const found = plates ? `${core.now().states.short} ${plates}` : words.walls.nobody;
  return (
    <button
      type="button"
      class="wall"
      aria-label={shown ? `${words.walls.open(yard.name)}: ${found}` : words.walls.open(yard.name)}
      onClick={() => go(`tonight/${yard.id}`)}
    >
      <span class="wall-name">
        <b>{yard.name}</b> <span class="fig">{figures(count)}</span>
      </span>
      {shown ? (
        <>
          <Fitted class="wall-marks" guess={{ width: 300, height: 100 }}>
            {(box) => <WallMarks states={nights.map((one) => one.state)} width={box.width} />}
          </Fitted>
          <Power yard={yard} topKw={shown.walked.topKw} />
          <span class="wall-plates">
            {short.slice(0, MOST_PLATES).map(({ vehicle }) => (
              <Plate key={vehicle.id} number={vehicle.plate} size="s" />
            ))}
            {short.length > MOST_PLATES && <b>{words.walls.more(short.length - MOST_PLATES)}</b>}
            {short.length === 0 && <span>{words.walls.nobody}</span>}
          </span>
        </>
      ) : (
        <span>
          {state.problems.length > 0 ? (
            core.now().states.notKnown
          ) : (
            <Say text={words.working(Math.round(100 * (state.share ?? 0)))} />
          )}
        </span>
      )}
    </button>
  );
}

const MARK_PX = 16;
const ROW_PX = 25;

/** A thousand marks are painted, not built: one canvas a yard, in the colours of the look that is on. */
function WallMarks({ states, width }: { states: readonly MarkState[]; width: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const columns = Math.max(1, Math.floor(width / MARK_PX));
  const rows = Math.ceil(states.length / columns);
  const height = rows * ROW_PX;
  useEffect(() => {
    const of = canvas.current;
    const context = of?.getContext("2d");
    if (!of || !context) return;
    const scale = devicePixelRatio || 1;
    of.width = Math.round(width * scale);
    of.height = Math.round(height * scale);
    context.setTransform(scale, 0, 0, scale, 0, 0);
    context.clearRect(0, 0, width, height);
    const style = getComputedStyle(of);
    const hues = {
      ink: style.getPropertyValue("--ink"),
      brick: style.getPropertyValue("--brick"),
      rule: style.getPropertyValue("--rule"),
    };
    states.forEach((state, i) => {
      context.save();
      context.translate((i % columns) * MARK_PX, Math.floor(i / columns) * ROW_PX);
      paintMark(context, state, hues);
      context.restore();
    });
  }, [states, width, height, columns]);
  return <canvas ref={canvas} style={{ width: `${width}px`, height: `${height}px` }} />;
}

interface Hues {
  readonly ink: string;
  readonly brick: string;
  readonly rule: string;
}
function paintMark(context: CanvasRenderingContext2D, state: MarkState, { ink, brick, rule }: Hues): void {
  const line = (y: number, hue: string) => {
    context.fillStyle = hue;
    context.fillRect(0, y, 14, 2);
  };
  const shape = (points: readonly (readonly [number, number])[], hue: string) => {
    context.fillStyle = hue;
    context.beginPath();
    for (const [x, y] of points) context.lineTo(x, y);
    context.closePath();
    context.fill();
  };
  context.lineWidth = 2;
  if (state === "short") {
    context.fillStyle = brick;
    context.fillRect(1, 0, 12, 21);
  } else if (state === "off") {
    line(12, rule);
    context.strokeStyle = ink;
    context.beginPath();
    context.moveTo(3, 6);
    context.lineTo(12, 18);
    context.moveTo(12, 6);
    context.lineTo(3, 18);
    context.stroke();
  } else if (state === "notKnown") {
    context.strokeStyle = ink;
    context.setLineDash([3, 2]);
    context.strokeRect(2, 3, 10, 16);
    context.setLineDash([]);
  } else {
    shape(
      [
        [1, 3],
        [13, state === "tight" ? 10 : 6],
        [13, 12],
        [1, 12],
      ],
      ink,
    );
    line(12, ink);
    if (state === "tight") {
      context.strokeStyle = brick;
      context.beginPath();
      context.moveTo(4, 15);
      context.lineTo(13, 15);
      context.lineTo(13, 19);
      context.closePath();
      context.stroke();
    }
  }
}

function Power({ yard, topKw }: { yard: Yard; topKw: number }) {
  const words = tonightWords.now();
  const limit = yard.siteLimitKw;
  const share = limit === null ? 0 : Math.min(1, topKw / limit);
  return (
    <span class="wall-power">
      <svg width="130" height="14" aria-hidden="true">
        {limit !== null && <rect y="2" width={122 * share} height="10" fill="var(--plug)" />}
        {limit !== null && <rect x="124" width="4" height="14" fill="var(--ink)" />}
      </svg>
      <span>
        <Say text={limit === null ? words.topKw(topKw) : words.topOf(topKw, limit)} />
        {limit !== null && topKw > 0.97 * limit && `, ${words.walls.full}`}
      </span>
    </span>
  );
}
