import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { Icon } from "../../parts/Icon.js";
import { back } from "../../parts/icons.js";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { figures, inDigits } from "../../words/format.js";
import type { UnitName } from "./spec.js";

interface PadProps {
  readonly title: string;
  readonly hint?: string;
  readonly unit: UnitName;
  readonly unitText?: string;
  readonly decimals?: number;
  readonly signed?: boolean;
  /** What stands there now. */
  readonly now: number | null;
  /** Five at most; one tap keeps. */
  readonly usual?: readonly number[];
  /** Key for "not known". */
  readonly unset?: { readonly word: string; readonly onPress: () => void };
  /** Why a value cannot be taken, in one sentence; null when it can. */
  readonly refuses: (value: number) => string | null;
  readonly onKeep: (value: number) => void;
  readonly onClose: () => void;
}
const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];
const LONGEST = 8;

/** A figure: the values people often mean, and ten large digits for any other. A keyboard works too. */
export function ValuePad(props: PadProps) {
  const { decimals = 0, refuses } = props;
  const [typed, setTyped] = useState("");
  const [refused, setRefused] = useState<string | null>(null);
  const type = (next: string) => {
    setTyped(next.slice(0, LONGEST));
    setRefused(null);
  };
  const offer = (value: number) => {
    const why = refuses(value);
    if (why === null) props.onKeep(value);
    else setRefused(why);
  };
  const point = () => decimals > 0 && !typed.includes(".") && type(`${typed === "" ? "0" : typed}.`);
  const sign = () => props.signed && type(typed.startsWith("-") ? typed.slice(1) : `-${typed}`);
  const value = Number(typed);
  const ready = typed !== "" && Number.isFinite(value);
  const onKey = (event: KeyboardEvent) => {
    if (/^\d$/.test(event.key)) type(typed + event.key);
    else if (event.key === "." || event.key === ",") point();
    else if (event.key === "-") sign();
    else if (event.key === "Backspace") type(typed.slice(0, -1));
    else if (event.key === "Enter" && ready && !(event.target instanceof HTMLButtonElement)) offer(value);
    else return;
    event.preventDefault();
  };
  return (
    <Sheet title={props.title} hint={props.hint} onClose={props.onClose} onKey={onKey}>
      <Shown {...props} typed={typed} refused={refused} />
      {(props.usual?.length ?? 0) > 0 && <Usual {...props} onOffer={offer} />}
      <Digits typed={typed} onType={type} point={decimals > 0 ? point : null} sign={props.signed ? sign : null} />
      <Ends {...props} ready={ready} sign={decimals > 0 && props.signed ? sign : null} onOffer={() => offer(value)} />
    </Sheet>
  );
}

/** A sheet from below that asks one thing. */
export function Sheet(props: {
  readonly title: string;
  readonly hint?: string | undefined;
  readonly onClose: () => void;
  readonly onKey?: (event: KeyboardEvent) => void;
  readonly children: ComponentChildren;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => dialog.current?.showModal(), []); // before the next key is pressed
  return (
    <dialog
      ref={dialog}
      class="pad asks"
      aria-label={props.title}
      onKeyDown={props.onKey}
      onClose={props.onClose}
      onClick={(event) => event.target === dialog.current && props.onClose()}
    >
      <p class="pad-title">{props.title}</p>
      {props.hint && <p class="hint">{inDigits(props.hint)}</p>}
      {props.children}
    </dialog>
  );
}

function Shown(props: PadProps & { readonly typed: string; readonly refused: string | null }) {
  const words = editWords.now();
  const { typed, now, decimals = 0, unit } = props;
  const empty = now === null ? "–" : figures(now, decimals);
  return (
    <>
      {/* takes the keyboard, so that digits and Enter work at once */}
      <p class="pad-shown" tabIndex={-1} autofocus>
        <output class={typed === "" ? "fig before" : "fig"}>
          {typed === "" ? empty : inDigits(typed.replace("-", "−"))}
        </output>{" "}
        {props.unitText ?? words.unitNames[unit]}
      </p>
      <p class={props.refused ? "pad-says refused" : "pad-says"} role="alert">
        {props.refused}
      </p>
    </>
  );
}

function Usual(props: PadProps & { readonly onOffer: (value: number) => void }) {
  const { usual = [], decimals = 0 } = props;
  return (
    <fieldset class="ks five usual" aria-label={editWords.now().usual}>
      {usual.map((value) => (
        <Key key={value} chosen={value === props.now} onPress={() => props.onOffer(value)}>
          <span class="fig">{figures(value, Number.isInteger(value) ? 0 : decimals)}</span>
        </Key>
      ))}
    </fieldset>
  );
}

function Digits(props: {
  readonly typed: string;
  readonly onType: (typed: string) => void;
  readonly point: (() => void) | null;
  readonly sign: (() => void) | null;
}) {
  const words = core.now().pad;
  const { typed, onType, point, sign } = props;
  return (
    <div class="pad-keys">
      {DIGITS.map((digit) => (
        <Key key={digit} onPress={() => onType(typed + digit)}>
          <span class="fig">{inDigits(digit)}</span>
        </Key>
      ))}
      {point ? (
        <Key onPress={point} says={words.point}>
          <span class="fig">{pointOf()}</span>
        </Key>
      ) : sign ? (
        <Sign onPress={sign} />
      ) : (
        <span />
      )}
      <Key onPress={() => onType(`${typed}0`)}>
        <span class="fig">{inDigits("0")}</span>
      </Key>
      <Key onPress={() => onType(typed.slice(0, -1))} says={words.rub}>
        <Icon of={back} />
      </Key>
    </div>
  );
}

function Sign({ onPress }: { onPress: () => void }) {
  return (
    <Key onPress={onPress} says={editWords.now().minus}>
      <span class="fig">−</span>
    </Key>
  );
}

function Ends(
  props: PadProps & { readonly ready: boolean; readonly sign: (() => void) | null; readonly onOffer: () => void },
) {
  const words = core.now().pad;
  return (
    <div class={props.unset || props.sign ? "pad-ends three" : "pad-ends"}>
      <Key onPress={props.onClose}>{words.close}</Key>
      {props.sign && <Sign onPress={props.sign} />}
      {props.unset && <Key onPress={props.unset.onPress}>{props.unset.word}</Key>}
      <Key kind={props.ready ? "main" : "wait"} onPress={() => props.ready && props.onOffer()}>
        {words.keep}
      </Key>
    </div>
  );
}

/** Decimal sign of the language. */
const pointOf = (): string => figures(0.5, 1).replace(/[\p{Nd}]/gu, "");
