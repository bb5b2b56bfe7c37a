import type { LegNote } from "../../../calc/day/answer.js";
import type { RoundPart } from "../../../records/index.js";
import type { Problem } from "../../../units/outcome.js";
import { Icon } from "../../parts/Icon.js";
import { bright, dark, plug, road } from "../../parts/icons.js";
import { Key } from "../../parts/keys.js";
import { editWords } from "../../words/edit.js";
import { figures, joined, signed } from "../../words/format.js";
import type { RoundsWords } from "../../words/rounds/en.js";
import { roundsWords } from "../../words/rounds.js";
import { cross, down, up } from "../edit/drawings.js";
import { Note } from "../edit/FieldRow.js";
import { problemText } from "../edit/problem-text.js";
import { StopFields, WayFields } from "./PartFields.js";
import { kmText } from "./sum.js";

interface RowProps {
  readonly n: number;
  readonly part: RoundPart;
  readonly last: boolean;
  readonly open: boolean;
  readonly note: LegNote | undefined;
  readonly odd: readonly Problem[];
  readonly fullKg: number;
  readonly afterKg: number;
  readonly refuses: (part: RoundPart) => string | null;
  readonly onChange: (part: RoundPart) => void;
  readonly onOpen: () => void;
  readonly onMove: (by: -1 | 1) => void;
  readonly onDrop: () => void;
}

/** One part of a round: a line to read, and its fields when it is open. */
export function PartRow(props: RowProps) {
  const { part, open, note } = props;
  const words = roundsWords.now();
  return (
    <li class={`part ${part.kind} ${open ? "open" : ""}`}>
      <button type="button" class="part-row" aria-expanded={open} onClick={props.onOpen}>
        <span class="part-mark">
          <Icon of={markOf(part)} size={24} />
        </span>
        <span class="what">
          <b>{nameOf(part, props.n, words)}</b>
          <small>{sumOf(part, words)}</small>
        </span>
      </button>
      {note && <LegSays note={note} words={words} />}
      {props.odd.map((problem) => (
        <Note key={problem.code}>{problemText(editWords.now(), problem)}</Note>
      ))}
      {open && (
        <div class="part-fields">
          <Fields {...props} />
          <Moves {...props} />
        </div>
      )}
    </li>
  );
}

const markOf = (part: RoundPart) =>
  part.kind === "leg"
    ? road
    : part.socketKw !== null
      ? plug
      : part.shade === "open" || part.shade === "part"
        ? bright
        : dark;

const nameOf = (part: RoundPart, n: number, words: RoundsWords): string =>
  part.kind === "stop" ? part.name : (part.name ?? words.wayNo(n + 1));

function sumOf(part: RoundPart, words: RoundsWords): string {
  const units = editWords.now().units;
  const minutes = `${figures(Math.round(part.minutes))} ${units.minute}`;
  if (part.kind === "leg") {
    const climb = part.climbM > 0 ? editWords.now().climb(figures(part.climbM)) : "";
    return joined(`${kmText(part.km)} ${units.km}`, minutes, words.surroundings[part.surroundings], climb);
  }
  const kg = part.payloadChangeKg;
  const load = kg === 0 ? "" : `${signed(kg)} ${units.kg}`;
  return joined(minutes, words.shades[part.shade], load);
}

/** What the answer says of this way: a slope it does not get up, or only slowly. */
function LegSays({ note, words }: { note: LegNote; words: RoundsWords }) {
  const gear = note.gear === null ? "" : figures(note.gear);
  const kmh = figures(Math.floor(note.speedKmh));
  const withLoad = words.note.withLoad(figures(Math.round(note.payloadKg)));
  const said: Readonly<Record<LegNote["problem"], string>> = {
    noSuchRoad: words.note.noSuchRoad,
    tooSteep: `${words.note.tooSteep}, ${withLoad}`,
    slower: `${words.note.slower(gear, kmh)}, ${withLoad}`,
    hot30min: `${words.note.hot(gear, kmh)}, ${withLoad}`,
  };
  const isBad = note.problem === "tooSteep" || note.problem === "noSuchRoad";
  return (
    <div class={`note ${isBad ? "bad" : ""}`} role="status">
      {said[note.problem]}
    </div>
  );
}

function Fields(props: RowProps) {
  const { part, onChange, refuses } = props;
  return part.kind === "leg" ? (
    <WayFields part={part} onChange={onChange} refuses={refuses} />
  ) : (
    <StopFields part={part} onChange={onChange} refuses={refuses} fullKg={props.fullKg} afterKg={props.afterKg} />
  );
}

function Moves(props: RowProps) {
  const words = roundsWords.now();
  return (
    <div class="acts moves">
      <Key kind={props.n === 0 ? "wait" : ""} onPress={() => props.n > 0 && props.onMove(-1)}>
        <Icon of={up} size={20} />
        {words.up}
      </Key>
      <Key kind={props.last ? "wait" : ""} onPress={() => !props.last && props.onMove(1)}>
        <Icon of={down} size={20} />
        {words.down}
      </Key>
      <Key onPress={props.onDrop}>
        <Icon of={cross} size={20} />
        {words.takeAway}
      </Key>
    </div>
  );
}
