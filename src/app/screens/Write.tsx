import { useState } from "preact/hooks";
import { dayNamed } from "../../units/zone.js";
import { Key } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { TextPad } from "../parts/TextPad.js";
import { here } from "../state.js";
import { lastDone, takeBack } from "../undo.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { clock, dayShort, joined } from "../words/format.js";
import { dayContext } from "./day-context.js";
import { entryOn, filledIn } from "./write/entries.js";
import { DayForm } from "./write/Form.js";

export const words = [dayWords];

/** What happened today? Four taps, each kept at once; blanks are fine. `write/DATE` writes another day. */
export function Screen({ params }: { readonly params: readonly string[] }) {
  const words = dayWords.now().write;
  const context = dayContext();
  const today = here.value.date;
  const [date, setDate] = useState(dayNamed(params[0], today));
  const [asking, setAsking] = useState(false);
  if (!context) return null;
  const { vehicle } = context;
  return (
    <Page
      title={date === today ? words.title : words.titleOf(dayShort(date))}
      sub={date === today ? joined(dayShort(date), clock(here.value.nowH)) : vehicle.name}
      plate={vehicle.plate}
      above="today"
      place="today"
      onSay={() => void say(words.spoken)}
      foot={<Foot filled={filledIn(entryOn(vehicle.id, date))} onAnotherDay={() => setAsking(true)} />}
      narrow
      ownUndo
    >
      <DayForm key={`${vehicle.id} ${date}`} vehicle={vehicle} date={date} />
      {asking && (
        <TextPad
          title={words.anotherDay}
          type="date"
          start={date}
          onClose={() => setAsking(false)}
          onKeep={(picked) => {
            setAsking(false);
            setDate(picked);
          }}
        />
      )}
    </Page>
  );
}

/** How much is kept, and the way back. */
export function Foot({ filled, onAnotherDay }: { filled: number; onAnotherDay: () => void }) {
  const words = dayWords.now().write;
  return (
    <footer class="saved">
      <span class="dots" aria-hidden="true">
        {[0, 1, 2, 3].map((i) => (
          <i key={i} class={i < filled ? "full" : ""} />
        ))}
      </span>
      <p>
        <b>{words.kept(filled)}</b> {words.blanks}
      </p>
      {lastDone.value?.undo ? (
        <Key onPress={() => void takeBack()}>{core.now().keys.undo}</Key>
      ) : (
        <Key onPress={onAnotherDay}>{words.anotherDay}</Key>
      )}
    </footer>
  );
}
