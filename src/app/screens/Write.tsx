import "./write.css";
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { clockOfMinute } from "../../records/clock.js";
import { entryId, readingId } from "../../records/ids.js";
import type { Entry, Vehicle } from "../../records/index.js";
import { answers } from "../answers.js";
import { book, type Change, holdRecords, keep, listed, roundOf } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { emptyTray, fullTray, halfTray, pad } from "../parts/icons.js";
import { type Choice, Key, KeyRow } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { TextPad } from "../parts/TextPad.js";
import { openedStore } from "../shelf.js";
import { here } from "../state.js";
import { lastDone, takeBack } from "../undo.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { clock, dayShort, figures } from "../words/format.js";
import { type DayContext, dayContext } from "./day-context.js";
import { around, gaugeValues } from "./gauge-values.js";
import { kmOf } from "./Road.js";
import type { GaugeKind } from "./today-model.js";

export const words = [dayWords];

const KEYS = 4;
const LOADS = [
  { value: "empty", icon: emptyTray },
  { value: "half", icon: halfTray },
  { value: "full", icon: fullTray },
] as const;

/** What happened today? Four taps, each kept at once; blanks are fine. */
export function Screen() {
  const words = dayWords.now().write;
  const context = dayContext();
  const today = here.value.date;
  const [date, setDate] = useState(today);
  const [asks, setAsks] = useState<"km" | "level" | "plugged" | "date" | null>(null);
  const vehicleId = context?.vehicle.id ?? "";
  // Held for as long as the page is open: keys must not move under the thumb when a tap changes the answer.
  const [homeLevel] = useState(answers.peek().get(vehicleId)?.answer.home.p50 ?? 0.4);
  useEffect(() => void loadEntry(vehicleId, date), [vehicleId, date]);
  if (!context) return null;
  const { vehicle } = context;
  const entry = entryOn(vehicleId, date);
  const close = () => setAsks(null);
  const put = (change: Partial<Entry>) => {
    close();
    void keepEntry(context, date, change);
  };
  const pickDate = (picked: string) => {
    close();
    setDate(picked);
  };
  const filled = [entry.km, entry.level, entry.loadClass, entry.pluggedAt].filter((value) => value !== null).length;
  const km = usualKm(vehicle);
  const kind = vehicle.gauge.kind;
  const gauge = gaugeValues(kind, vehicle, homeLevel, KEYS);
  const decimals = kind === "volts" ? 1 : 0;
  const putLevel = (value: number) =>
    put({ level: { kind, value, perBlock: kind === "volts" && value < vehicle.battery.nominalV / 2 } });
  return (
    <Page
      title={date === today ? words.title : words.titleOf(dayShort(date))}
      sub={date === today ? `${dayShort(date)}, ${clock(here.value.nowH)}` : vehicle.name}
      plate={vehicle.plate}
      above="today"
      place="today"
      onSay={() => void say(words.spoken)}
      foot={<Foot filled={filled} onAnotherDay={() => setAsks("date")} />}
      narrow
      ownUndo
    >
      <Ask no={1} title={words.km} note={words.usual(km)} answered={entry.km !== null}>
        <Row
          title={words.km}
          choices={around(km, km < 30 ? 2 : 4, [0, 400], KEYS).map((value) => ({
            value,
            word: figures(value),
            figure: true,
          }))}
          chosen={entry.km}
          shown={entry.km === null ? null : figures(entry.km)}
          onPick={(value) => put({ km: value })}
          onOther={() => setAsks("km")}
        />
      </Ask>
      <Ask no={2} title={words.gauge} note={core.now().units[kind]} answered={entry.level !== null}>
        <Row
          title={words.gauge}
          choices={gauge.map((value) => ({ value, word: figures(value, decimals), figure: true }))}
          chosen={entry.level?.value ?? null}
          shown={entry.level === null ? null : figures(entry.level.value, decimals)}
          onPick={putLevel}
          onOther={() => setAsks("level")}
        />
      </Ask>
      <Ask no={3} title={words.load} answered={entry.loadClass !== null}>
        <KeyRow
          asks={words.load}
          chosen={entry.loadClass}
          onPick={(value) => put({ loadClass: value })}
          choices={LOADS.map(({ value, icon }) => ({ value, icon, word: dayWords.now().load[value] }))}
        />
      </Ask>
      <Ask no={4} title={words.plugged} answered={entry.pluggedAt !== null}>
        <Row
          title={words.plugged}
          choices={pluggedTimes(date === today ? here.value.nowH : null).map((value) => ({
            value,
            word: clock(Number(value.slice(0, 2)) + Number(value.slice(3)) / 60),
            figure: true,
          }))}
          chosen={entry.pluggedAt}
          shown={entry.pluggedAt}
          onPick={(value) => put({ pluggedAt: value })}
          onOther={() => setAsks("plugged")}
        >
          <Key onPress={() => put({ pluggedAt: null })}>{words.notYet}</Key>
        </Row>
        {vehicle.battery.chemistry === "floodedLead" && <Caution id="gas" text={words.gas} />}
      </Ask>
      {asks === "km" && (
        <NumberPad
          title={words.km}
          unit="km"
          least={0}
          most={1000}
          onClose={close}
          onKeep={(value) => put({ km: value })}
        />
      )}
      {asks === "level" && (
        <NumberPad
          title={words.gauge}
          unit={core.now().units[kind]}
          least={0}
          most={mostOf(kind, vehicle)}
          decimals={decimals}
          onClose={close}
          onKeep={putLevel}
        />
      )}
      {asks === "plugged" && (
        <TextPad
          title={words.plugged}
          type="time"
          start={entry.pluggedAt ?? ""}
          onClose={close}
          onKeep={(text) => put({ pluggedAt: text.slice(0, 5) })}
        />
      )}
      {asks === "date" && (
        <TextPad title={words.anotherDay} type="date" start={date} onClose={close} onKeep={pickDate} />
      )}
    </Page>
  );
}

const mostOf = (kind: GaugeKind, vehicle: Vehicle): number =>
  kind === "percent" ? 100 : kind === "bars" ? (vehicle.gauge.bars ?? 5) : 199;

const usualKm = (vehicle: Vehicle): number => {
  const round = roundOf(vehicle.usual.roundId);
  return round ? Math.round(kmOf(round)) : 40;
};

const EVENING_H = 22;
/** The last three half hours, or those of an evening for another day. */
function pluggedTimes(nowH: number | null): string[] {
  const last = Math.floor((nowH ?? EVENING_H) * 2) * 30;
  return [last - 60, last - 30, last].map(clockOfMinute);
}

interface AskProps {
  readonly no: number;
  readonly title: string;
  readonly note?: string;
  readonly answered: boolean;
  readonly children: ComponentChildren;
}
function Ask({ no, title, note, answered, children }: AskProps) {
  return (
    <section class={`ask written ${answered ? "answered" : ""}`}>
      <h2>
        <span class="no fig">{figures(no)}</span>
        {title}
        {note && <small>{note}</small>}
      </h2>
      {children}
    </section>
  );
}

function Row<T extends string | number>(props: {
  readonly title: string;
  readonly choices: readonly Choice<T>[];
  readonly chosen: T | null;
  readonly shown: string | null;
  readonly onPick: (value: T) => void;
  readonly onOther: () => void;
  readonly children?: ComponentChildren;
}) {
  const other = props.chosen !== null && !props.choices.some(({ value }) => value === props.chosen);
  return (
    <KeyRow asks={props.title} choices={props.choices} chosen={props.chosen} onPick={props.onPick}>
      {props.children}
      <Key kind="alt" chosen={other} onPress={props.onOther} says={core.now().pad.another}>
        {other ? <span class="fig">{props.shown}</span> : <Icon of={pad} />}
      </Key>
    </KeyRow>
  );
}

function Foot({ filled, onAnotherDay }: { filled: number; onAnotherDay: () => void }) {
  const words = dayWords.now().write;
  return (
    <footer class="saved">
      <span class="dots" aria-hidden="true">
        {[0, 1, 2, 3].map((i) => (
          <i key={i} class={i < filled ? "full" : ""} />
        ))}
      </span>
      <p>
        <b>{words.kept(filled)}</b> {words.blanks}
      </p>
      {lastDone.value?.undo ? (
        <Key onPress={() => void takeBack()}>{core.now().keys.undo}</Key>
      ) : (
        <Key onPress={onAnotherDay}>{words.anotherDay}</Key>
      )}
    </footer>
  );
}

/** The entry of a day as it stands: an empty one when nothing was written yet. */
function entryOn(vehicleId: string, date: string): Entry {
  const found = listed(book.value, "entry").find((entry) => entry.vehicleId === vehicleId && entry.date === date);
  if (found) return found;
  return {
    id: entryId(vehicleId, date),
    v: 1,
    vehicleId,
    date,
    km: null,
    trips: null,
    odometerKm: null,
    level: null,
    loadClass: null,
    pluggedAt: null,
    gridKwh: null,
    sunKwh: null,
    paidMinor: null,
    wet: null,
    driver: null,
    formerly: [],
  };
}

async function loadEntry(vehicleId: string, date: string): Promise<void> {
  if (!vehicleId) return;
  const found = await (await openedStore()).listEntries(vehicleId, date, date);
  if (!found.ok) return;
  const known = new Set(found.value.records.map((entry) => entry.id));
  const others = listed(book.value, "entry").filter((entry) => !known.has(entry.id));
  holdRecords({ entry: [...others, ...found.value.records] });
}

const MOST_CORRECTIONS = 200;
type Field = "km" | "level" | "loadClass" | "pluggedAt";

/** A correction keeps what stood there before; a gauge read today is a reading too. */
async function keepEntry({ vehicle }: DayContext, date: string, change: Partial<Entry>): Promise<void> {
  const atUtcMs = Date.now();
  const readings: Change[] = [];
  if (change.level && date === here.value.date)
    readings.push({
      kind: "reading",
      put: {
        id: readingId(vehicle.id, atUtcMs),
        v: 1,
        vehicleId: vehicle.id,
        atUtcMs,
        ...change.level,
        restedMin: null,
      },
    });
  await keep(
    () => [{ kind: "entry", put: corrected(entryOn(vehicle.id, date), change, atUtcMs) }, ...readings],
    dayWords.now().write.keptOne,
  );
}

function corrected(old: Entry, change: Partial<Entry>, atUtcMs: number): Entry {
  const before = (Object.keys(change) as Field[])
    .filter((field) => old[field] !== null)
    .map((field) => ({ atUtcMs, field, value: plainValue(old[field]) }));
  return { ...old, ...change, formerly: [...old.formerly, ...before].slice(-MOST_CORRECTIONS) };
}

const plainValue = (value: Entry[Field]): string | number | null =>
  typeof value === "object" && value !== null ? value.value : value;
