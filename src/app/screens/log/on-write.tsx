import "./log.css";
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Question } from "../../../calc/learn/check.js";
import type { Entry, Vehicle } from "../../../records/index.js";
import { space } from "../../../store/space.js";
import { copyIsDue, saveCopy } from "../../copies.js";
import { chalk, bright as sunDrawing } from "../../parts/icons.js";
import { share } from "../../parts/icons-more.js";
import { Key, KeyRow, WayKey } from "../../parts/keys.js";
import { NumberPad } from "../../parts/NumberPad.js";
import { TextPad } from "../../parts/TextPad.js";
import { go } from "../../router.js";
import { dayWords } from "../../words/day.js";
import { figures } from "../../words/format.js";
import { logWords } from "../../words/log.js";
import { type Field, type Filled, formerOf } from "../write/entries.js";
import { questionsAbout } from "./questions.js";

export const load = logWords.load;

const NEARLY_FULL = 0.8;
const shown = (value: number): string => figures(value, Number.isInteger(value) ? 0 : 1);

/** What is odd about the value just typed, asked in one sentence, with what was probably meant as a key. */
export function Questions(props: {
  readonly vehicle: Vehicle;
  readonly date: string;
  readonly typed: Filled;
  /** Km of the day as another sitting had written them. */
  readonly had: number | null;
  readonly onPut: (change: Filled) => void;
  readonly onDone: () => void;
}) {
  const { vehicle, date, typed, had, onPut, onDone } = props;
  const [asked, setAsked] = useState<Question | null>(null);
  useEffect(() => {
    let here = true;
    setAsked(null);
    void questionsAbout(vehicle, date, typed).then((all) => here && setAsked(all[0] ?? onTopOf(typed, had)));
    return () => {
      here = false;
    };
  }, [vehicle.id, date, typed, had]);
  if (!asked) return null;
  const answered = (change: Filled | null) => {
    setAsked(null);
    onDone();
    if (change) onPut(change);
  };
  return <AskedBack {...{ vehicle, asked, typed, had }} onAnswer={answered} />;
}

/** The day was written in another sitting: a second round of it, or the same one corrected? */
function onTopOf({ km }: Filled, had: number | null): Question | null {
  if (km == null || had === null || km === 0 || had === 0 || km === had) return null;
  return { field: "date", code: "twoEntries", typed: km, likely: had + km };
}

function AskedBack(props: {
  readonly vehicle: Vehicle;
  readonly asked: Question;
  readonly typed: Filled;
  readonly had: number | null;
  readonly onAnswer: (change: Filled | null) => void;
}) {
  const { vehicle, asked, typed, onAnswer } = props;
  const told = logWords.now();
  const { code, likely } = asked;
  const isOdometer = asked.field === "km" && (asked.typed ?? 0) > MOST_KM;
  const says = isOdometer ? told.ask.odometerInstead(shown(asked.typed ?? 0)) : sentence(vehicle, asked, props.had);
  const meant = likely === null ? null : changeTo(vehicle, asked, typed, likely);
  return (
    <div class="asked" role="alert">
      <p>{says}</p>
      <div class="asked-keys">
        {isOdometer && asked.typed !== null && (
          <Key kind="pick" onPress={() => onAnswer({ odometerKm: asked.typed, km: null })}>
            {told.isOdometer}
          </Key>
        )}
        {meant && likely !== null && (
          <Key kind="pick" onPress={() => onAnswer(meant)}>
            {code === "twoEntries" ? told.onTop(shown(likely)) : told.isIt(shown(likely))}
          </Key>
        )}
        <Key onPress={() => onAnswer(null)}>
          {asked.typed === null ? told.yes : isKept(typed) ? told.asTyped(shown(asked.typed)) : told.another}
        </Key>
      </div>
    </div>
  );
}

const MOST_KM = 1000;
/** A value that no record can hold was not kept: it can only be typed anew. */
const isKept = ({ km, level }: Filled): boolean =>
  (km ?? 0) <= MOST_KM && (!level || level.value <= (level.kind === "percent" ? 100 : 200));

function sentence(vehicle: Vehicle, { code, typed }: Question, had: number | null): string {
  const { ask } = logWords.now();
  const value = shown(typed ?? 0);
  if (code === "clockBack" || code === "dayToCome") return ask[code];
  if (code === "twoEntries") return ask.twoEntries(value, shown(had ?? 0));
  if (code === "barsOutOfRange") return ask.barsOutOfRange(value, figures(vehicle.gauge.bars ?? 5));
  return ask[code](value);
}

function changeTo(vehicle: Vehicle, { field, code }: Question, typed: Filled, likely: number): Filled {
  if (field === "date") return { km: likely };
  if (field !== "level") return { [field]: Math.round(likely * 10) / 10 };
  const { kind } = vehicle.gauge;
  const scaled = code === "oneBlock" || code === "wholeSet";
  const perBlock = scaled ? false : (typed.level?.perBlock ?? false);
  const whole = code === "wholeSet" ? (typed.level?.value ?? likely) : likely;
  return { level: { kind, value: Math.round(whole * 10) / 10, perBlock } };
}

type Amount = "odometerKm" | "trips" | "gridKwh" | "sunKwh";
const AMOUNTS: readonly { readonly field: Amount; readonly most: number; readonly decimals: number }[] = [
  { field: "odometerKm", most: 5_000_000, decimals: 0 },
  { field: "trips", most: 500, decimals: 0 },
  { field: "gridKwh", most: 500, decimals: 1 },
  { field: "sunKwh", most: 100, decimals: 2 },
];
const NAMES = { odometerKm: "odometer", trips: "trips", gridKwh: "grid", sunKwh: "sun" } as const;

/** What few people write of a day, behind one key; and what became of the guess. */
export function More(props: {
  readonly vehicle: Vehicle;
  readonly date: string;
  readonly entry: Entry;
  readonly onPut: (change: Filled) => void;
  readonly question: (field: Field) => ComponentChildren;
}) {
  const { vehicle, entry, onPut, question } = props;
  const told = logWords.now();
  const used = AMOUNTS.some(({ field }) => entry[field] !== null) || entry.wet !== null || entry.driver !== null;
  const [open, setOpen] = useState(false);
  const [asks, setAsks] = useState<Amount | "driver" | null>(null);
  const put = (change: Filled) => {
    setAsks(null);
    onPut(change);
  };
  const amount = AMOUNTS.find(({ field }) => field === asks);
  return (
    <>
      <div class="ways spaced">
        <WayKey
          icon={chalk}
          title={told.more}
          {...(used && !open ? { sub: AMOUNTS.flatMap(({ field }) => valueLine(entry, field)).join(", ") } : {})}
          onPress={() => setOpen(!open)}
        />
        {open &&
          AMOUNTS.map(({ field }) => (
            <div key={field}>
              <WayKey
                title={told[NAMES[field]]}
                {...noted(entry, field)}
                brings={entry[field] === null ? "–" : shown(entry[field] ?? 0)}
                onPress={() => setAsks(field)}
              />
              {question(field)}
            </div>
          ))}
        {open && (
          <>
            <WayKey title={told.driver} brings={entry.driver ?? "–"} onPress={() => setAsks("driver")} />
            <section class="ask bare-ask">
              <h2>{told.wet}</h2>
              <KeyRow
                asks={told.wet}
                chosen={entry.wet === null ? null : entry.wet ? "yes" : "no"}
                onPick={(value) => put({ wet: value === "yes" })}
                choices={[
                  { value: "yes", word: told.yes },
                  { value: "no", word: told.no },
                ]}
              />
            </section>
          </>
        )}
        <WayKey icon={sunDrawing} title={told.title} onPress={() => go(`log/${vehicle.id}`)} />
        <Room />
      </div>
      {amount && (
        <NumberPad
          title={told[NAMES[amount.field]]}
          unit=""
          least={0}
          most={amount.most * 10}
          decimals={amount.decimals}
          onClose={() => setAsks(null)}
          onKeep={(value) => put({ [amount.field]: value })}
        />
      )}
      {asks === "driver" && (
        <TextPad
          title={told.driver}
          start={entry.driver ?? ""}
          mayBeEmpty
          onClose={() => setAsks(null)}
          onKeep={(text) => put({ driver: text === "" ? null : text })}
        />
      )}
    </>
  );
}

const valueLine = (entry: Entry, field: Amount): string[] =>
  entry[field] === null ? [] : [`${logWords.now()[NAMES[field]]} ${shown(entry[field] ?? 0)}`];

function noted(entry: Entry, field: Amount): { readonly sub?: string } {
  const former = formerOf(entry, field);
  return typeof former === "number" ? { sub: dayWords.now().write.before(shown(former)) } : {};
}

/** Where one writes, not only on This phone: room that runs out, and a week without a copy. */
export function Room() {
  const told = logWords.now();
  const [full, setFull] = useState(false);
  const [due, setDue] = useState(false);
  useEffect(() => {
    setDue(copyIsDue());
    void space().then((room) => setFull(room !== null && room.usedBytes > NEARLY_FULL * room.quotaBytes));
  }, []);
  if (full)
    return (
      <div class="asked">
        <p>{told.full}</p>
        <div class="asked-keys">
          <Key kind="pick" onPress={() => void saveCopy()}>
            {told.copy}
          </Key>
          <Key onPress={() => go("phone")}>{told.room}</Key>
        </div>
      </div>
    );
  if (!due) return null;
  return (
    <WayKey
      icon={share}
      title={told.copy}
      sub={told.copyDue}
      onPress={() => void saveCopy().then((done) => done && setDue(false))}
    />
  );
}
