import { useState } from "preact/hooks";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { clock, figures, inDigits } from "../../words/format.js";
import { Sheet } from "./ValuePad.js";

const HOURS = Array.from({ length: 24 }, (_, hour) => hour);
const MINUTES = [0, 10, 15, 20, 30, 40, 45, 50];

/** A time of day by two taps: the hour, then the minutes. `midnight` offers the end of the day as 24:00. */
export function ClockPad(props: {
  readonly title: string;
  readonly now: number;
  readonly midnight?: boolean;
  readonly wholeHours?: boolean;
  /** Another question follows. */
  readonly next?: boolean;
  readonly onKeep: (minuteOfDay: number) => void;
  readonly onClose: () => void;
}) {
  const words = editWords.now();
  const [hour, setHour] = useState(Math.floor(props.now / 60) % 24);
  const [minute, setMinute] = useState(props.now % 60);
  const whole = props.wholeHours ?? false;
  const minutes = MINUTES.includes(minute) ? MINUTES : [...MINUTES, minute].sort((a, b) => a - b);
  return (
    <Sheet title={props.title} onClose={props.onClose}>
      <p class="pad-shown" tabIndex={-1} autofocus>
        <output class="fig">{clock(hour + (whole ? 0 : minute) / 60)}</output>
      </p>
      <fieldset class="hours-of-day" aria-label={words.hour}>
        {HOURS.map((each) => (
          <Key key={each} chosen={each === hour} onPress={() => setHour(each)}>
            <span class="fig">{figures(each)}</span>
          </Key>
        ))}
      </fieldset>
      {!whole && (
        <fieldset class="hours-of-day minutes" aria-label={words.minute}>
          {minutes.map((each) => (
            <Key key={each} chosen={each === minute} onPress={() => setMinute(each)}>
              <span class="fig">{clock(each / 60).slice(-2)}</span>
            </Key>
          ))}
        </fieldset>
      )}
      <div class={props.midnight ? "pad-ends three" : "pad-ends"}>
        <Key onPress={props.onClose}>{core.now().pad.close}</Key>
        {props.midnight && (
          <Key onPress={() => props.onKeep(1440)}>
            <span class="fig">{inDigits("24:00")}</span>
          </Key>
        )}
        <Key kind="main" onPress={() => props.onKeep(hour * 60 + (whole ? 0 : minute))}>
          {props.next ? words.next : core.now().pad.keep}
        </Key>
      </div>
    </Sheet>
  );
}
