import "./hold.css";
import { useState } from "preact/hooks";
import { answers } from "../answers.js";
import { skyOn } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { pad } from "../parts/icons.js";
import { Key, KeyRow } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { nowUtcMs } from "../state.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { figures } from "../words/format.js";
import { restWords } from "../words/rest.js";
import { DayTop } from "./DayTop.js";
import { dayContext } from "./day-context.js";
import { turnBackOf } from "./range.js";

export const words = [restWords];

const OUT_KM = [0, 2, 5, 10];

/** At which km do I turn? One number; no position is needed. */
export function Screen() {
  const told = restWords.now();
  const [outKm, setOutKm] = useState(0);
  const [asking, setAsking] = useState(false);
  const context = dayContext();
  const known = context ? answers.value.get(context.vehicle.id) : undefined;
  if (!context) return null;
  const km = known ? turnBackOf(known, nowUtcMs.value, outKm) : 0;
  const missing = known?.answer.missing.includes("reading") ?? true;
  return (
    <Page
      {...DayTop(context, told.turnTitle)}
      onSay={() => void say(km > outKm ? told.spoken(km) : told.homeNow)}
      narrow
    >
      {missing ? (
        <p class="hold-first">{core.now().nobodyRead}</p>
      ) : km > outKm ? (
        <>
          <p class="hold-number">
            <b class="fig">{figures(km)}</b>
            <span>{told.kmFromYard}</span>
          </p>
          <p class="hold-then">{told.lineKept}</p>
        </>
      ) : (
        <>
          <p class="hold-first">{told.homeNow}</p>
          <p class="hold-then">{told.nothingLeft}</p>
        </>
      )}
      <section class="ask">
        <h2>{told.outNow}</h2>
        <KeyRow
          asks={told.outNow}
          chosen={outKm}
          onPick={setOutKm}
          choices={OUT_KM.map((value) => ({
            value,
            word: value === 0 ? told.atYard : figures(value),
            figure: value > 0,
          }))}
        >
          <Key
            kind="alt"
            chosen={!OUT_KM.includes(outKm)}
            onPress={() => setAsking(true)}
            says={core.now().pad.another}
          >
            {OUT_KM.includes(outKm) ? <Icon of={pad} /> : <span class="fig">{figures(outKm)}</span>}
          </Key>
        </KeyRow>
      </section>
      {skyOn(context.yard.id, context.date)?.wet && <Caution id="flood" text={told.flood} />}
      {asking && (
        <NumberPad
          title={told.outNow}
          unit="km"
          least={0}
          most={200}
          onClose={() => setAsking(false)}
          onKeep={(value) => {
            setOutKm(value);
            setAsking(false);
          }}
        />
      )}
    </Page>
  );
}
