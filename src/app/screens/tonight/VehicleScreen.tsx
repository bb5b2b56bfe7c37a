import "./tonight.css";
import { useEffect, useState } from "preact/hooks";
import type { Vehicle, Yard } from "../../../records/index.js";
import { shareAtKwh } from "../../../records/map/night-plan.js";
import { HOUR_MS } from "../../../units/numbers.js";
import { minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";
import { book, vehicleOf, vehicles, yardOf } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { plug } from "../../parts/icons.js";
import { clock as clockDrawing, spanner } from "../../parts/icons-more.js";
import { Key, KeyRow, WayKey } from "../../parts/keys.js";
import { Mark } from "../../parts/Mark.js";
import { Page } from "../../parts/Page.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { go, goBack } from "../../router.js";
import { set } from "../../settings.js";
import { nowUtcMs } from "../../state.js";
import { core } from "../../words/core.js";
import { tonightWords } from "../../words/tonight.js";
import { whyOf } from "./Lists.js";
import { socketName, swapFor, type VehicleNight, vehicleNights } from "./night-facts.js";
import { planTonight, readyOf, socketsIn, tellEvent } from "./night-state.js";
import { noSlotText, thenText, underText, wayOut } from "./say-night.js";

export const words = [tonightWords];

/** One vehicle's night: why then or why short, the cheapest way out, and what turned out otherwise. */
export function Screen({ params }: ScreenProps) {
  const vehicle = vehicleOf(params[0] ?? "");
  const yard = vehicle && yardOf(vehicle);
  const records = book.value;
  useEffect(() => {
    if (yard) planTonight(yard);
    void records;
  }, [yard, records]);
  if (!vehicle || !yard) return null;
  const shown = readyOf(yard.id);
  const all = shown
    ? vehicleNights(
        vehicles.value.filter(({ yardId }) => yardId === yard.id),
        shown,
      )
    : [];
  const mine = all.find((one) => one.vehicle.id === vehicle.id);
  return (
    <Page
      title={vehicle.name || core.now().vehicleNumber(vehicle.plate)}
      sub={yard.name}
      plate={vehicle.plate}
      place="tonight"
      above={`tonight/${yard.id}`}
      narrow
    >
      {shown && mine && <Told yard={yard} shown={shown} mine={mine} all={all} />}
      {shown && <Events yard={yard} shown={shown} vehicle={vehicle} mine={mine} />}
      <div class="ways spaced">
        <Key
          kind="way"
          onPress={() => {
            set({ vehicleId: vehicle.id });
            go("today");
          }}
        >
          {core.now().places.today}
        </Key>
      </div>
    </Page>
  );
}

interface Of {
  readonly yard: Yard;
  readonly shown: NightShown;
}

function Told({ yard, shown, mine, all }: Of & { readonly mine: VehicleNight; readonly all: readonly VehicleNight[] }) {
  const words = tonightWords.now();
  const sockets = socketsIn(book.value, yard);
  const hour = (utcMs: number) => minuteOfDay(utcMs, yard.zone) / 60;
  return (
    <section class="night-told">
      <div class="night-head">
        <Mark state={mine.state} size={56} />
        <div>
          <b>{core.now().states[mine.state]}</b>
          {mine.state === "short" && <Say text={underText(words, mine)} />}
        </div>
      </div>
      {mine.state === "short" && (
        <p>
          <Say text={whyOf(mine, shown, yard)} /> <Say text={wayOut(words, mine, swapFor(mine, all))} />.
        </p>
      )}
      {mine.stays.map(({ about, outcome }) => (
        <div key={about.stayId} class="night-slot">
          {about.levelFrom === "worseGuess" && <p>{words.unread}</p>}
          <p>
            <b>
              <Say
                text={
                  outcome.session
                    ? words.slot(
                        socketName(sockets, outcome.session.socket),
                        hour(outcome.session.plugUtcMs),
                        hour(outcome.session.unplugUtcMs),
                      )
                    : noSlotText(words, outcome)
                }
              />
            </b>
          </p>
          {outcome.session && (
            <p>
              <Say
                text={words.charge(
                  hour(outcome.session.startUtcMs),
                  hour(outcome.lastPowerUtcMs ?? outcome.session.stopUtcMs),
                )}
              />
              . <Say text={thenText(words, shown.then[about.stayId], yard)} />
            </p>
          )}
          <p>
            <Say text={words.leavesWith(Math.floor(100 * shareAtKwh(about, outcome.departKwh)), outcome.gridKwh)} />,{" "}
            {words.leaves(hour(outcome.stay.departUtcMs))}
          </p>
        </div>
      ))}
      {mine.stays.length === 0 && <p>{words.ways.giveRound}.</p>}
    </section>
  );
}

const LATE_HOURS = [0.5, 1, 2, 4];

function Events({
  yard,
  shown,
  vehicle,
  mine,
}: Of & { readonly vehicle: Vehicle; readonly mine: VehicleNight | undefined }) {
  const words = tonightWords.now();
  const of = words.events;
  const [late, setLate] = useState(false);
  const session = mine?.stays.find(({ outcome }) => outcome.session)?.outcome.session;
  const back = () => goBack(`tonight/${yard.id}`);
  const comesBy = Math.max(nowUtcMs.value, mine?.stays[0]?.outcome.stay.arriveUtcMs ?? 0);
  const tell = (event: Parameters<typeof tellEvent>[2]) => void tellEvent(yard, shown, event, of.kept).then(back);
  return (
    <div class="ways spaced">
      <WayKey icon={clockDrawing} title={of.cameLate} onPress={() => setLate(!late)} />
      {late && (
        <KeyRow
          asks={of.howLate}
          choices={LATE_HOURS.map((value) => ({ value, word: of.hours(value) }))}
          chosen={null}
          onPick={(hours) =>
            tell({ kind: "cameLate", vehicleId: vehicle.id, untilUtcMs: Math.round(comesBy + hours * HOUR_MS) })
          }
        />
      )}
      <WayKey
        icon={spanner}
        title={of.chargerDead}
        onPress={() => tell({ kind: "chargerDead", vehicleId: vehicle.id })}
      />
      {session && (
        <Key kind="way" onPress={() => tell({ kind: "socketDead", socketId: session.socket })}>
          <Icon of={plug} size={28} />
          <span class="what">
            <b>{of.socketDead}</b>
            <span>
              {words.socket} {socketName(socketsIn(book.value, yard), session.socket)}
            </span>
          </span>
        </Key>
      )}
    </div>
  );
}
