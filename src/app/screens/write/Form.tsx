import "../write.css";
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { clockOfMinute } from "../../../records/clock.js";
import type { Entry, Vehicle } from "../../../records/index.js";
import { answers } from "../../answers.js";
import { Caution } from "../../parts/Caution.js";
import { Icon } from "../../parts/Icon.js";
import { emptyTray, fullTray, halfTray, pad } from "../../parts/icons.js";
import { type Choice, Key, KeyRow } from "../../parts/keys.js";
import { NumberPad } from "../../parts/NumberPad.js";
import { TextPad } from "../../parts/TextPad.js";
import { here } from "../../state.js";
import { core } from "../../words/core.js";
import { dayWords } from "../../words/day.js";
import { clock, figures, joined } from "../../words/format.js";
import { around, gaugeValues } from "../gauge-values.js";
import type { GaugeKind } from "../today-model.js";
import { entryOn, type Field, type Filled, formerOf, keepEntry, loadEntry } from "./entries.js";
import { useLater } from "./later.js";
import { usualKm } from "./usual.js";

const KEYS = 4;
const LOADS = [
  { value: "empty", icon: emptyTray },
  { value: "half", icon: halfTray },
  { value: "full", icon: fullTray },
] as const;
/** Wide enough that a slip can be typed and asked about, instead of being refused. */
const MOST = { km: 100_000, percent: 1000, bars: 200, volts: 1000 };

/** Four taps about a day of a vehicle, each kept at once; blanks are fine, and an odd value is asked about and stays. */
export function DayForm(props: {
  readonly vehicle: Vehicle;
  readonly date: string;
  /** After each answer that was kept. */
  readonly onKept?: (entry: Entry) => void;
}) {
  const { vehicle, date } = props;
  const words = dayWords.now().write;
  const [asks, setAsks] = useState<"km" | "level" | "plugged" | null>(null);
  // Held for as long as the day is open: keys must not move under the thumb when a tap changes the answer.
  const [homeLevel] = useState(answers.peek().get(vehicle.id)?.answer.home.p50 ?? 0.4);
  const later = useLater();
  const [typed, setTyped] = useState<Filled | null>(null);
  /** Km that another sitting had written. */
  const [had, setHad] = useState<number | null>(null);
  // No keys before the day is read: a tap would put an empty day with one answer over what stands there.
  const [read, setRead] = useState(false);
  useEffect(() => {
    void loadEntry(vehicle.id, date).then((found) => {
      setHad(entryOn(vehicle.id, date).km);
      setRead(found);
    });
  }, [vehicle.id, date]);
  if (!read) return null;
  const entry = entryOn(vehicle.id, date);
  const put = (change: Filled) => {
    setAsks(null);
    setTyped(change);
    if (cannotBe(change)) return; // waits on the screen with its question
    void keepEntry(vehicle, date, change).then((kept) => kept && props.onKept?.(entryOn(vehicle.id, date)));
  };
  /** An answer to a question is not asked about again. */
  const answer = (change: Filled) => {
    setHad(null);
    void keepEntry(vehicle, date, change);
  };
  const km = usualKm(vehicle);
  const { kind } = vehicle.gauge;
  const decimals = kind === "volts" ? 1 : 0;
  const putLevel = (value: number) =>
    put({ level: { kind, value, perBlock: kind === "volts" && value < vehicle.battery.nominalV / 2 } });
  const noted = (field: Field, otherwise?: string) => noteOf(entry, field, otherwise);
  const question = (field: Field) =>
    later && typed && field in typed ? (
      <later.Questions {...{ vehicle, date, typed, had }} onPut={answer} onDone={() => setTyped(null)} />
    ) : null;
  return (
    <>
      <Ask no={1} title={words.km} note={noted("km", words.usual(km))} answered={entry.km !== null}>
        <Row
          title={words.km}
          choices={around(km, km < 30 ? 2 : 4, [0, 400], KEYS).map((value) => figureKey(value, figures(value)))}
          chosen={entry.km}
          shown={entry.km === null ? null : figures(entry.km)}
          onPick={(value) => put({ km: value })}
          onOther={() => setAsks("km")}
        />
        {question("km")}
      </Ask>
      <Ask no={2} title={words.gauge} note={noted("level", core.now().units[kind])} answered={entry.level !== null}>
        <Row
          title={words.gauge}
          choices={gaugeValues(kind, vehicle, homeLevel, KEYS).map((value) =>
            figureKey(value, figures(value, decimals)),
          )}
          chosen={entry.level?.value ?? null}
          shown={entry.level === null ? null : figures(entry.level.value, decimals)}
          onPick={putLevel}
          onOther={() => setAsks("level")}
        />
        {question("level")}
      </Ask>
      <Ask no={3} title={words.load} note={noted("loadClass")} answered={entry.loadClass !== null}>
        <KeyRow
          asks={words.load}
          chosen={entry.loadClass}
          onPick={(value) => put({ loadClass: value })}
          choices={LOADS.map(({ value, icon }) => ({ value, icon, word: dayWords.now().load[value] }))}
        />
      </Ask>
      <Ask no={4} title={words.plugged} note={noted("pluggedAt")} answered={entry.pluggedAt !== null}>
        <Row
          title={words.plugged}
          choices={pluggedTimes(date === here.value.date ? here.value.nowH : null).map((value) =>
            figureKey(value, clockWord(value)),
          )}
          chosen={entry.pluggedAt}
          shown={entry.pluggedAt && clockWord(entry.pluggedAt)}
          onPick={(value) => put({ pluggedAt: value })}
          onOther={() => setAsks("plugged")}
        >
          <Key onPress={() => put({ pluggedAt: null })}>{words.notYet}</Key>
        </Row>
        {vehicle.battery.chemistry === "floodedLead" && <Caution id="gas" text={words.gas} />}
      </Ask>
      {later && <later.More vehicle={vehicle} date={date} entry={entry} onPut={put} question={question} />}
      {asks === "km" && (
        <NumberPad
          title={words.km}
          unit="km"
          least={0}
          most={later ? MOST.km : 1000}
          onClose={() => setAsks(null)}
          onKeep={(value) => put({ km: value })}
        />
      )}
      {asks === "level" && (
        <NumberPad
          title={words.gauge}
          unit={core.now().units[kind]}
          least={0}
          most={later ? MOST[kind] : mostOf(kind, vehicle)}
          decimals={decimals}
          onClose={() => setAsks(null)}
          onKeep={putLevel}
        />
      )}
      {asks === "plugged" && (
        <TextPad
          title={words.plugged}
          type="time"
          start={entry.pluggedAt ?? ""}
          onClose={() => setAsks(null)}
          onKeep={(text) => put({ pluggedAt: text.slice(0, 5) })}
        />
      )}
    </>
  );
}

/** No record can hold it: it waits for the answer to its question. */
const cannotBe = ({ km, level, odometerKm, gridKwh, sunKwh }: Filled): boolean =>
  (km ?? 0) > 1000 ||
  (odometerKm ?? 0) > 5_000_000 ||
  (gridKwh ?? 0) > 500 ||
  (sunKwh ?? 0) > 100 ||
  (level != null && level.value > (level.kind === "percent" ? 100 : 200));

const mostOf = (kind: GaugeKind, vehicle: Vehicle): number =>
  kind === "percent" ? 100 : kind === "bars" ? (vehicle.gauge.bars ?? 5) : 199;

const figureKey = <T,>(value: T, word: string) => ({ value, word, figure: true });
const clockWord = (value: string): string => clock(Number(value.slice(0, 2)) + Number(value.slice(3)) / 60);

/** What stood there before a correction, else what may help. */
function noteOf(entry: Entry, field: Field, otherwise?: string): string | undefined {
  const former = formerOf(entry, field);
  if (former === undefined || former === null) return otherwise;
  const loads = dayWords.now().load;
  const word = former === "empty" || former === "half" || former === "full" ? loads[former] : String(former);
  return dayWords.now().write.before(typeof former === "number" ? figures(former, former % 1 ? 1 : 0) : word);
}

const EVENING_H = 22;
/** The last three half hours, or those of an evening for another day. */
function pluggedTimes(nowH: number | null): string[] {
  const last = Math.floor((nowH ?? EVENING_H) * 2) * 30;
  return [last - 60, last - 30, last].map((minute) => clockOfMinute((minute + 1440) % 1440));
}

interface AskProps {
  readonly no: number;
  readonly title: string;
  readonly note?: string | undefined;
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
      <Key
        kind="alt"
        chosen={other}
        onPress={props.onOther}
        says={joined(other && props.shown, core.now().pad.another)}
      >
        {other ? <span class="fig">{props.shown}</span> : <Icon of={pad} />}
      </Key>
    </KeyRow>
  );
}
