import { useState } from "preact/hooks";
import type { Vehicle } from "../../../records/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { keep, newId, book as recordBook, vehicleOf, vehicles, yardOf } from "../../fleet.js";
import { ChoicePad } from "../../parts/ChoicePad.js";
import { Key, KeyRow } from "../../parts/keys.js";
import { NumberPad } from "../../parts/NumberPad.js";
import { TextPad } from "../../parts/TextPad.js";
import type { ScreenProps } from "../../places.js";
import { here, nowUtcMs } from "../../state.js";
import { figures } from "../../words/format.js";
import { dayMonthYear } from "../../words/money/amount.js";
import type { MoneyWords } from "../../words/money/en.js";
import { moneyWords } from "../../words/money.js";
import { useBooks } from "./books.js";
import {
  type At,
  FIELDS,
  type FieldForm,
  type FieldName,
  GROUPS,
  type Group,
  toAsk,
  type Value,
  type Values,
} from "./figures-model.js";
import { MoneyPage } from "./MoneyPage.js";
import { Problems } from "./Problems.js";

export const words = [moneyWords];

type From = "fromToday" | "fromStart";

/** What it stands on: every figure as a key. A changed price holds from its day and leaves the days before alone. */
export function Screen({ params }: ScreenProps) {
  const words = moneyWords.now();
  const vehicle = vehicleOf(params[0] ?? "") ?? vehicles.value[0];
  const [book] = useBooks(vehicle ? [vehicle] : []);
  if (!vehicle) return null;
  const above = vehicles.value.length > 1 ? `money/${vehicle.id}` : "money";
  return (
    <MoneyPage title={words.keys.figures} sub={words.figuresAsk} vehicle={vehicle} above={above}>
      {book && <Body vehicle={vehicle} book={book} />}
    </MoneyPage>
  );
}

function Body({ vehicle, book }: { vehicle: Vehicle; book: MoneyBook }) {
  const words = moneyWords.now();
  const yard = yardOf(vehicle);
  const [from, setFrom] = useState<From>("fromToday");
  const [asking, setAsking] = useState<Asking | null>(null);
  if (!yard) return null;
  const today = here.value.date;
  const firstDay = book.lines[0]?.date ?? today;
  const { currency } = book;
  const keepGroup = async (group: Group, values: Values) => {
    const first = group.needs.some(
      (field) => group.read(recordBook.value, { vehicle, yard, currency })[field] === undefined,
    );
    const at: At = {
      vehicle,
      yard,
      currency,
      from: from === "fromStart" || first ? firstDay : today,
      nowUtcMs: nowUtcMs.value,
      newId,
    };
    await keep(group.write(values, at, recordBook.value), words.kept);
  };
  const typed = (value: Value) => {
    if (!asking) return;
    const { group, queue } = asking;
    const [field, ...rest] = queue;
    const values = { ...asking.values, ...(field ? { [field]: value } : {}) };
    if (rest.length > 0) setAsking({ group, queue: rest, values });
    else {
      setAsking(null);
      void keepGroup(group, values);
    }
  };
  return (
    <>
      <Problems problems={book.problems} vehicleId={null} />
      <section class="ask">
        <h2>{words.validFrom}</h2>
        <KeyRow
          asks={words.validFrom}
          chosen={from}
          onPick={setFrom}
          choices={[
            { value: "fromToday", word: words.fromToday },
            { value: "fromStart", word: words.fromStart },
          ]}
        />
        <p class="hint">{words.pastStays}</p>
      </section>
      <ul class="m-fields">
        {GROUPS.map((group) => {
          const values = group.read(recordBook.value, { vehicle, yard, currency });
          return group.fields.map((field) => (
            <li key={field}>
              <Key kind="field" onPress={() => setAsking({ group, queue: toAsk(group, values, field), values })}>
                <span class="label">{fieldWord(words, field)}</span>
                <span class="value">{shown(words, field, values[field], currency)}</span>
              </Key>
            </li>
          ));
        })}
      </ul>
      <p class="m-facts">
        <small>{words.unitPrice}</small>
      </p>
      {asking?.queue[0] && (
        <Pad
          key={asking.queue[0]}
          field={asking.queue[0]}
          value={asking.values[asking.queue[0]]}
          currency={currency}
          onKeep={typed}
          onClose={() => setAsking(null)}
        />
      )}
    </>
  );
}

interface Asking {
  readonly group: Group;
  readonly queue: readonly FieldName[];
  readonly values: Values;
}

function fieldWord(words: MoneyWords, field: FieldName): string {
  switch (field) {
    case "fuel":
      return words.fuelBefore;
    case "kitDate":
      return words.kitBought;
    case "loanFirst":
      return words.firstInstalment;
    default:
      return words[field];
  }
}

function choiceWord(words: MoneyWords, value: Value): string {
  const all: Readonly<Record<string, string>> = {
    ...words.fuels,
    ...words.knownBy,
    flat: words.flat,
    reducing: words.reducing,
  };
  return all[String(value)] ?? String(value);
}

function unitOf(words: MoneyWords, field: FieldName, currency: string): string {
  const form = FIELDS[field];
  if (form.kind === "money") return currency;
  if (field === "loanRate") return "%";
  return field === "setKm" ? words.km : "";
}

function shown(words: MoneyWords, field: FieldName, value: Value | undefined, currency: string): string {
  if (value === undefined) return words.notSaid;
  const form = FIELDS[field];
  if (form.kind === "choice") return choiceWord(words, value);
  if (form.kind === "date") return dayMonthYear(String(value));
  if (field === "setYears" || field === "kitYears") return words.years(Number(value)).replaceAll("\u2063", "");
  const decimals = Number.isInteger(value) ? 0 : Math.max(form.decimals, 1);
  return `${figures(Number(value), decimals)} ${unitOf(words, field, currency)}`.trim();
}

function Pad(props: {
  readonly field: FieldName;
  readonly value: Value | undefined;
  readonly currency: string;
  readonly onKeep: (value: Value) => void;
  readonly onClose: () => void;
}) {
  const words = moneyWords.now();
  const { field, value, onKeep, onClose } = props;
  const form: FieldForm = FIELDS[field];
  const title = fieldWord(words, field);
  if (form.kind === "choice")
    return (
      <ChoicePad
        title={title}
        choices={form.of.map((one) => ({ value: one, word: choiceWord(words, one) }))}
        chosen={value === undefined ? null : String(value)}
        onKeep={onKeep}
        onClose={onClose}
      />
    );
  if (form.kind === "date")
    return (
      <TextPad
        title={title}
        type="date"
        start={value === undefined ? "" : String(value)}
        onKeep={onKeep}
        onClose={onClose}
      />
    );
  return (
    <NumberPad
      title={title}
      unit={unitOf(words, field, props.currency)}
      least={form.least}
      most={form.most}
      decimals={form.decimals}
      start={typeof value === "number" ? value : null}
      onKeep={onKeep}
      onClose={onClose}
    />
  );
}
