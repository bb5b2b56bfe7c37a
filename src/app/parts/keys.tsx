import { type ComponentChildren, toChildArray } from "preact";
import { useRef } from "preact/hooks";
import { Icon } from "./Icon.js";
import type { Drawing } from "./icons.js";
import { Say } from "./Say.js";

interface KeyProps {
  /** While what it promises is not done, a further press does nothing. */
  readonly onPress: () => unknown;
  readonly children: ComponentChildren;
  /** Extra shape: main, col, flat, alt, pick. */
  readonly kind?: string;
  /** For a key that chooses: whether it is the chosen one. */
  readonly chosen?: boolean;
  readonly says?: string;
  /** Why it cannot be pressed yet, in words; the key then stands dashed. */
  readonly waitsFor?: string | null;
}

/** Whatever can be pressed stands on a lip. */
export function Key({ onPress, children, kind = "", chosen, says, waitsFor }: KeyProps) {
  const busy = useRef(false);
  const press = async () => {
    if (waitsFor || busy.current) return;
    busy.current = true;
    try {
      await onPress();
    } finally {
      busy.current = false;
    }
  };
  const names = ["key", kind, chosen ? "main" : "", waitsFor ? "wait" : ""].filter(Boolean).join(" ");
  return (
    <button
      type="button"
      class={names}
      aria-pressed={chosen}
      aria-label={says}
      aria-disabled={waitsFor ? true : undefined}
      onClick={press}
    >
      {children}
      {waitsFor && <small>{waitsFor}</small>}
    </button>
  );
}

/** A way to go on: what, why, and what it brings. */
export function WayKey(props: {
  readonly icon?: Drawing;
  readonly picture?: ComponentChildren;
  readonly title: string;
  readonly sub?: string;
  readonly brings?: string;
  readonly best?: string;
  readonly main?: boolean;
  readonly onPress: () => unknown;
}) {
  const { icon, picture, title, sub, brings, best, main } = props;
  return (
    <Key onPress={props.onPress} kind={`way ${main ? "main" : ""} ${best ? "pick" : ""}`}>
      {icon ? <Icon of={icon} size={28} /> : picture}
      <span class="what">
        <b>
          <Say text={title} />
          {best && <i class="best">{best}</i>}
        </b>
        {sub && (
          <span>
            <Say text={sub} />
          </span>
        )}
      </span>
      {brings && (
        <span class="brings">
          <Say text={brings} />
        </span>
      )}
    </Key>
  );
}

export interface Choice<T> {
  readonly value: T;
  readonly word: string;
  /** Set in the face for figures. */
  readonly figure?: boolean;
  readonly icon?: Drawing;
  readonly picture?: ComponentChildren;
}

const LONG_FIGURE = 4; // 15:30 has five signs and wants a smaller face

/** One question, a row of keys: four on a phone, two in a row when the text is large. */
export function KeyRow<T extends string | number>(props: {
  readonly asks: string;
  readonly choices: readonly Choice<T>[];
  readonly chosen: T | null;
  readonly onPick: (value: T) => void;
  /** Long words: fewer in a row. */
  readonly wide?: boolean;
  readonly children?: ComponentChildren;
}) {
  const many = props.choices.length + toChildArray(props.children).length > 4;
  const times = props.choices.some(({ figure, word }) => figure && word.length > LONG_FIGURE);
  const shape = ["ks", props.wide && "wide", many && "five", times && "times"].filter(Boolean).join(" ");
  return (
    <fieldset class={shape} aria-label={props.asks}>
      {props.choices.map((choice) => (
        <Key
          key={choice.value}
          kind={choice.icon || choice.picture ? "col" : ""}
          chosen={choice.value === props.chosen}
          onPress={() => props.onPick(choice.value)}
        >
          {choice.icon ? <Icon of={choice.icon} size={30} /> : choice.picture}
          <span class={choice.figure ? "fig" : undefined}>{choice.word}</span>
        </Key>
      ))}
      {props.children}
    </fieldset>
  );
}
