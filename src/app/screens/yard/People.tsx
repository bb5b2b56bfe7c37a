import { useState } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import { Icon } from "../../parts/Icon.js";
import { Key } from "../../parts/keys.js";
import { handOver } from "../../settings.js";
import { core } from "../../words/core.js";
import { yardWords } from "../../words/yard.js";
import { ClockPad } from "../edit/ClockPad.js";
import { plus } from "../edit/drawings.js";
import type { Editing } from "../edit/editing.js";
import { Finer } from "../edit/FieldRow.js";
import { typeIn } from "../edit/typing.js";
import { worthFields } from "./fields.js";
import { clockText, minuteText } from "./hours.js";
import { Lines } from "./Lines.js";
import { SpanPad } from "./SpanPad.js";

type Span = Yard["staff"]["awake"][number];
type Asking = { readonly what: "awake" | "wake"; readonly n: number } | null;
const EVENING: Span = { from: "18:00", to: "23:00" };
const WAKE = "02:00";

/** When somebody can plug and swap, and when somebody can be woken for it. */
export function People({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const { awake, wake } = on.record.staff;
  const [asking, setAsking] = useState<Asking>(null);
  const putAwake = (to: (awake: readonly Span[]) => readonly Span[]) => {
    setAsking(null);
    return typeIn("yard", on.record, ({ staff }) => [{ path: "staff.awake", value: to(staff.awake) }], core.now().kept);
  };
  const putWake = (to: (wake: readonly string[]) => readonly string[]) => {
    setAsking(null);
    return typeIn("yard", on.record, ({ staff }) => [{ path: "staff.wake", value: to(staff.wake) }], core.now().kept);
  };
  const span = asking?.what === "awake" ? (awake[asking.n] ?? EVENING) : EVENING;
  return (
    <>
      <section class="list">
        <p class="hint">{words.awakeHint}</p>
        <Lines
          lines={awake.map((one) => `${one.from} – ${one.to}`)}
          removeWord={words.removeAwake}
          onPress={(n) => setAsking({ what: "awake", n })}
          onDrop={(n) => putAwake((all) => without(all, n))}
        />
        <div class="acts adding">
          <Key onPress={() => setAsking({ what: "awake", n: awake.length })}>
            <Icon of={plus} size={20} />
            {words.addAwake}
          </Key>
        </div>
      </section>
      <section class="list">
        <h2>{words.wake}</h2>
        <Lines
          lines={wake}
          removeWord={words.removeAwake}
          onPress={(n) => setAsking({ what: "wake", n })}
          onDrop={(n) => putWake((all) => without(all, n))}
        />
        <div class="acts adding">
          <Key onPress={() => setAsking({ what: "wake", n: wake.length })}>
            <Icon of={plus} size={20} />
            {words.addWake}
          </Key>
        </div>
      </section>
      {!handOver.value && <Finer of={worthFields(on.record)} on={on} />}
      {asking?.what === "awake" && (
        <SpanPad
          title={words.groups.people}
          from={minuteText(span.from)}
          to={minuteText(span.to)}
          onClose={() => setAsking(null)}
          onKeep={(from, to) =>
            putAwake((all) => withItem(all, asking.n, { from: clockText(from), to: clockText(to) }))
          }
        />
      )}
      {asking?.what === "wake" && (
        <ClockPad
          title={words.wake}
          now={minuteText(wake[asking.n] ?? WAKE)}
          onClose={() => setAsking(null)}
          onKeep={(minute) => putWake((all) => withItem(all, asking.n, clockText(minute)))}
        />
      )}
    </>
  );
}

const without = <T,>(list: readonly T[], n: number): readonly T[] => list.filter((_, i) => i !== n);
/** The list with one item changed, or put at its end. */
const withItem = <T,>(list: readonly T[], n: number, item: T): readonly T[] =>
  n >= list.length ? [...list, item] : list.map((old, i) => (i === n ? item : old));
