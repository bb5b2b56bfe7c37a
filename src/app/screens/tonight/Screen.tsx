import "../lists.css";
import "./tonight.css";
import { useEffect, useState } from "preact/hooks";
import type { Vehicle, Yard } from "../../../records/index.js";
import { isZone, minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";
import { book, vehicles, yards } from "../../fleet.js";
import { Caution } from "../../parts/Caution.js";
import { Icon } from "../../parts/Icon.js";
import { slate } from "../../parts/icons.js";
import { cut, print } from "../../parts/icons-more.js";
import { Key } from "../../parts/keys.js";
import { Mark } from "../../parts/Mark.js";
import { Page } from "../../parts/Page.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { go } from "../../router.js";
import { nowUtcMs } from "../../state.js";
import { say } from "../../voice.js";
import { core } from "../../words/core.js";
import { clock, figures, joined, plain } from "../../words/format.js";
import { tonightWords } from "../../words/tonight.js";
import { BoardView } from "./BoardView.js";
import { Exports, Follow, Proof } from "./Foot.js";
import { NextHands } from "./Hands.js";
import { Shorts, Slots } from "./Lists.js";
import { NightCautions } from "./NightCautions.js";
import { type VehicleNight, vehicleNights } from "./night-facts.js";
import { nightOf, planTonight, recordOf, socketsIn } from "./night-state.js";
import { nightTitle } from "./night-title.js";
import { Problems } from "./Problems.js";
import { RollCall } from "./RollCall.js";
import { Walls } from "./Walls.js";

export const words = [tonightWords];

/** Does the night fit? Who is on which socket until when, who is short, whose hands come next? */
export function Screen({ params }: ScreenProps) {
  const all = yards.value;
  const yard = all.find(({ id }) => id === params[0]) ?? (all.length === 1 ? all[0] : undefined);
  if (yard) return <OneNight yard={yard} above={all.length > 1 ? "tonight" : undefined} />;
  return all.length > 1 ? <Walls /> : <NoYard />;
}

function NoYard() {
  const words = tonightWords.now();
  return (
    <Page title={core.now().places.tonight} place="tonight">
      <div class="empty">
        <Mark state="notKnown" size={120} />
        <p>{words.noVehicles}</p>
        <Key kind="main" onPress={() => go("five-taps")}>
          {core.now().fiveTaps}
        </Key>
      </div>
    </Page>
  );
}

function OneNight({ yard, above }: { yard: Yard; above: string | undefined }) {
  const words = tonightWords.now();
  const at = nowUtcMs.value;
  const records = book.value;
  useEffect(() => planTonight(yard), [yard, records, at]);
  const { shown, share, problems } = nightOf(yard.id);
  const sockets = socketsIn(records, yard);
  const own = vehicles.value.filter((vehicle) => vehicle.yardId === yard.id);
  const nights = shown ? vehicleNights(own, shown) : [];
  const now = isZone(yard.zone) ? clock(minuteOfDay(at, yard.zone) / 60) : "";
  const title = nightTitle(yard);
  return (
    <Page
      title={yard.name}
      sub={joined(title, now)}
      head={<Icon of={slate} size={40} />}
      place="tonight"
      {...(above === undefined ? {} : { above })}
      onSay={() => void say(plain(spokenOf(nights)))}
    >
      {sockets.length === 0 ? (
        <NoSockets />
      ) : (
        <>
          {shown ? <Head nights={nights} /> : <p class="night-wait">{words.working(Math.round(100 * (share ?? 0)))}</p>}
          <Problems yard={yard} problems={problems} />
          {shown && <Night yard={yard} shown={shown} nights={nights} own={own} share={share} />}
        </>
      )}
    </Page>
  );
}

function NoSockets() {
  const words = tonightWords.now();
  return (
    <div class="empty">
      <Icon of={slate} size={96} />
      <p>
        <b>{words.noSockets}</b>
      </p>
      <p>{words.noSocketsWhy}</p>
      <Key kind="main" onPress={() => go("yard")}>
        {words.toYard}
      </Key>
    </div>
  );
}

const countOf = (nights: readonly VehicleNight[], state: VehicleNight["state"]): number =>
  nights.filter((one) => one.state === state).length;
const spokenOf = (nights: readonly VehicleNight[]): string => {
  const words = tonightWords.now();
  const short = nights.filter((one) => one.state === "short").map(({ vehicle }) => vehicle.plate);
  const head = short.length > 0 ? `${words.short} ${joined(...short)}` : words.nobodyShort;
  return `${head}. ${tallyOf(nights)}.`;
};
const tallyOf = (nights: readonly VehicleNight[]): string =>
  tonightWords.now().tally(countOf(nights, "enough"), countOf(nights, "tight"), countOf(nights, "notKnown"));

/** Plates in the headline: one line on a phone. */
const mostPlates = (): number => (innerWidth >= 900 ? 12 : 3);
function Head({ nights }: { nights: readonly VehicleNight[] }) {
  const words = tonightWords.now();
  const short = nights.filter((one) => one.state === "short");
  const most = short.length === mostPlates() + 1 ? short.length : mostPlates();
  const first = short.slice(0, most).map(({ vehicle }) => vehicle.plate);
  return (
    <section class={`night-head ${short.length > 0 ? "trouble" : ""}`}>
      <Mark state={short.length > 0 ? "short" : "enough"} size={46} />
      <div>
        <b>
          {short.length === 0 ? (
            words.nobodyShort
          ) : (
            <>
              {words.short} <span class="fig">{first.join("\u2002")}</span>
              {short.length > most && <span> +{figures(short.length - most)}</span>}
            </>
          )}
        </b>
        <span>
          <Say text={tallyOf(nights)} />
        </span>
      </div>
    </section>
  );
}

interface NightProps {
  readonly yard: Yard;
  readonly shown: NightShown;
  readonly nights: readonly VehicleNight[];
  readonly own: readonly Vehicle[];
  readonly share: number | null;
}

function Night({ yard, shown, nights, own, share }: NightProps) {
  const words = tonightWords.now();
  const record = recordOf(book.value, yard, nowUtcMs.value);
  const sockets = socketsIn(book.value, yard);
  const [bank, setBank] = useState(0);
  const given = { yard, sockets, vehicles: own, shown, record, nowUtcMs: nowUtcMs.value };
  const keys = (
    <>
      <Key kind="col" onPress={() => go(`supply/${yard.id}`)}>
        <Icon of={cut} size={24} />
        <span>{words.cut}</span>
      </Key>
      <Key kind="col" onPress={() => go(`slate/${yard.id}`)}>
        <Icon of={print} size={24} />
        <span>{words.print}</span>
      </Key>
    </>
  );
  return (
    <div class="night">
      {nights.length <= MOST_IN_ROLL && <RollCall nights={nights} />}
      <div class="night-main">
        {!shown.rough && (
          <NextHands yard={yard} shown={shown} record={record} sockets={sockets} vehicles={own} most={1} />
        )}
        <BoardView given={given} bank={bank} onBank={setBank} keys={keys} />
        {shown.rough ? (
          <p class="night-note">{words.working(Math.round(100 * (share ?? 0)))}</p>
        ) : (
          <>
            <Follow yard={yard} shown={shown} record={record} />
            <Proof yard={yard} shown={shown} bettering={share !== null} />
          </>
        )}
      </div>
      <div class="night-side">
        {!shown.rough && (
          <NextHands yard={yard} shown={shown} record={record} sockets={sockets} vehicles={own} most={6} />
        )}
        <Shorts yard={yard} shown={shown} nights={nights} />
        <Slots yard={yard} shown={shown} nights={nights} sockets={sockets} />
        {!shown.rough && <Exports yard={yard} shown={shown} sockets={sockets} vehicles={own} record={record} />}
        <NightCautions yard={yard} shown={shown} sockets={sockets} vehicles={own} />
        <Caution text={words.cautions.plan} />
      </div>
    </div>
  );
}
const MOST_IN_ROLL = 120;
