import { useEffect, useState } from "preact/hooks";
import { Caution } from "../parts/Caution.js";
import { DayStrip } from "../parts/DayStrip.js";
import { Fitted } from "../parts/Fitted.js";
import { Icon } from "../parts/Icon.js";
import {
  bright,
  chalk,
  type Drawing,
  dark,
  emptyTray,
  flatRoad,
  fullTray,
  halfTray,
  hills,
  mixed,
  pad,
  plug,
  road,
  someHills,
  trip,
} from "../parts/icons.js";
import { Key, WayKey } from "../parts/keys.js";
import { Mark } from "../parts/Mark.js";
import { Say } from "../parts/Say.js";
import { STRIP_SIZES } from "../parts/strip-geometry.js";
import { useMoving } from "../parts/useMoving.js";
import { core } from "../words/core.js";
import { figures, joined } from "../words/format.js";
import type * as Reading from "./reading.js";
import type { TodayModel, Way } from "./today-model.js";
import { hillWords, stripWords, stuckWords, verdictWords, wayWords } from "./today-words.js";

export interface TodayKeys {
  readonly gauge: () => void;
  readonly sky: () => void;
  readonly load: () => void;
  readonly road: () => void;
  readonly oneMore: () => void;
  readonly write: () => void;
  readonly pluggedAllNight: () => void;
  readonly chooseRound: () => void;
  readonly take: (way: Way) => void;
}
const SKY = { bright, mixed, dark, usual: mixed };
const LOAD = { empty: emptyTray, half: halfTray, full: fullTray };
const ROAD = { flat: flatRoad, some: someHills, hills };
const WAY: Record<Way["kind"], Drawing> = { plug, leaveOut: road };

/** Enough for today? Verdict, number, reason; the picture; what it stands on; what to do. */
export function TodayView(props: { model: TodayModel; keys: TodayKeys; helping: boolean }) {
  const { model, keys, helping } = props;
  const stuck = stuckWords(core.now(), model);
  const reader = useReader(helping || model.out);
  const [hour, setHour] = useState<number | null>(null);
  const strip = helping && reader ? model.strip : null;
  const picked = strip && reader ? (hour ?? reader.firstHour(strip)) : null;
  return (
    <>
      <Verdict model={model} />
      {model.tooCold && <Caution text={core.now().coldSet} />}
      {stuck && <Caution text={stuck} />}
      <Strip model={model} pickedH={picked} />
      {strip && reader && picked !== null ? (
        <>
          <reader.HourReader model={strip} hour={picked} onHour={setHour} sunKmPerShare={model.sunKmPerShare} />
          <reader.StripLegend />
          <reader.RestLinks />
          <reader.MovesLink />
        </>
      ) : (
        <>
          <NextSteps model={model} keys={keys} />
          {model.out && reader && <reader.RestLinks />}
        </>
      )}
    </>
  );
}

/** What reads the picture hour by hour, fetched when help is first asked for. */
function useReader(wanted: boolean): typeof Reading | null {
  const [reader, setReader] = useState<typeof Reading | null>(null);
  useEffect(() => {
    if (wanted && !reader) void import("./reading.js").then((part) => part.load().then(() => setReader(part)));
  }, [wanted, reader]);
  return reader;
}

const PANELS = { enough: "", tight: "tight", short: "short", notKnown: "unknown" };

function Verdict({ model }: { model: TodayModel }) {
  const words = core.now();
  const { word, number, second } = verdictWords(words, model.said);
  const hill = model.hill && !stuckWords(words, model) ? hillWords(words, model.hill) : "";
  const socket = model.sockets.length > 0 && words.countsOn(joined(...model.sockets));
  const standing = joined(model.usualDay && words.usualDay, model.guess && words.aGuess);
  const remarks =
    model.said.verdict === "notKnown"
      ? []
      : [standing, hill, socket].filter((remark) => remark !== "" && remark !== false);
  return (
    <section class={`verdict ${PANELS[model.said.verdict]}`} aria-live="polite">
      <Mark state={model.said.verdict} size={76} />
      <div>
        <b>{word}</b>
        {number && (
          <p>
            <Say text={number} />
          </p>
        )}
        {second && (
          <small>
            <Say text={second} />
          </small>
        )}
        {remarks.map((remark) => (
          <small key={remark} class="remark">
            {remark}
          </small>
        ))}
      </div>
    </section>
  );
}

function Strip({ model, pickedH }: { model: TodayModel; pickedH: number | null }) {
  const moving = useMoving(model.strip, `${model.vehicleId} ${model.date}`);
  if (!moving.model) return <div class="strip-room" />;
  const shown = moving.model;
  const guess = { width: Math.min(innerWidth, 560), height: ownHeight("card") };
  return (
    <Fitted class="strip-room" guess={guess}>
      {(box) => {
        const kind = box.width >= WIDE_PX ? "large" : box.height < ownHeight("card") - MOST_OFF_PX ? "compact" : "card";
        const spare = box.height - ownHeight(kind);
        return (
          <DayStrip
            model={shown}
            words={stripWords(core.now(), model)}
            kind={kind}
            width={box.width}
            taller={Math.max(-MOST_OFF_PX, Math.min(120, spare))}
            before={moving.before}
            pickedH={pickedH}
          />
        );
      }}
    </Fitted>
  );
}

const WIDE_PX = 700;
/** The level lane gives up to so much of its height, so that the keys stay on the glass. */
const MOST_OFF_PX = 60;
/** Height of a strip of a kind, with the rims between its lanes. */
function ownHeight(kind: "card" | "large" | "compact"): number {
  const { sun, gap, level, road, axis } = STRIP_SIZES[kind];
  return sun + gap + level + 8 + road + axis + 2;
}

function NextSteps({ model, keys }: { model: TodayModel; keys: TodayKeys }) {
  const words = core.now();
  const { verdict } = model.said;
  if (verdict === "notKnown") return <AskForReading model={model} keys={keys} />;
  if (model.ways.length > 0) return <Ways model={model} keys={keys} />;
  return (
    <>
      {model.noPlug && <p class="hint no-way">{words.noPlug[model.noPlug]}</p>}
      <Stands model={model} keys={keys} />
      <div class="acts two">
        {verdict === "enough" && (
          <Key kind="main" onPress={keys.oneMore}>
            <Icon of={trip} size={28} />
            {words.keys.oneMoreTrip}
          </Key>
        )}
        <Key onPress={keys.write}>
          <Icon of={chalk} size={26} />
          {words.keys.write}
        </Key>
      </div>
    </>
  );
}

/** What the answer stands on, as keys; slim ones below the ways out of a day that is not enough. */
export function Stands({ model, keys, slim }: { model: TodayModel; keys: TodayKeys; slim?: boolean }) {
  const words = core.now();
  const { reading } = model;
  const figure =
    reading && !reading.guess && reading.kind !== "full"
      ? figures(reading.value, reading.kind === "volts" ? 1 : 0)
      : null;
  return (
    <fieldset class={slim ? "stand slim" : "stand"} aria-label={words.standsOn}>
      <Key kind="col" onPress={keys.gauge}>
        {figure ? <span class="fig">{figure}</span> : <Icon of={pad} size={26} />}
        <span>{figure && reading && reading.kind !== "full" ? words.units[reading.kind] : words.gauge}</span>
      </Key>
      <Key kind="col" onPress={keys.sky}>
        <Icon of={SKY[model.sky]} size={28} />
        <span>{words.sky[model.sky]}</span>
      </Key>
      <Key kind="col" onPress={keys.load}>
        <Icon of={LOAD[model.load]} size={28} />
        <span>{words.load[model.load]}</span>
      </Key>
      <Key kind="col" onPress={keys.road}>
        <Icon of={ROAD[model.road]} size={28} />
        <span>{words.road[model.road]}</span>
      </Key>
    </fieldset>
  );
}

function Ways({ model, keys }: { model: TodayModel; keys: TodayKeys }) {
  return (
    <>
      <div class="ways">
        {model.ways.map((way, i) => (
          <WayKey
            key={way.kind}
            icon={WAY[way.kind]}
            {...wayWords(core.now(), way, model.noPlug)}
            main={i === 0}
            onPress={() => keys.take(way)}
          />
        ))}
      </div>
      <Stands model={model} keys={keys} slim />
    </>
  );
}

function AskForReading({ model, keys }: { model: TodayModel; keys: TodayKeys }) {
  const words = core.now();
  const { said } = model;
  return (
    <>
      <div class="ways">
        {said.verdict === "notKnown" && said.why === "round" ? (
          <WayKey icon={road} title={words.chooseRound} main onPress={keys.chooseRound} />
        ) : (
          <>
            <WayKey
              icon={pad}
              title={words.typeGauge[model.gaugeKind]}
              sub={words.afterRest}
              main
              onPress={keys.gauge}
            />
            <WayKey icon={plug} title={words.pluggedAllNight} sub={words.callItFull} onPress={keys.pluggedAllNight} />
          </>
        )}
      </div>
      <Stands model={model} keys={keys} slim />
    </>
  );
}
