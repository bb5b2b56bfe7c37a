import { useState } from "preact/hooks";
import { Key } from "../../parts/keys.js";
import { TextPad } from "../../parts/TextPad.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { Sheet } from "./ValuePad.js";

/** A few words: those in use elsewhere as keys, then the phone's own keyboard. */
export function NamePad(props: {
  readonly title: string;
  readonly hint?: string | undefined;
  readonly start: string;
  readonly longest: number;
  readonly mayBeEmpty: boolean;
  readonly offers: readonly string[];
  readonly refuses?: (text: string) => string | null;
  readonly onKeep: (text: string) => void;
  readonly onClose: () => void;
}) {
  const { title, hint, onKeep, onClose } = props;
  const [writing, setWriting] = useState(props.offers.length === 0);
  const [refused, setRefused] = useState<string | null>(null);
  const offer = (text: string) => {
    const why = props.refuses?.(text) ?? null;
    if (why === null) onKeep(text);
    else setRefused(why);
  };
  if (writing)
    return (
      <TextPad
        title={title}
        hint={refused ?? hint ?? null}
        start={props.start}
        longest={props.longest}
        mayBeEmpty={props.mayBeEmpty}
        onKeep={offer}
        onClose={onClose}
      />
    );
  return (
    <Sheet title={title} hint={refused ?? hint} onClose={onClose}>
      <div class="pad-list">
        {props.offers.map((text) => (
          <Key key={text} chosen={text === props.start} onPress={() => offer(text)}>
            {text}
          </Key>
        ))}
        <Key kind="alt" onPress={() => setWriting(true)}>
          {editWords.now().byKeyboard}
        </Key>
      </div>
      <div class="pad-ends one">
        <Key onPress={onClose}>{core.now().pad.close}</Key>
      </div>
    </Sheet>
  );
}
