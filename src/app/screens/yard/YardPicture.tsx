import type { Yard } from "../../../records/index.js";
import { HOUR_MS } from "../../../units/numbers.js";
import { utcMsAt } from "../../../units/zone.js";
import { Fitted } from "../../parts/Fitted.js";
import { Label } from "../../parts/strip-text.js";
import { here } from "../../state.js";
import { figures } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import { stretchesOf } from "./hours.js";

const SIDE = 10;
const PRICE_TOP = 18;
const PRICE_TALL = 20;
const AWAKE_TOP = 52;
const LOAD_TOP = 78;
const LOAD_TALL = 56;
const BOTTOM = LOAD_TOP + LOAD_TALL;
const HEIGHT = BOTTOM + 24;

/** A day of the yard: price as height, a bar where somebody is awake, other users under the limit, cuts torn out. */
export function YardPicture({ yard }: { yard: Yard }) {
  return (
    <Fitted class="picture yard-picture" guess={{ width: 360, height: HEIGHT }}>
      {(box) => <Drawn yard={yard} width={box.width} />}
    </Fitted>
  );
}

interface Frame {
  readonly yard: Yard;
  readonly x: (minute: number) => number;
  readonly width: number;
}

function Drawn({ yard, width }: { yard: Yard; width: number }) {
  const words = yardWords.now().picture;
  const x = (minute: number) => SIDE + (minute / 1440) * (width - 2 * SIDE);
  const frame: Frame = { yard, x, width };
  return (
    <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={words.says}>
      <Prices {...frame} />
      <Awake {...frame} />
      <Loads {...frame} />
      <Cuts {...frame} />
      <rect x={SIDE - 4} y={BOTTOM} width={width - 2 * SIDE + 8} height="4" class="s-ink" />
      {[0, 6, 12, 18, 24].map((hour) => (
        <Label
          key={hour}
          x={x(hour * 60)}
          y={BOTTOM + 20}
          size={14}
          anchor={hour === 0 ? "start" : hour === 24 ? "end" : "middle"}
        >
          {figures(hour)}
        </Label>
      ))}
    </svg>
  );
}

/** Price of each minute at which one changes, the first band that holds it counting. */
function pricesOf({ tariff }: Yard): readonly { from: number; to: number; price: number }[] {
  const held = tariff.bands.map((band) => ({ spans: stretchesOf(band), price: band.perKwhMinor }));
  const ends = [...new Set([0, 1440, ...held.flatMap(({ spans }) => spans.flat())])].sort((a, b) => a - b);
  return ends.slice(0, -1).map((from, n) => {
    const band = held.find(({ spans }) => spans.some(([a, b]) => from >= a && from < b));
    return { from, to: ends[n + 1] ?? 1440, price: band?.price ?? tariff.otherwisePerKwhMinor };
  });
}

function Prices({ yard, x }: Frame) {
  const words = yardWords.now().picture;
  if (yard.tariff.kind !== "bands") return null;
  const all = pricesOf(yard);
  const dearest = Math.max(...all.map((one) => one.price), 1);
  const cheapest = Math.min(...all.map((one) => one.price));
  const word = (price: number) =>
    dearest === cheapest
      ? words.usual
      : price === dearest
        ? words.dear
        : price === cheapest
          ? words.cheap
          : words.usual;
  return (
    <>
      {all.map(({ from, to, price }) => {
        const tall =
          dearest === cheapest ? PRICE_TALL / 2 : 4 + ((price - cheapest) / (dearest - cheapest)) * (PRICE_TALL - 4);
        const wide = x(to) - x(from);
        return (
          <g key={from}>
            <rect x={x(from)} y={PRICE_TOP + PRICE_TALL - tall} width={wide - 1} height={tall} class="s-mass" />
            {wide > 44 && (
              <Label x={x(from) + 2} y={PRICE_TOP + PRICE_TALL - tall - 4} size={14}>
                {word(price)}
              </Label>
            )}
          </g>
        );
      })}
    </>
  );
}

function Awake({ yard, x }: Frame) {
  const words = yardWords.now().picture;
  const spans = yard.staff.awake.flatMap(stretchesOf);
  const longest = spans.reduce<readonly [number, number] | null>(
    (best, span) => (best && best[1] - best[0] >= span[1] - span[0] ? best : span),
    null,
  );
  return (
    <>
      {spans.map(([from, to]) => (
        <rect key={from} x={x(from)} y={AWAKE_TOP} width={x(to) - x(from)} height="5" class="s-ink" />
      ))}
      <Label x={longest ? x((longest[0] + longest[1]) / 2) : x(720)} y={AWAKE_TOP + 20} size={14} anchor="middle">
        {longest ? words.awake : words.asleep}
      </Label>
    </>
  );
}

function Loads({ yard, x, width }: Frame) {
  const words = yardWords.now().picture;
  const limit = yard.siteLimitKw;
  const top = Math.max(limit ?? 0, ...yard.baseLoadKwByHour, 1) * 1.15;
  const y = (kw: number) => BOTTOM - (kw / top) * LOAD_TALL;
  const some = yard.baseLoadKwByHour.some((kw) => kw > 0);
  return (
    <>
      {yard.baseLoadKwByHour.map((kw, hour) => {
        const over = limit !== null && kw > limit;
        const at = { x: x(hour * 60), width: x(60) - x(0) + 0.5 };
        return (
          // hours of a day stand in one order
          <g key={`${hour}h`}>
            <rect {...at} y={y(kw)} height={BOTTOM - y(kw)} fill="url(#hatch)" />
            {over && limit !== null && <rect {...at} y={y(kw)} height={y(limit) - y(kw)} fill="var(--brick)" />}
          </g>
        );
      })}
      {limit !== null && (
        <>
          <rect x={SIDE - 4} y={y(limit) - 2} width={width - 2 * SIDE + 8} height="4" class="s-ink" />
          <Label x={width - SIDE} y={y(limit) + 18} size={14} anchor="end" halo>
            {words.limit(figures(limit, Number.isInteger(limit) ? 0 : 1))}
          </Label>
        </>
      )}
      {some && (
        <Label x={SIDE + 4} y={BOTTOM - 6} size={14} halo>
          {words.others}
        </Label>
      )}
    </>
  );
}

/** Cuts of today, torn through all lanes. */
function Cuts({ yard, x }: Frame) {
  const words = yardWords.now().picture;
  const fromDay = utcMsAt(here.value.date, 0, yard.zone);
  const minute = (utcMs: number) => Math.min(1440, Math.max(0, ((utcMs - fromDay) / HOUR_MS) * 60));
  const today = yard.cuts
    .map((cut) => [minute(cut.fromUtcMs), minute(cut.toUtcMs)] as const)
    .filter(([from, to]) => to > from);
  return (
    <>
      {today.map(([from, to]) => {
        const [a, b] = [x(from), x(to)];
        const teeth = Array.from({ length: 7 }, (_, n) => (n % 2 === 0 ? 0 : 5));
        const step = (BOTTOM - PRICE_TOP) / 6;
        const edge = (at: number, sign: number) =>
          teeth.map((tooth, n) => `${at + sign * tooth} ${PRICE_TOP + n * step}`);
        const path = `M${edge(a, 1).join("L")}L${edge(b, -1).reverse().join("L")}z`;
        return (
          <g key={from}>
            <path d={path} fill="var(--ground)" stroke="var(--ink)" stroke-width="2.4" />
            {b - a > 64 && (
              <Label x={(a + b) / 2} y={LOAD_TOP - 8} size={14} anchor="middle">
                {words.cut}
              </Label>
            )}
          </g>
        );
      })}
    </>
  );
}
