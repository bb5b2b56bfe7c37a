import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Key, KeyRow } from "../../parts/keys.js";

import { editWords } from "../../words/edit.js";
import { NamePad } from "./NamePad.js";

/** A question with its keys. */
export function Row({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section class="ask words">
      <h2>{title}</h2>
      {children}
    </section>
  );
}

/** One of a few. */
export function Choices<T extends string>(props: {
  readonly of: readonly T[];
  readonly words: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly asks: string;
  readonly onPick: (value: T) => void;
}) {
  return (
    <KeyRow
      asks={props.asks}
      chosen={props.chosen}
      onPick={props.onPick}
      choices={props.of.map((value) => ({ value, word: props.words[value] }))}
    />
  );
}

/** A name as a key; names in use are offered, and the phone's own keyboard opens for another. */
export function NameRow(props: {
  readonly title: string;
  readonly name: string;
  readonly mayBeEmpty?: boolean;
  readonly longest?: number;
  readonly offers?: readonly string[];
  readonly onName: (name: string) => void;
}) {
  const [asking, setAsking] = useState(false);
  const shown = props.name || editWords.now().none;
  return (
    <section class="ask name-row">
      <h2>{props.title}</h2>
      <Key says={editWords.now().change(props.title, shown)} onPress={() => setAsking(true)}>
        {shown}
      </Key>
      {asking && (
        <NamePad
          title={props.title}
          start={props.name}
          longest={props.longest ?? 80}
          mayBeEmpty={props.mayBeEmpty ?? false}
          offers={props.offers ?? []}
          onKeep={(name) => {
            setAsking(false);
            props.onName(name);
          }}
          onClose={() => setAsking(false)}
        />
      )}
    </section>
  );
}
