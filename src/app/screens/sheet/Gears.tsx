import { useState } from "preact/hooks";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { figures } from "../../words/format.js";
import { sheetWords } from "../../words/sheet.js";
import type { Editing } from "../edit/editing.js";
import { FieldName } from "../edit/FieldRow.js";
import { problemText } from "../edit/problem-text.js";
import { isGuess } from "../edit/spec.js";
import { refusal, typeIn } from "../edit/typing.js";
import { ValuePad } from "../edit/ValuePad.js";

const PATH = "drive.gears";
const MOST_GEARS = 8;
const USUAL: readonly (readonly number[])[] = [
  [4.5, 5.1, 5.8, 6.3, 7],
  [2.5, 2.9, 3.3, 3.7, 4.1],
  [1.6, 1.9, 2.2, 2.5, 2.8],
  [1, 1.2, 1.4, 1.7, 1.9],
  [0.8, 0.9, 1, 1.1, 1.24],
];
const ONE_GEAR = [1, 6, 8, 10, 12];
/** A gear more turns the wheel faster by about this; common practice, no source. */
const NEXT_STEP = 0.7;

/** Ratios of the gearbox, lowest gear first; one where there is no gearbox. */
export function Gears({ on }: { on: Editing<"vehicle"> }) {
  const words = sheetWords.now();
  const [open, setOpen] = useState<number | null>(null);
  const { gears } = on.record.drive;
  const guess = isGuess(on.record, PATH);
  const put = (to: (gears: readonly number[]) => readonly number[]) => {
    setOpen(null);
    return typeIn("vehicle", on.record, ({ drive }) => [{ path: PATH, value: to(drive.gears) }], core.now().kept);
  };
  const withGear = (n: number, ratio: number) => (all: readonly number[]) =>
    all.map((old, i) => (i === n ? ratio : old));
  const [name = "", hint = ""] = words.fields[PATH];
  return (
    <section class="list" aria-label={name}>
      <h2>{guess ? `${name} (${editWords.now().guess})` : name}</h2>
      <p class="hint">{hint}</p>
      <ul class="fields">
        {gears.map((ratio, n) => (
          <li key={`${n}:${gears.length}`} class={`field ${guess ? "guess" : ""}`}>
            <FieldName name={words.gear(n + 1)} />
            <Key
              kind="value"
              says={editWords.now().change(words.gear(n + 1), figures(ratio, 2))}
              onPress={() => setOpen(n)}
            >
              <span class="fig">{figures(ratio, 2)}</span>
            </Key>
          </li>
        ))}
      </ul>
      <div class="acts two">
        {gears.length < MOST_GEARS && (
          <Key onPress={() => put((all) => [...all, Number(((all.at(-1) ?? 1) * NEXT_STEP).toFixed(2))])}>
            {words.oneGearMore}
          </Key>
        )}
        {gears.length > 1 && <Key onPress={() => put((all) => all.slice(0, -1))}>{words.oneGearLess}</Key>}
      </div>
      {open !== null && (
        <ValuePad
          title={words.gear(open + 1)}
          hint={hint}
          unit="none"
          decimals={2}
          now={gears[open] ?? null}
          usual={gears.length === 1 ? ONE_GEAR : (USUAL[open] ?? [])}
          refuses={(ratio) => {
            const why = refusal("vehicle", on.record, { path: PATH, value: withGear(open, ratio)(gears) });
            return why ? problemText(editWords.now(), why) : null;
          }}
          onKeep={(ratio) => put(withGear(open, ratio))}
          onClose={() => setOpen(null)}
        />
      )}
    </section>
  );
}
