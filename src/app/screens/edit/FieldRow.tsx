import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { trouble } from "../../fleet.js";
import { Key, KeyRow } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { clock, figures, inDigits, joined } from "../../words/format.js";
import { dayMonthYear } from "../../words/money/amount.js";
import { type Editing, type RowProps, textOf } from "./editing.js";
import { FieldPad } from "./FieldPad.js";
import { problemText } from "./problem-text.js";
import { isGuess, type NumberSpec, type Spec, shownOf, valueAt } from "./spec.js";
import { clashes, heldOf, leaveOut, type Typed, typeIn } from "./typing.js";

/** One field: its name, its value as a key, whether anybody typed it, and what is odd or not kept. */
export function FieldRow<K extends Typed>({ of, on }: RowProps<K>) {
  const [open, setOpen] = useState(false);
  const held = heldOf(on.kind, on.record.id).find((one) => one.path === of.path);
  const value = held ? held.value : valueAt(on.record, of.path);
  const close = () => setOpen(false);
  const put = (typed: unknown) => {
    close();
    const what = typed === undefined ? { path: of.path } : { path: of.path, value: typed };
    void typeIn(on.kind, on.record, [what], core.now().kept);
  };
  const known = value !== null && value !== undefined;
  const guess = known && !held && isGuess(on.record, of.path);
  const { name, hint } = textOf(of, on);
  return (
    <li class={`field ${of.kind} ${guess ? "guess" : ""} ${held ? "held" : ""}`}>
      {of.kind === "choice" ? (
        <ChoiceField of={of} on={on} value={String(value)} guess={guess} onPut={put} />
      ) : (
        <>
          <FieldName name={name} hint={hint} />
          <Key kind="value" says={labelOf(of, value, name, guess)} onPress={() => setOpen(true)}>
            <Value of={of} value={value} />
            {guess && <small>{editWords.now().guess}</small>}
          </Key>
        </>
      )}
      {held && <HeldNote of={of} on={on} />}
      <Warnings of={of} on={on} />
      {open && <FieldPad of={of} on={on} value={value} onPut={put} onClose={close} />}
    </li>
  );
}

export function FieldName({ name, hint }: { name: string; hint?: string | undefined }) {
  return (
    <span class="field-name">
      <b>{name}</b>
      {hint && <small>{inDigits(hint)}</small>}
    </span>
  );
}

const shownText = (of: Pick<NumberSpec, "decimals">, shown: number): string =>
  figures(shown, Number.isInteger(shown) ? 0 : (of.decimals ?? 0));

/** A value as text, without its unit. */
export function valueText(of: Spec, value: unknown): string {
  const words = editWords.now();
  if (value === null || value === undefined || value === "") return of.kind === "text" ? words.none : words.notKnown;
  if (of.kind === "number") return shownText(of, shownOf(of, Number(value)));
  if (of.kind === "clock") return clock(Number(value) / 60);
  return of.kind === "date" ? dayMonthYear(String(value)) : String(value);
}

function labelOf(of: Spec, value: unknown, name: string, guess: boolean): string {
  const words = editWords.now();
  const unit = of.kind === "number" ? (of.unitText ?? words.unitNames[of.unit]) : "";
  const text = [valueText(of, value), unit].filter(Boolean).join(" ");
  return words.change(name, joined(text, guess && words.guess));
}

function Value({ of, value }: { of: Spec; value: unknown }) {
  const known = value !== null && value !== undefined && value !== "";
  const isFigure = known && (of.kind === "number" || of.kind === "clock");
  const unit = of.kind === "number" && known ? (of.unitText ?? editWords.now().units[of.unit]) : "";
  return (
    <span class="shown">
      <span class={isFigure ? "fig" : undefined}>{valueText(of, value)}</span>
      {unit && <span class="unit"> {unit}</span>}
    </span>
  );
}

function ChoiceField<K extends Typed>(
  props: RowProps<K> & {
    readonly value: string;
    readonly guess: boolean;
    readonly onPut: (value: unknown) => void;
  },
) {
  const { of, on, guess } = props;
  const { name, hint } = textOf(of, on);
  if (of.kind !== "choice") return null;
  return (
    <>
      <FieldName name={guess ? `${name} (${editWords.now().guess})` : name} hint={hint} />
      <KeyRow
        asks={name}
        chosen={props.value}
        onPick={props.onPut}
        choices={of.options.map((value) => {
          const icon = of.drawings?.[value];
          return { value, word: on.choices[value] ?? value, ...(icon ? { icon } : {}) };
        })}
      />
    </>
  );
}

/** Why it is not kept, what to do, and the way back. */
function HeldNote<K extends Typed>({ of, on }: RowProps<K>) {
  const words = editWords.now();
  const found = clashes(on.kind, on.record);
  const why = found[0] ?? trouble.value;
  const old = valueText(of, valueAt(on.record, of.path));
  const again = () => void typeIn(on.kind, on.record, [], core.now().kept);
  return (
    <Note>
      <b>{words.notKept}</b> {why && problemText(words, why, of.kind === "number" ? of : undefined)}{" "}
      {found.length > 0 && words.keptWith}
      <span class="note-keys">
        {found.length === 0 && <Key onPress={again}>{words.tryAgain}</Key>}
        <Key onPress={() => leaveOut(on.kind, on.record.id, of.path)}>{words.leaveAt(old)}</Key>
      </span>
    </Note>
  );
}

export function Note({ children }: { children: ComponentChildren }) {
  return (
    <div class="note" role="status">
      {children}
    </div>
  );
}

function Warnings<K extends Typed>({ of, on }: RowProps<K>) {
  const words = editWords.now();
  const here = on.warnings.filter((warning) => warning.where === of.path);
  return here.map((warning) => (
    <Note key={warning.code}>{problemText(words, warning, of.kind === "number" ? of : undefined)}</Note>
  ));
}

/** Fields of one group under each other. */
export function Fields<K extends Typed>(props: { readonly of: readonly Spec[]; readonly on: Editing<K> }) {
  return (
    <ul class="fields">
      {props.of.map((of) => (
        <FieldRow key={of.path} of={of} on={props.on} />
      ))}
    </ul>
  );
}

/** Figures that most people leave as they are. */
export function Finer<K extends Typed>(props: { readonly of: readonly Spec[]; readonly on: Editing<K> }) {
  const words = editWords.now();
  const open = props.of.some(
    (of) =>
      heldOf(props.on.kind, props.on.record.id).some((one) => one.path === of.path) ||
      props.on.warnings.some((warning) => warning.where === of.path),
  );
  return (
    <details class="finer" open={open}>
      <summary class="key">{words.finer}</summary>
      <Fields of={props.of} on={props.on} />
    </details>
  );
}
