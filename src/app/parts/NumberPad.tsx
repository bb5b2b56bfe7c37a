import "./pads.css";
import { useEffect, useRef, useState } from "preact/hooks";
import { core } from "../words/core.js";
import { figures, inDigits } from "../words/format.js";
import { Icon } from "./Icon.js";
import { back } from "./icons.js";
import { Key } from "./keys.js";

interface PadProps {
  readonly title: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  readonly decimals?: number;
  readonly start?: number | null;
  readonly negative?: boolean;
  /** A key for "not said". */
  readonly none?: string;
  readonly onNone?: () => void;
  readonly onKeep: (value: number) => void;
  readonly onClose: () => void;
}
const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];
const LONGEST = 8;

/** Another number: large keys, no keyboard of the phone's own. A keyboard works too. */
export function NumberPad(props: PadProps) {
  const words = core.now().pad;
  const { least, most, decimals = 0 } = props;
  // What stands there is shown until the first digit takes its place; rubbing out or the sign goes on from it.
  const [fresh, setTyped] = useState<string | null>(null);
  const typed = fresh ?? (props.start == null ? "" : String(props.start));
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const add = (piece: string) => setTyped((old) => ((old ?? "") + piece).slice(0, LONGEST));
  const point = () => !fresh?.includes(".") && add(fresh ? "." : "0.");
  const value = Number(typed);
  const fits = typed !== "" && Number.isFinite(value) && value >= least && value <= most;
  const refused = typed !== "" && !fits ? words.between(figuresOf(least, decimals), figuresOf(most, decimals)) : null;
  const onKey = (event: KeyboardEvent) => {
    if (/^\d$/.test(event.key)) add(event.key);
    else if ((event.key === "." || event.key === ",") && decimals > 0) point();
    else if (event.key === "Backspace") setTyped(typed.slice(0, -1));
    else if (event.key === "Enter" && fits && !(event.target instanceof HTMLButtonElement)) props.onKeep(value);
    else return;
    event.preventDefault();
  };
  return (
    <dialog ref={dialog} class="pad" aria-label={props.title} onKeyDown={onKey} onClose={props.onClose}>
      <p class="pad-title">{props.title}</p>
      {/* takes the keyboard, so that digits and Enter work at once */}
      <p class="pad-shown" aria-live="polite" tabIndex={-1} autofocus>
        <span class="fig">{typed === "" ? "–" : inDigits(typed.replace("-", "−"))}</span> {props.unit}
      </p>
      <p class="pad-says">{refused}</p>
      <div class="pad-keys">
        {DIGITS.map((digit) => (
          <Key key={digit} onPress={() => add(digit)}>
            <span class="fig">{inDigits(digit)}</span>
          </Key>
        ))}
        {props.negative ? (
          <Key onPress={() => setTyped(typed.startsWith("-") ? typed.slice(1) : `-${typed}`)} says={words.minus}>
            <span class="fig">−</span>
          </Key>
        ) : decimals > 0 ? (
          <Key onPress={point} says={words.point}>
            <span class="fig">{pointOf()}</span>
          </Key>
        ) : (
          <span />
        )}
        <Key onPress={() => add("0")}>
          <span class="fig">{inDigits("0")}</span>
        </Key>
        <Key onPress={() => setTyped(typed.slice(0, -1))} says={words.rub}>
          <Icon of={back} />
        </Key>
      </div>
      {props.none && props.onNone && <Key onPress={props.onNone}>{props.none}</Key>}
      <div class="pad-ends">
        <Key onPress={props.onClose}>{words.close}</Key>
        <Key kind={fits ? "main" : "wait"} onPress={() => fits && props.onKeep(value)}>
          {words.keep}
        </Key>
      </div>
    </dialog>
  );
}

const figuresOf = (value: number, decimals: number): string => figures(value, Number.isInteger(value) ? 0 : decimals);
/** Decimal sign of the language. */
const pointOf = (): string => figures(0.5, 1).replace(/[\p{Nd}]/gu, "");
