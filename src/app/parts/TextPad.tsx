import "./pads.css";
import { useEffect, useRef, useState } from "preact/hooks";
import { core } from "../words/core.js";
import { Key } from "./keys.js";

/** A few words or a day, by the phone's own keyboard. */
export function TextPad(props: {
  readonly title: string;
  readonly start: string;
  readonly longest?: number;
  readonly type?: "text" | "date" | "time";
  readonly hint?: string | null;
  readonly mayBeEmpty?: boolean;
  /** In place of "Keep", where something else is done. */
  readonly does?: string;
  readonly onKeep: (text: string) => void;
  readonly onClose: () => void;
}) {
  const words = core.now().pad;
  const [typed, setTyped] = useState(props.start);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const text = typed.trim();
  const fits = text !== "" || props.mayBeEmpty === true;
  return (
    <dialog ref={dialog} class="pad" aria-label={props.title} onClose={props.onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (fits) props.onKeep(text);
        }}
      >
        <p class="pad-title">{props.title}</p>
        {props.type === undefined || props.type === "text" ? (
          <input
            class="typed"
            type="text"
            aria-label={props.title}
            value={typed}
            maxLength={props.longest ?? 60}
            autocomplete="off"
            onInput={(event) => setTyped(event.currentTarget.value)}
          />
        ) : (
          <input
            class="typed"
            type={props.type}
            aria-label={props.title}
            value={typed}
            onInput={(event) => setTyped(event.currentTarget.value)}
          />
        )}
        <p class="pad-says">{props.hint}</p>
        <div class="pad-ends">
          <Key onPress={props.onClose}>{words.close}</Key>
          <button type="submit" class={fits ? "key main" : "key wait"}>
            {props.does ?? words.keep}
          </button>
        </div>
      </form>
    </dialog>
  );
}
