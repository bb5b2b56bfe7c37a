import "./tonight.css";
import { useEffect } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import { minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";
import { book, vehicles, yards } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { print } from "../../parts/icons-more.js";
import { Key } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import type { ScreenProps } from "../../places.js";
import { nowUtcMs } from "../../state.js";
import { plain } from "../../words/format.js";
import { tonightWords } from "../../words/tonight.js";
import { Board, boardHeight, PAPER } from "./Board.js";
import { boardWords } from "./BoardView.js";
import { type BoardModel, type BoardRow, banksOf, boardModelOf } from "./board-model.js";
import { shortBy, swapFor, type VehicleNight, vehicleNights } from "./night-facts.js";
import { isFollowed, planTonight, readyOf, recordOf, socketsIn } from "./night-state.js";
import { nightTitle } from "./night-title.js";
import { wayOut } from "./say-night.js";

/** A4 landscape at 96 dots an inch, less 8 mm all round. */
const SHEET = { width: 1062, height: 733 };
const ROWS = 7;

export const words = [tonightWords];

/** The night on paper: one bank of sockets a sheet, black only, digits to be read at three metres, blanks to write in. */
export function Screen({ params }: ScreenProps) {
  const words = tonightWords.now().slate;
  const yard = yards.value.find(({ id }) => id === params[0]) ?? yards.value[0];
  const records = book.value;
  useEffect(() => {
    if (yard) planTonight(yard);
    void records;
  }, [yard, records]);
  if (!yard) return null;
  const shown = readyOf(yard.id);
  return (
    <Page title={words.title} sub={yard.name} place="tonight" above={`tonight/${yard.id}`}>
      <div class="slate-keys no-print">
        <Key kind="main" onPress={() => window.print()}>
          <Icon of={print} size={24} /> {words.print}
        </Key>
      </div>
      {shown && <Sheets yard={yard} shown={shown} />}
    </Page>
  );
}

function Sheets({ yard, shown }: { yard: Yard; shown: NightShown }) {
  const record = recordOf(book.value, yard, nowUtcMs.value);
  const own = vehicles.value.filter(({ yardId }) => yardId === yard.id);
  const sockets = socketsIn(book.value, yard);
  const model = boardModelOf({ yard, sockets, vehicles: own, shown, record: null, nowUtcMs: null });
  const banks = banksOf(model, ROWS);
  const nights = vehicleNights(own, shown);
  // a plan that is newer than the one that is followed bears its own hour
  const madeUtcMs = record && isFollowed(record, shown) ? record.madeUtcMs : nowUtcMs.value;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a place that scrolls is reached by the keyboard too (WCAG 2.1.1)
    <section class="slates" aria-label={tonightWords.now().slate.title} tabIndex={0}>
      {banks.map((rows, i) => (
        <Sheet
          key={rows[0]?.socketId ?? i}
          yard={yard}
          model={model}
          rows={rows}
          nights={nights}
          sheet={i + 1}
          of={banks.length}
          madeUtcMs={madeUtcMs}
        />
      ))}
    </section>
  );
}

interface SheetProps {
  readonly yard: Yard;
  readonly model: BoardModel;
  readonly rows: readonly BoardRow[];
  readonly nights: readonly VehicleNight[];
  readonly sheet: number;
  readonly of: number;
  readonly madeUtcMs: number;
}

/** Everything on the sheet is drawn, fills too: browsers leave backgrounds out of print unless told otherwise. */
function Sheet({ yard, model, rows, nights, sheet, of, madeUtcMs }: SheetProps) {
  const words = tonightWords.now();
  const size = { ...PAPER, width: SHEET.width };
  const boardTop = 52;
  const footTop = boardTop + boardHeight(ROWS, size) + 10;
  const first = rows[0]?.name ?? "";
  const last = rows[rows.length - 1]?.name ?? "";
  const sub = `${words.slate.sheet(sheet, of)} · ${words.slate.plan(minuteOfDay(madeUtcMs, yard.zone) / 60)}`;
  return (
    <svg
      class="slate"
      viewBox={`0 0 ${SHEET.width} ${SHEET.height}`}
      role="img"
      aria-label={`${yard.name}, ${nightTitle(yard)}`}
    >
      <rect width={SHEET.width} height={SHEET.height} fill="#fff" />
      <text x="0" y="34" font-size="36">
        {yard.name}
      </text>
      <text x={SHEET.width / 2} y="34" font-size="21" text-anchor="middle">
        {words.slate.sockets(first, last)}
      </text>
      <text x={SHEET.width} y="20" font-size="21" text-anchor="end">
        {nightTitle(yard)}
      </text>
      <text x={SHEET.width} y="40" font-size="15" text-anchor="end">
        {sub}
      </text>
      <rect y="44" width={SHEET.width} height="5" fill="#000" />
      <g transform={`translate(0 ${boardTop})`}>
        <Board model={model} rows={rows} size={size} words={boardWords(false)} id={`slate${sheet}`} />
      </g>
      <rect y={footTop - 6} width={SHEET.width} height="4" fill="#000" />
      <Foot nights={nights} top={footTop + 4} />
    </svg>
  );
}

const MOST_SHORT = 3;
const BLANK = "____";

function Foot({ nights, top }: { nights: readonly VehicleNight[]; top: number }) {
  const words = tonightWords.now();
  const of = words.slate;
  const short = nights.filter(({ state }) => state === "short");
  const unread = nights
    .filter(({ stays }) => stays.some(({ about }) => about.levelFrom === "worseGuess"))
    .map(({ vehicle }) => vehicle.plate);
  const right = 520;
  const plates = short.map(({ vehicle }) => vehicle.plate);
  return (
    <g transform={`translate(0 ${top})`}>
      <text y="20" font-size="16">
        {short.length > 0 ? of.shortWord : plain(words.nobodyShort)}
      </text>
      {short.slice(0, MOST_SHORT).map((one, i) => (
        <ShortCard key={one.vehicle.id} one={one} nights={nights} x={70 + i * 148} />
      ))}
      {short.length > MOST_SHORT && (
        <text y="76" font-size="14">
          + {plates.slice(MOST_SHORT, 12).join(" ")}
        </text>
      )}
      <Line
        y={16}
        x={right}
        bold={of.supplyFailed}
        text={`${of.at} ${BLANK}:${BLANK} ${of.backAt} ${BLANK}:${BLANK}`}
      />
      <Line y={38} x={right} bold={of.firstOn} text={plates.slice(0, 6).join(", ") || BLANK} />
      <Line
        y={60}
        x={right}
        bold={of.readGauge}
        text={`${
          unread
            .slice(0, 5)
            .map((plate) => `${plate} ${BLANK}`)
            .join(" ") || BLANK
        }  ${of.stroke}`}
      />
      <rect x={right} y="70" width="8" height="38" fill="url(#slate1u)" stroke="#000" />
      <Wrapped x={right + 16} y={84} text={words.cautions.plan} most={74} px={14} />
    </g>
  );
}

const Line = ({ x, y, bold, text }: { x: number; y: number; bold: string; text: string }) => (
  <text x={x} y={y} font-size="16" style={{ fontWeight: 500 }}>
    <tspan style={{ fontWeight: 800 }}>{bold}</tspan> {text}
  </text>
);

/** Text in lines of so many signs: SVG does not break lines by itself. */
function Wrapped({ x, y, text, most, px }: { x: number; y: number; text: string; most: number; px: number }) {
  const lines = text.split(" ").reduce<string[]>((all, word) => {
    const last = all[all.length - 1];
    if (last !== undefined && last.length + word.length + 1 <= most) all[all.length - 1] = `${last} ${word}`;
    else all.push(word);
    return all;
  }, []);
  return (
    <>
      {lines.map((line, i) => (
        <text key={line} x={x} y={y + i * px * 1.2} font-size={px} style={{ fontWeight: 500 }}>
          {line}
        </text>
      ))}
    </>
  );
}

function ShortCard({ one, nights, x }: { one: VehicleNight; nights: readonly VehicleNight[]; x: number }) {
  const words = tonightWords.now();
  const mine = one.stays.find(({ outcome }) => outcome.short);
  const km = mine ? shortBy(mine.about, mine.outcome).kmUnder : 0;
  return (
    <g transform={`translate(${x} 0)`}>
      <path d="M6 0 84 8V38q0 6-6 6H6q-6 0-6-6V6q0-6 6-6z" fill="#000" />
      <text class="f" x="42" y="37" font-size="38" text-anchor="middle" style={{ fill: "#fff" }}>
        {one.vehicle.plate}
      </text>
      <text y="60" font-size="14">
        {words.slate.under(km)}
      </text>
      <Wrapped x={0} y={76} text={plain(wayOut(words, one, swapFor(one, nights)))} most={20} px={14} />
    </g>
  );
}
