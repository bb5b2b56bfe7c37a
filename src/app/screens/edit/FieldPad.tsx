import type { Problem } from "../../../units/outcome.js";
import { TextPad } from "../../parts/TextPad.js";
import { editWords } from "../../words/edit.js";
import { ClockPad } from "./ClockPad.js";
import { type Editing, type RowProps, textOf } from "./editing.js";
import { NamePad } from "./NamePad.js";
import { problemText } from "./problem-text.js";
import { keptOf, type NumberSpec, shownOf, type TextSpec } from "./spec.js";
import { refusal, type Typed } from "./typing.js";
import { ValuePad } from "./ValuePad.js";

const whyNot = <K extends Typed>(on: Editing<K>, path: string, value: unknown): Problem | null =>
  refusal(on.kind, on.record, { path, value }) ?? on.refuses?.(path, value) ?? null;

const asKept = (of: TextSpec, text: string): string => (of.capitals ? text.toUpperCase() : text);

interface PadOf<K extends Typed> extends RowProps<K> {
  readonly value: unknown;
  readonly onPut: (value: unknown) => void;
  readonly onClose: () => void;
}

/** What asks for a new value of a field. */
export function FieldPad<K extends Typed>(props: PadOf<K>) {
  const { of, on, value, onPut, onClose } = props;
  const { name, hint } = textOf(of, on);
  switch (of.kind) {
    case "number":
      return <NumberOf {...props} of={of} />;
    case "clock":
      return <ClockPad title={name} now={Number(value ?? 360)} onKeep={onPut} onClose={onClose} />;
    case "date":
      return (
        <TextPad
          title={name}
          type="date"
          start={typeof value === "string" ? value : ""}
          mayBeEmpty
          onKeep={(text) => onPut(text === "" ? null : text)}
          onClose={onClose}
        />
      );
    case "text":
      return (
        <NamePad
          title={name}
          hint={hint}
          start={typeof value === "string" ? value : ""}
          longest={of.longest}
          mayBeEmpty={of.mayBeEmpty ?? false}
          offers={of.offers ?? []}
          refuses={(text) => {
            const why = whyNot(on, of.path, asKept(of, text));
            return why ? problemText(editWords.now(), why) : null;
          }}
          onKeep={(text) => onPut(asKept(of, text))}
          onClose={onClose}
        />
      );
    case "choice":
      return null;
  }
}

function NumberOf<K extends Typed>(props: PadOf<K> & { readonly of: NumberSpec }) {
  const { of, on, value, onPut } = props;
  const words = editWords.now();
  const { name, hint } = textOf(of, on);
  const refuses = (shown: number) => {
    const why = whyNot(on, of.path, keptOf(of, shown));
    return why ? problemText(words, why, of) : null;
  };
  const unset = of.unset && {
    word: words.notKnown,
    onPress: () => onPut(of.unset === "null" ? null : undefined),
  };
  return (
    <ValuePad
      title={name}
      {...(hint ? { hint } : {})}
      unit={of.unit}
      {...(of.unitText ? { unitText: of.unitText } : {})}
      decimals={of.decimals ?? 0}
      signed={of.signed ?? false}
      now={typeof value === "number" ? shownOf(of, value) : null}
      usual={of.usual ?? []}
      {...(unset ? { unset } : {})}
      refuses={refuses}
      onKeep={(shown) => onPut(keptOf(of, shown))}
      onClose={props.onClose}
    />
  );
}
