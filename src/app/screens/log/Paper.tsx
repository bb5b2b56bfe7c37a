import "../lists.css";
import "../write.css";
import "./log.css";
import { useEffect, useState } from "preact/hooks";
import type { Entry, Vehicle } from "../../../records/index.js";
import { dayNamed, plusDays } from "../../../units/zone.js";
import { vehicles } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { chalk } from "../../parts/icons.js";
import { Key, KeyRow, WayKey } from "../../parts/keys.js";
import { LongList } from "../../parts/LongList.js";
import { Page } from "../../parts/Page.js";
import { Say } from "../../parts/Say.js";
import { TextPad } from "../../parts/TextPad.js";
import type { ScreenProps } from "../../places.js";
import { go, goInstead } from "../../router.js";
import { here } from "../../state.js";
import { lastDone, takeBack } from "../../undo.js";
import { say } from "../../voice.js";
import { core } from "../../words/core.js";
import { dayWords } from "../../words/day.js";
import { dayShort, figures } from "../../words/format.js";
import { logWords } from "../../words/log.js";
import { entryOn, filledIn, loadEntries } from "../write/entries.js";
import { DayForm } from "../write/Form.js";
import { Room } from "./on-write.js";

export const words = [logWords, dayWords];

const ROW_PX = 67;

/** The paper slate of a whole yard, typed in vehicle after vehicle: `paper`, `paper/DATE`, `paper/DATE/VEHICLE`. */
export function Screen({ params }: ScreenProps) {
  const [asked, ...id] = params;
  const date = dayNamed(asked, here.value.date);
  useEffect(() => void loadEntries(date), [date]);
  const vehicle = vehicles.value.find((one) => one.id === id.join("/"));
  return vehicle ? <One key={`${vehicle.id} ${date}`} vehicle={vehicle} date={date} /> : <All date={date} />;
}

const working = (): readonly Vehicle[] => vehicles.value.filter(({ status }) => status === "working");
const isOpen = (vehicle: Vehicle, date: string): boolean => filledIn(entryOn(vehicle.id, date)) === 0;
const pathOf = (vehicle: Vehicle, date: string): string => `paper/${date}/${vehicle.id}`;

/** The next one in the order of the numbers of which nothing is written; from the start again after the last. */
function nextAfter(vehicle: Vehicle | null, date: string): Vehicle | null {
  const all = working();
  const at = vehicle ? all.findIndex(({ id }) => id === vehicle.id) + 1 : 0;
  return [...all.slice(at), ...all.slice(0, at)].find((one) => one !== vehicle && isOpen(one, date)) ?? null;
}

function All({ date }: { date: string }) {
  const told = logWords.now();
  const today = here.value.date;
  const [asking, setAsking] = useState(false);
  const all = working();
  const done = all.filter((vehicle) => !isOpen(vehicle, date)).length;
  const next = nextAfter(null, date);
  const yesterday = plusDays(today, -1);
  const when = date === today ? "today" : date === yesterday ? "yesterday" : "other";
  const to = (day: string) => goInstead(`paper/${day}`);
  return (
    <Page
      title={told.paper}
      sub={dayShort(date)}
      head={<Icon of={chalk} size={40} />}
      above="vehicles"
      place="vehicles"
      onSay={() => void say(told.written(done, all.length))}
    >
      <section class="ask short">
        <KeyRow
          asks={told.day}
          chosen={when}
          onPick={(picked) => (picked === "other" ? setAsking(true) : to(picked === "today" ? today : yesterday))}
          choices={[
            { value: "today", word: told.today },
            { value: "yesterday", word: told.yesterday },
            { value: "other", word: when === "other" ? dayShort(date) : told.otherDay },
          ]}
        />
      </section>
      <div class="ways spaced">
        {next ? (
          <WayKey
            icon={chalk}
            title={told.goOn(next.plate)}
            sub={told.written(done, all.length)}
            main
            onPress={() => go(pathOf(next, date))}
          />
        ) : (
          <p class="paper-done">{told.allWritten}</p>
        )}
        <Room />
      </div>
      <div class="rows">
        <LongList items={all} rowPx={ROW_PX} row={(one) => <Row key={one.id} vehicle={one} date={date} />} />
      </div>
      {asking && (
        <TextPad
          title={told.otherDay}
          type="date"
          start={date}
          onClose={() => setAsking(false)}
          onKeep={(picked) => {
            setAsking(false);
            to(picked);
          }}
        />
      )}
    </Page>
  );
}

function Row({ vehicle, date }: { vehicle: Vehicle; date: string }) {
  const entry = entryOn(vehicle.id, date);
  const filled = filledIn(entry);
  return (
    <li>
      <button type="button" class="row-key plain-row" onClick={() => go(pathOf(vehicle, date))}>
        <span class="plate lip">{vehicle.plate}</span>
        <span class="what">
          <b>{vehicle.name}</b>
          <span>
            <Say text={filled > 0 ? writtenWords(entry) : ""} />
          </span>
        </span>
        <Dots filled={filled} />
      </button>
    </li>
  );
}

/** What is written of a day, in a few words. */
export function writtenWords(entry: Entry): string {
  const words = dayWords.now();
  const unit = entry.level && entry.level.kind !== "full" ? core.now().units[entry.level.kind] : "";
  return [
    entry.km === null ? "" : words.road.km(entry.km),
    entry.level ? `${figures(entry.level.value, Number.isInteger(entry.level.value) ? 0 : 1)} ${unit}` : "",
    entry.loadClass ? words.load[entry.loadClass] : "",
    entry.pluggedAt ?? "",
  ]
    .filter(Boolean)
    .join(", ");
}

const Dots = ({ filled }: { filled: number }) => (
  <span class="dots" aria-hidden="true">
    {[0, 1, 2, 3].map((i) => (
      <i key={i} class={i < filled ? "full" : ""} />
    ))}
  </span>
);

/** One vehicle of the slate; after its fourth answer the next one stands there by itself. */
function One({ vehicle, date }: { vehicle: Vehicle; date: string }) {
  const told = logWords.now();
  const [wasFull] = useState(() => filledIn(entryOn(vehicle.id, date)) === 4);
  const next = nextAfter(vehicle, date);
  const onKept = (entry: Entry) => {
    if (wasFull || filledIn(entry) < 4) return;
    const after = nextAfter(vehicle, date);
    goInstead(after ? pathOf(after, date) : `paper/${date}`);
  };
  const filled = filledIn(entryOn(vehicle.id, date));
  return (
    <Page
      title={vehicle.name}
      sub={dayShort(date)}
      plate={vehicle.plate}
      above={`paper/${date}`}
      place="vehicles"
      onSay={() => void say(dayWords.now().write.spoken)}
      foot={
        <footer class="saved">
          <Dots filled={filled} />
          {lastDone.value?.undo ? (
            <Key onPress={() => void takeBack()}>{core.now().keys.undo}</Key>
          ) : (
            <p>
              <b>{dayWords.now().write.kept(filled)}</b>
            </p>
          )}
          <Key kind="main wide-key" onPress={() => goInstead(next ? pathOf(next, date) : `paper/${date}`)}>
            {next ? `${told.next}: ${next.plate}` : told.next}
          </Key>
        </footer>
      }
      narrow
      ownUndo
    >
      <DayForm vehicle={vehicle} date={date} onKept={onKept} />
    </Page>
  );
}
