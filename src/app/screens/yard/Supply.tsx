import { useState } from "preact/hooks";
import { Icon } from "../../parts/Icon.js";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { clock, figures, inDigits } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import { plus } from "../edit/drawings.js";
import type { Editing } from "../edit/editing.js";
import { FieldName, Fields, Note } from "../edit/FieldRow.js";
import { problemText } from "../edit/problem-text.js";
import { refusal, typeIn } from "../edit/typing.js";
import { ValuePad } from "../edit/ValuePad.js";
import { supplyFields } from "./fields.js";
import { hoursBetween, type Run, runsOf, tightest, withHours } from "./hours.js";
import { SpanPad } from "./SpanPad.js";

const PATH = "baseLoadKwByHour";
const USUAL_KW = [0, 0.5, 1, 2, 4];
const kwText = (kw: number): string => figures(kw, Number.isInteger(kw) ? 0 : 1);
const hourText = (hour: number): string => (hour === 24 ? inDigits("24:00") : clock(hour));

/** Site limit and margin, then what else draws power, hour by hour. */
export function Supply({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const yard = on.record;
  const limit = yard.siteLimitKw;
  const low = limit === null ? null : tightest(yard.baseLoadKwByHour, limit, yard.marginKw);
  return (
    <>
      <Fields of={supplyFields} on={on} />
      <Others on={on} />
      {low && low.kw > 0 && <p class="used">{words.leftForVehicles(kwText(low.kw), clock(low.hour))}</p>}
    </>
  );
}

type Asking = { readonly hours: readonly number[]; readonly kw: number | null } | "span" | null;

function Others({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const [asking, setAsking] = useState<Asking>(null);
  const byHour = on.record.baseLoadKwByHour;
  const runs = runsOf(byHour);
  const put = (to: (byHour: readonly number[]) => readonly number[]) => {
    setAsking(null);
    void typeIn("yard", on.record, (now) => [{ path: PATH, value: to(now.baseLoadKwByHour) }], core.now().kept);
  };
  return (
    <section class="list">
      <h2>{words.others}</h2>
      <p class="hint">{runs.length === 0 ? words.othersNone : words.othersHint}</p>
      <ul class="fields">
        {runs.map((run) => (
          <RunRow key={run.fromH} run={run} onPress={() => setAsking({ hours: hoursOf(run), kw: run.kw })} />
        ))}
      </ul>
      <TooMuch on={on} />
      <div class="acts adding">
        <Key onPress={() => setAsking("span")}>
          <Icon of={plus} size={20} />
          {words.setHours}
        </Key>
      </div>
      {asking === "span" && (
        <SpanPad
          title={words.others}
          from={18 * 60}
          to={22 * 60}
          wholeHours
          onClose={() => setAsking(null)}
          onKeep={(from, to) => setAsking({ hours: hoursBetween(from / 60, to / 60), kw: null })}
        />
      )}
      {asking !== null && asking !== "span" && (
        <ValuePad
          title={words.others}
          unit="kw"
          decimals={1}
          now={asking.kw}
          usual={USUAL_KW}
          refuses={(kw) => {
            const why = refusal("yard", on.record, { path: PATH, value: withHours(byHour, asking.hours, kw) });
            return why ? problemText(editWords.now(), why, { unit: "kw" }) : null;
          }}
          onKeep={(kw) => put((all) => withHours(all, asking.hours, kw))}
          onClose={() => setAsking(null)}
        />
      )}
    </section>
  );
}

const hoursOf = (run: Run): readonly number[] => hoursBetween(run.fromH, run.toH % 24);

function RunRow({ run, onPress }: { run: Run; onPress: () => void }) {
  const words = yardWords.now();
  const [from, to, kw] = [hourText(run.fromH), hourText(run.toH), kwText(run.kw)];
  return (
    <li class="field">
      <FieldName name={`${from} – ${to}`} />
      <Key kind="value" says={words.drawnAs(from, to, kw)} onPress={onPress}>
        <span class="shown">
          <span class="fig">{kw}</span>
          <span class="unit"> {words.kw}</span>
        </span>
      </Key>
    </li>
  );
}

/** The first hour at which the others alone pass the limit: one sentence, not one for each hour. */
function TooMuch({ on }: { on: Editing<"yard"> }) {
  const first = on.warnings.find((warning) => warning.where.startsWith(PATH));
  return first ? <Note>{problemText(editWords.now(), first)}</Note> : null;
}
