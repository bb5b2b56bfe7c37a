import { useState } from "preact/hooks";
import { Icon } from "../../parts/Icon.js";
import { pad } from "../../parts/icons.js";
import { Key, KeyRow } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { figures } from "../../words/format.js";
import type { UnitName } from "./spec.js";
import { ValuePad } from "./ValuePad.js";

const KEYS = 4;
/** Longer figures are set smaller, or they would not fit a key. */
const LONG = 3;

/** Four neighbours on a ladder of usual values, the present one among them where it is a rung. */
export function fourAround(ladder: readonly number[], value: number | null): readonly number[] {
  const above = value === null ? 1 : ladder.findIndex((rung) => rung >= value);
  const at = above < 0 ? ladder.length - 1 : above;
  const first = Math.max(0, Math.min(ladder.length - KEYS, at - 1));
  return ladder.slice(first, first + KEYS);
}

/** One figure: four usual values and a keypad for any other. The keys stay where they are while the value changes. */
export function LadderRow(props: {
  readonly title: string;
  readonly unit: UnitName;
  readonly value: number | null;
  readonly ladder: readonly number[];
  readonly decimals?: number;
  readonly signed?: boolean;
  /** Key for "not known". */
  readonly unset?: { readonly word: string; readonly onPress: () => void };
  readonly refuses: (value: number) => string | null;
  readonly onPick: (value: number) => void;
}) {
  const { title, unit, value, decimals = 0, unset } = props;
  const [keys] = useState(() => fourAround(props.ladder, value));
  const [asking, setAsking] = useState(false);
  const other = value !== null && !keys.includes(value);
  const clear = () => {
    setAsking(false);
    unset?.onPress();
  };
  const shown = (of: number) => figures(of, Number.isInteger(of) ? 0 : decimals);
  const long = [...keys, value ?? 0].some((each) => shown(each).length > LONG);
  return (
    <section class={long ? "ask long" : "ask"}>
      <h2>
        {title}
        <small>{editWords.now().units[unit]}</small>
      </h2>
      <KeyRow
        asks={title}
        chosen={value}
        onPick={props.onPick}
        choices={keys.map((rung) => ({ value: rung, word: shown(rung), figure: true }))}
      >
        <Key
          kind={other ? "" : "alt"}
          chosen={other}
          says={`${core.now().pad.another}${other ? `: ${shown(value)}` : ""}`}
          onPress={() => setAsking(true)}
        >
          {other ? <span class="fig">{shown(value)}</span> : <Icon of={pad} />}
        </Key>
      </KeyRow>
      {asking && (
        <ValuePad
          title={title}
          unit={unit}
          decimals={decimals}
          signed={props.signed ?? false}
          now={value}
          {...(unset && value !== null ? { unset: { ...unset, onPress: clear } } : {})}
          refuses={props.refuses}
          onKeep={(typed) => {
            setAsking(false);
            props.onPick(typed);
          }}
          onClose={() => setAsking(false)}
        />
      )}
    </section>
  );
}
