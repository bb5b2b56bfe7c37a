import { useState } from "preact/hooks";
import { checkRecord } from "../../../records/check.js";
import { readRecord, type Sky, type Yard } from "../../../records/index.js";
import { monthIndex } from "../../../units/zone.js";
import { Key, KeyRow } from "../../parts/keys.js";
import { editWords } from "../../words/edit.js";
import { figures } from "../../words/format.js";
import { skyWords } from "../../words/sky.js";
import { FieldName } from "../edit/FieldRow.js";
import { problemText } from "../edit/problem-text.js";
import type { UnitName } from "../edit/spec.js";
import { ValuePad } from "../edit/ValuePad.js";

const HAZES = ["cleanHighland", "country", "town", "dustSmoke"] as const;
const USUAL_WIND_MS = 2; // what the calculation takes where nobody said

interface AirProps {
  readonly yard: Yard;
  readonly date: string;
  readonly sky: Sky;
  readonly onChange: (more: Partial<Sky>) => void;
}

/** Haze, temperature and wind; each says what counts where nothing is typed. */
export function Air(props: AirProps) {
  const words = skyWords.now();
  const { yard, date, sky, onChange } = props;
  const month = monthIndex(date);
  const usualHaze = yard.hazeByMonth[month] ?? "country";
  const low = yard.airMinCByMonth[month] ?? 20;
  const high = yard.airMaxCByMonth[month] ?? 30;
  return (
    <>
      <section class="ask">
        <h2>
          {words.haze}
          <small>{words.hazeUsual(words.hazes[usualHaze])}</small>
        </h2>
        <KeyRow
          asks={words.haze}
          chosen={sky.haze}
          onPick={(haze) => onChange({ haze: haze === sky.haze ? null : haze })}
          choices={HAZES.map((value) => ({ value, word: words.hazes[value] }))}
        />
      </section>
      <section class="list">
        <h2 class="list-head">{words.air}</h2>
        <ul class="fields">
          <AirField
            {...props}
            name={words.coldest}
            field="airMinC"
            usual={low}
            unit="celsius"
            steps={[-4, -2, 0, 2, 4]}
          />
          <AirField
            {...props}
            name={words.warmest}
            field="airMaxC"
            usual={high}
            unit="celsius"
            steps={[-4, -2, 0, 2, 4]}
          />
          <AirField
            {...props}
            name={words.wind}
            field="windMs"
            usual={USUAL_WIND_MS}
            unit="ms"
            steps={[-2, 0, 2, 4, 8]}
          />
        </ul>
      </section>
    </>
  );
}

interface FieldProps extends AirProps {
  readonly name: string;
  readonly field: "airMinC" | "airMaxC" | "windMs";
  readonly usual: number;
  readonly unit: UnitName;
  readonly steps: readonly number[];
}

function AirField({ sky, onChange, name, field, usual, unit, steps }: FieldProps) {
  const words = skyWords.now();
  const edit = editWords.now();
  const [asking, setAsking] = useState(false);
  const value = sky[field];
  const shown = value === null ? words.usualIs(figures(usual)) : figures(value);
  const put = (typed: number | null) => {
    setAsking(false);
    onChange({ [field]: typed });
  };
  const refuses = (typed: number): string | null => {
    const seen = readRecord("sky", { ...sky, [field]: typed });
    const why = seen.ok ? checkRecord("sky", seen.value).errors[0] : seen.problems[0];
    return why ? problemText(edit, why, { unit }) : null;
  };
  return (
    <li class="field">
      <FieldName name={name} />
      <Key kind="value" says={edit.change(name, `${shown} ${edit.unitNames[unit]}`)} onPress={() => setAsking(true)}>
        <span class="shown">
          <span class={value === null ? "of-usual" : "fig"}>{shown}</span>
          <span class="unit"> {edit.units[unit]}</span>
        </span>
      </Key>
      {asking && (
        <ValuePad
          title={name}
          unit={unit}
          signed={unit === "celsius"}
          now={value}
          usual={steps.map((step) => Math.round(usual + step))}
          unset={{ word: words.usualIs(figures(usual)), onPress: () => put(null) }}
          refuses={refuses}
          onKeep={put}
          onClose={() => setAsking(false)}
        />
      )}
    </li>
  );
}
