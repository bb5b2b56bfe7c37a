import "./hold.css";
import "./rest.css";
import { useEffect, useState } from "preact/hooks";
import type { Lighter, TurnPoint } from "../../work/advice.js";
import { askDay } from "../../work/ask-day.js";
import { type Answered, answers } from "../answers.js";
import { skyOn } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { pad, speak } from "../parts/icons.js";
import { Key, KeyRow } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { Say } from "../parts/Say.js";
import { hasVoice, say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { figures, joined } from "../words/format.js";
import { restWords } from "../words/rest.js";
import { DayTop } from "./DayTop.js";
import { dayContext } from "./day-context.js";
import { useTurn } from "./use-turn.js";

export const words = [restWords, dayWords];

const OUT_KM = [0, 2, 5, 10];

/** At which km do I turn? One number; no position is needed. */
export function Screen() {
  const told = restWords.now();
  const [outKm, setOutKm] = useState(0);
  const [asking, setAsking] = useState(false);
  const context = dayContext();
  const known = context ? answers.value.get(context.vehicle.id) : undefined;
  if (!context) return null;
  const point = useTurn(known, outKm);
  const lighter = useLighter(known);
  const km = Math.floor(point?.km ?? 0);
  const sentence = km > outKm ? told.spoken(km) : told.homeNow;
  const missing = known?.answer.missing.includes("reading") ?? true;
  return (
    <Page
      {...DayTop(context, told.turnTitle)}
      onSay={() => void say(sentence)}
      narrow
      foot={hasVoice() ? <SayIt says={sentence} /> : undefined}
    >
      {missing ? (
        <p class="hold-first">{core.now().nobodyRead}</p>
      ) : !point ? (
        <p class="hold-then">{core.now().working}</p>
      ) : km > outKm ? (
        <>
          <p class="hold-number">
            <b class="fig">{figures(km)}</b>
            <span>{told.kmFromYard}</span>
          </p>
          <p class="hold-then">
            {told.lineKept} {less(point)}
          </p>
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
            says={joined(!OUT_KM.includes(outKm) && figures(outKm), core.now().pad.another)}
          >
            {OUT_KM.includes(outKm) ? <Icon of={pad} /> : <span class="fig">{figures(outKm)}</span>}
          </Key>
        </KeyRow>
      </section>
      {!missing && (
        <ul class="turn-lighter">
          {lighter
            .filter(({ km }) => km >= 1)
            .map(({ to, km }) => (
              <li key={to}>
                <Say text={to === "half" ? told.withHalf(Math.floor(km)) : told.withNone(Math.floor(km))} />
              </li>
            ))}
        </ul>
      )}
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

function SayIt({ says }: { says: string }) {
  return (
    <footer class="acts foot">
      <Key kind="main" onPress={() => void say(says)}>
        <Icon of={speak} size={28} />
        {dayWords.now().hold.say}
      </Key>
    </footer>
  );
}

/** What makes the way shorter than on a dry day. */
function less({ night, rain }: TurnPoint): string {
  const told = restWords.now();
  return [night ? told.lessNight : "", rain ? told.lessRain : ""].filter(Boolean).join(" ");
}

function useLighter(known: Answered | undefined): readonly Lighter[] {
  const [ways, setWays] = useState<readonly Lighter[]>([]);
  useEffect(() => {
    if (!known) return;
    const stop = new AbortController();
    askDay("lighter", known.case, stop.signal).then(setWays, (problem: unknown) => {
      if (!stop.signal.aborted) throw problem;
    });
    return () => stop.abort();
  }, [known]);
  return ways;
}
