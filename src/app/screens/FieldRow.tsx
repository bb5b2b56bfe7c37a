import { useState } from "preact/hooks";
import { typeInto } from "../../records/guesses.js";
import type { Vehicle } from "../../records/index.js";
import { book, keep, listed } from "../fleet.js";
import { ChoicePad } from "../parts/ChoicePad.js";
import { Key } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { TextPad } from "../parts/TextPad.js";
import type { FleetWords } from "../words/fleet/en.js";
import { fleetWords } from "../words/fleet.js";
import { clock, dayAndMonth, figures } from "../words/format.js";
import { problemWords } from "./problem-words.js";
import { type ChoiceName, type Field, isGuess, type NumberField, valueAt } from "./sheet-fields.js";

const SIDES = [
  { deg: 0, name: "front" },
  { deg: 90, name: "right" },
  { deg: 180, name: "back" },
  { deg: 270, name: "left" },
] as const;

/** One field of the sheet: its word, its value, and whether anybody typed it. */
export function FieldRow({ vehicle, field }: { vehicle: Vehicle; field: Field }) {
  const words = fleetWords.now().sheet;
  const [open, setOpen] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const value = valueAt(vehicle, field.path);
  const close = () => setOpen(false);
  const put = async (typed: unknown) => {
    const changed = typeInto("vehicle", vehicle, field.path, typed);
    if (!changed.ok) {
      setRefused(problemWords(fleetWords.now(), changed.problems[0] ?? null));
      return;
    }
    setRefused(null);
    close();
    await keep([{ kind: "vehicle", put: changed.value }], words.kept);
  };
  return (
    <li>
      <Key kind="field" onPress={() => setOpen(true)}>
        <span class="label">{words.fields[field.name]}</span>
        <span class="value">
          {shownValue(words, field, value)}
          {isGuess(vehicle, field.path) && <small>{words.guess}</small>}
        </span>
      </Key>
      {open && (
        <Editor
          vehicle={vehicle}
          field={field}
          value={value}
          refused={refused}
          onKeep={(typed) => void put(typed)}
          onClose={close}
        />
      )}
    </li>
  );
}

function shownValue(words: FleetWords["sheet"], field: Field, value: unknown): string {
  if (value === null || value === undefined || value === "") return words.notSaid;
  switch (field.kind) {
    case "number":
      return `${numberShown(field, Number(value))} ${words.units[field.unit]}`.trim();
    case "choice":
      return words.choices[value as ChoiceName] ?? String(value);
    case "date":
      return dayAndMonth(String(value));
    case "clock":
      return clock(Number(value) / 60);
    case "gears":
      return (value as readonly number[]).map((ratio) => figures(ratio, 2)).join("  ");
    case "round":
      return listed(book.value, "round").find((round) => round.id === value)?.name ?? words.notSaid;
    case "side":
      return words.faces[nearestSide(Number(value))];
    case "text":
      return String(value);
  }
}

const numberShown = (field: NumberField, value: number): string => {
  const shown = value * field.scale;
  return figures(shown, Number.isInteger(shown) ? 0 : Math.max(field.decimals, field.scale === 100 ? 1 : 0));
};
const nearestSide = (deg: number): (typeof SIDES)[number]["name"] =>
  SIDES[Math.round((deg % 360) / 90) % 4]?.name ?? "front";

function Editor(props: {
  readonly vehicle: Vehicle;
  readonly field: Field;
  readonly value: unknown;
  readonly refused: string | null;
  readonly onKeep: (value: unknown) => void;
  readonly onClose: () => void;
}) {
  const words = fleetWords.now().sheet;
  const { field, value, onKeep, onClose } = props;
  const title = words.fields[field.name];
  if (field.kind === "number")
    return (
      <NumberPad
        title={title}
        unit={words.units[field.unit]}
        least={field.least}
        most={field.most}
        decimals={field.decimals}
        negative={field.least < 0}
        start={typeof value === "number" ? Number((value * field.scale).toFixed(field.decimals + 1)) : null}
        {...(field.mayBeNull ? { none: words.notSaid, onNone: () => onKeep(null) } : {})}
        onClose={onClose}
        onKeep={(typed) => onKeep(typed / field.scale)}
      />
    );
  if (field.kind === "choice")
    return (
      <ChoicePad
        title={title}
        choices={field.of.map((name) => ({ value: name, word: words.choices[name] }))}
        chosen={value as ChoiceName}
        onKeep={onKeep}
        onClose={onClose}
      />
    );
  if (field.kind === "round")
    return (
      <ChoicePad
        title={title}
        choices={listed(book.value, "round")
          .filter((round) => round.yardId === props.vehicle.yardId)
          .map((round) => ({ value: round.id, word: round.name }))}
        chosen={value as string}
        onKeep={onKeep}
        onClose={onClose}
      />
    );
  if (field.kind === "side")
    return (
      <ChoicePad
        title={title}
        choices={SIDES.map(({ name }) => ({ value: name, word: words.faces[name] }))}
        chosen={nearestSide(Number(value))}
        onKeep={(name) => onKeep(SIDES.find((side) => side.name === name)?.deg ?? 0)}
        onClose={onClose}
      />
    );
  if (field.kind === "clock")
    return (
      <TextPad
        title={title}
        type="time"
        start={clockText(Number(value))}
        onClose={onClose}
        onKeep={(text) => onKeep(Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5)))}
      />
    );
  if (field.kind === "gears")
    return (
      <TextPad
        title={title}
        hint={props.refused ?? words.gearsHint}
        start={(value as readonly number[]).join(" ")}
        onClose={onClose}
        onKeep={(text) => onKeep(text.replaceAll(",", ".").split(/\s+/).map(Number))}
      />
    );
  return (
    <TextPad
      title={title}
      type={field.kind === "date" ? "date" : "text"}
      hint={props.refused}
      start={value === null || value === undefined ? "" : String(value)}
      longest={field.longest ?? 60}
      mayBeEmpty={field.kind === "date" || field.name === "name"}
      onClose={onClose}
      onKeep={(text) => onKeep(field.kind === "date" && text === "" ? null : text)}
    />
  );
}

const clockText = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
