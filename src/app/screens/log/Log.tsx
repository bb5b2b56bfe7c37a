import "./log.css";
import { Fragment } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Entry, Forecast, ScoreSums, Vehicle } from "../../../records/index.js";
import { unpackPlace, unpackVehicle } from "../../../records/map/learn-pack.js";
import { type LivedDay, livedDays, scoreOf, sumOfScores } from "../../../records/map/lived.js";
import { plusDays } from "../../../units/zone.js";
import { book, listed, ownedBy, vehicleOf, vehicles, yardOf } from "../../fleet.js";
import { learnedOf, SCORED_DAYS } from "../../learning.js";
import { WayKey } from "../../parts/keys.js";
import { LongList } from "../../parts/LongList.js";
import { Page } from "../../parts/Page.js";
import { Plate } from "../../parts/Plate.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { go } from "../../router.js";
import { set } from "../../settings.js";
import { openedStore } from "../../shelf.js";
import { here } from "../../state.js";
import { say } from "../../voice.js";
import { dayWords } from "../../words/day.js";
import { dayShort, figures, n1, plain } from "../../words/format.js";
import { logWords } from "../../words/log.js";
import { formerOf } from "../write/entries.js";
import { LivedPicture, LivedTable } from "./Lived.js";
import { writtenWords } from "./Paper.js";
import { Taught, TaughtKeys } from "./Taught.js";

export const words = [logWords, dayWords];

/** What was guessed, and what was lived? `log/ID` of one vehicle, `log` of all. */
export function Screen({ params }: ScreenProps) {
  const vehicle = vehicleOf(params.join("/"));
  return vehicle ? <OfOne vehicle={vehicle} /> : <OfAll />;
}

interface History {
  readonly entries: readonly Entry[];
  readonly forecasts: readonly Forecast[];
}

/** The last weeks, read again when something of them was written. */
function useHistory(vehicle: Vehicle): History | null {
  const [history, setHistory] = useState<History | null>(null);
  const entries = ownedBy(listed(book.value, "entry"), "vehicleId", vehicle.id);
  useEffect(() => {
    const today = here.peek().date;
    const [from, to] = [plusDays(today, -SCORED_DAYS), plusDays(today, 1)];
    void openedStore().then(async (store) => {
      const [written, said] = await Promise.all([
        store.history("entry", vehicle.id, from, to),
        store.history("forecast", vehicle.id, from, to),
      ]);
      if (written.ok && said.ok) setHistory({ entries: written.value.records, forecasts: said.value.records });
    });
  }, [vehicle.id, entries]);
  return history;
}

function OfOne({ vehicle }: { vehicle: Vehicle }) {
  const told = logWords.now();
  const history = useHistory(vehicle);
  const held = learnedOf(vehicle.id);
  const yard = yardOf(vehicle);
  const state = unpackVehicle(held?.state ?? null);
  const place = unpackPlace(
    yard ? (ownedBy(listed(book.value, "placeLearned"), "yardId", yard.id)[0]?.state ?? null) : null,
  );
  if (!yard) return null;
  const days = history ? livedDays({ vehicle, yard, ...history, learned: state }) : null;
  const week = days && weekWords(days, here.value.date);
  return (
    <Page
      title={told.title}
      sub={vehicle.name}
      plate={vehicle.plate}
      place="vehicles"
      above={`sheet/${vehicle.id}`}
      onSay={() => void say(plain(week ?? told.spoken))}
      narrow
    >
      {days && history && (
        <article class="care log">
          <section>
            {days.length > 0 ? (
              <p class="log-week">
                <Say text={week ?? ""} />
              </p>
            ) : (
              <p>{told.none}</p>
            )}
            <LivedPicture days={days} />
            {days.length > 0 && <LivedTable days={days} />}
          </section>
          <Score score={scoreOf(days)} />
          <Taught state={state} place={place} />
          {held && <TaughtKeys vehicle={vehicle} held={held} />}
          <Days vehicle={vehicle} entries={history.entries} />
        </article>
      )}
    </Page>
  );
}

const WEEK = 7;
/** How far last week's guess missed: in km and in percent of a full set, in one sentence. */
function weekWords(days: readonly LivedDay[], today: string): string {
  const told = logWords.now();
  const last = days.filter(({ date }) => date >= plusDays(today, -WEEK));
  if (last.length === 0) return told.weekNone;
  const mean = (of: (day: LivedDay) => number) => last.reduce((sum, day) => sum + Math.abs(of(day)), 0) / last.length;
  return told.week(Math.round(mean((day) => day.offKm)), Math.round(100 * mean((day) => day.offShare)), last.length);
}

function Score({ score }: { score: ScoreSums | null }) {
  const told = logWords.now();
  if (!score) return null;
  const { days } = score;
  const rows: readonly (readonly [string, string])[] = [
    [told.scored, figures(days)],
    [told.meanMiss, told.missOf(score.offKm / days, (100 * score.off) / days)],
    [told.inside80, told.inside(score.inside80, days)],
    [told.inside90, told.inside(score.inside90, days)],
    [told.missed, figures(score.missedShort)],
    [told.alarms, figures(score.falseAlarms)],
    [told.pinball, n1((100 * score.pinball) / days)],
  ];
  return (
    <section>
      <h2>{told.scoreTitle}</h2>
      <dl>
        {rows.map(([name, value]) => (
          <Fragment key={name}>
            <dt>{name}</dt>
            <dd>
              <Say text={value} />
            </dd>
          </Fragment>
        ))}
      </dl>
      <small>{told.scoreRule}</small>
    </section>
  );
}

const DAYS_LISTED = 21;
/** The days as they are written, with what stood there before a correction. */
function Days({ vehicle, entries }: { vehicle: Vehicle; entries: readonly Entry[] }) {
  const told = logWords.now();
  const open = (date: string) => {
    set({ vehicleId: vehicle.id });
    go(`write/${date}`);
  };
  const shown = [...entries].reverse().slice(0, DAYS_LISTED);
  if (shown.length === 0) return null;
  return (
    <section class="no-print">
      <h2>{told.daysTitle}</h2>
      <div class="ways bare">
        {shown.map((entry) => (
          <WayKey
            key={entry.id}
            title={dayShort(entry.date)}
            sub={[writtenWords(entry), ...beforeWords(entry)].filter(Boolean).join("; ")}
            onPress={() => open(entry.date)}
          />
        ))}
      </div>
    </section>
  );
}

function beforeWords(entry: Entry): string[] {
  const { before } = dayWords.now().write;
  const { km, load } = { km: dayWords.now().road.km, load: dayWords.now().load };
  const formerKm = formerOf(entry, "km");
  const formerLevel = formerOf(entry, "level");
  const formerLoad = formerOf(entry, "loadClass");
  return [
    typeof formerKm === "number" ? before(km(formerKm)) : "",
    typeof formerLevel === "number" ? before(figures(formerLevel, Number.isInteger(formerLevel) ? 0 : 1)) : "",
    formerLoad === "empty" || formerLoad === "half" || formerLoad === "full" ? before(load[formerLoad]) : "",
  ];
}

const ROW_PX = 71;
/** The whole yard: how good its guesses were, and vehicle by vehicle. */
function OfAll() {
  const told = logWords.now();
  const scores = vehicles.value.map((vehicle) => learnedOf(vehicle.id)?.score ?? null);
  return (
    <Page
      title={told.title}
      sub={told.fleetTitle}
      place="vehicles"
      above="vehicles"
      onSay={() => void say(told.spoken)}
    >
      <article class="care log">
        <Score score={sumOfScores(scores)} />
      </article>
      <div class="rows">
        <LongList items={vehicles.value} rowPx={ROW_PX} row={(one) => <Row key={one.id} vehicle={one} />} />
      </div>
    </Page>
  );
}

function Row({ vehicle }: { vehicle: Vehicle }) {
  const told = logWords.now();
  const score = learnedOf(vehicle.id)?.score ?? null;
  return (
    <li>
      <button type="button" class="row-key plain-row" onClick={() => go(`log/${vehicle.id}`)}>
        <Plate number={vehicle.plate} />
        <span class="what">
          <b>{vehicle.name}</b>
          <span>
            <Say text={score ? told.missOf(score.offKm / score.days, (100 * score.off) / score.days) : "–"} />
          </span>
        </span>
        {score && (
          <span>
            <Say text={told.inside(score.inside80, score.days)} />
          </span>
        )}
      </button>
    </li>
  );
}
