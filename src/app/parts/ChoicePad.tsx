import "./pads.css";
import { useEffect, useRef } from "preact/hooks";
import { core } from "../words/core.js";
import { type Choice, Key } from "./keys.js";

/** One of a few, as keys in a sheet from below. */
export function ChoicePad<T extends string>(props: {
  readonly title: string;
  readonly choices: readonly Choice<T>[];
  readonly chosen: T | null;
  readonly onKeep: (value: T) => void;
  readonly onClose: () => void;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="pad" aria-label={props.title} onClose={props.onClose}>
      <p class="pad-title">{props.title}</p>
      <div class="pad-list">
        {props.choices.map((choice) => (
          <Key key={choice.value} chosen={choice.value === props.chosen} onPress={() => props.onKeep(choice.value)}>
            {choice.word}
          </Key>
        ))}
      </div>
      <div class="pad-ends">
        <Key onPress={props.onClose}>{core.now().pad.close}</Key>
      </div>
    </dialog>
  );
}
