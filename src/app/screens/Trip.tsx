import { useEffect, useState } from "preact/hooks";
import type { DayAnswer } from "../../calc/day/answer.js";
import type { LegPart, Round, Shift } from "../../records/index.js";
import { LOAD_SHARE } from "../../records/map/shift-plan.js";
import { askDay } from "../../work/ask-day.js";
import { answers } from "../answers.js";
import { keep, newId, roundOf } from "../fleet.js";
import { Icon } from "../parts/Icon.js";
import { emptyTray, fullTray, halfTray, pad } from "../parts/icons.js";
import { Key, KeyRow } from "../parts/keys.js";
import { Mark } from "../parts/Mark.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { kmLeft, kmMissing } from "../parts/rounding.js";
import { Say } from "../parts/Say.js";
import { goBack } from "../router.js";
import { nowUtcMs } from "../state.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { figures, joined, plain } from "../words/format.js";
import { DayTop } from "./DayTop.js";
import { type DayContext, dayContext, shiftFor } from "./day-context.js";
import { hillOf } from "./today-of.js";
import { hillWords } from "./today-words.js";

export const words = [dayWords];

const KM = [2, 5, 8, 12];
const LOADS = [
  { value: "empty", icon: emptyTray },
  { value: "half", icon: halfTray },
  { value: "full", icon: fullTray },
] as const;
const MEAN_KMH = 18; // in a town, stops and all; common practice, no source

/** N km more: yes or no? The same day is worked out once more with the trip at its end. */
export function Screen() {
  const words = dayWords.now().trip;
  const context = dayContext();
  const [km, setKm] = useState(KM[1] ?? 5);
  const [load, setLoad] = useState<LoadClass>((context && shiftFor(context)?.loadClass) ?? "half");
  const [other, setOther] = useState(false);
  const answer = useWithTrip(context, km, load);
  if (!context) return null;
  const told = answer && tripWords(answer);
  return (
    <Page
      {...DayTop(context, words.title)}
      onSay={() => void say(told ? plain(`${told.word}. ${told.number}`) : words.spoken)}
      narrow
      foot={
        <footer class="acts foot">
          <Key kind="main" waitsFor={answer ? null : core.now().working} onPress={() => addTrip(context, km, load)}>
            {words.add}
          </Key>
        </footer>
      }
    >
      <section
        class={`verdict ${answer?.verdict === "short" ? "short" : answer?.verdict === "tight" ? "tight" : ""}`}
        aria-live="polite"
      >
        {answer && told && (
          <>
            <Mark state={answer.verdict} size={76} />
            <div>
              <b>{told.word}</b>
              <p>
                <Say text={told.number} />
              </p>
            </div>
          </>
        )}
      </section>
      <section class="ask">
        <h2>
          {words.howFar}
          <small>{dayWords.now().hold.km}</small>
        </h2>
        <KeyRow
          asks={words.howFar}
          chosen={km}
          onPick={setKm}
          choices={KM.map((value) => ({ value, word: figures(value), figure: true }))}
        >
          <Key
            kind="alt"
            chosen={!KM.includes(km)}
            onPress={() => setOther(true)}
            says={joined(!KM.includes(km) && figures(km), core.now().pad.another)}
          >
            {KM.includes(km) ? <Icon of={pad} /> : <span class="fig">{figures(km)}</span>}
          </Key>
        </KeyRow>
      </section>
      <section class="ask">
        <h2>{words.load}</h2>
        <KeyRow
          asks={words.load}
          chosen={load}
          onPick={setLoad}
          choices={LOADS.map(({ value, icon }) => ({ value, icon, word: dayWords.now().load[value] }))}
        />
      </section>
      {other && (
        <NumberPad
          title={words.howFar}
          unit={dayWords.now().hold.km}
          least={1}
          most={100}
          onClose={() => setOther(false)}
          onKeep={(value) => {
            setKm(value);
            setOther(false);
          }}
        />
      )}
    </Page>
  );
}

function tripWords(answer: DayAnswer): { word: string; number: string } {
  const words = dayWords.now().trip;
  const { p10, p50 } = answer.kmLeft;
  const hill = answer.stuck && hillOf(answer, nowUtcMs.value);
  if (hill) return { word: words.no, number: hillWords(core.now(), hill) };
  if (answer.verdict === "enough") return { word: words.yes, number: words.after(kmLeft(p50)) };
  if (answer.verdict === "tight")
    return { word: core.now().states.tight, number: words.between(kmLeft(p50), kmMissing(-p10)) };
  if (answer.verdict === "short") return { word: words.no, number: words.under(kmMissing(-p50)) };
  return { word: core.now().states.notKnown, number: "" };
}

type LoadClass = Shift["loadClass"];

/** kg put on before the trip, against what is still on board at the end of the round. */
function loadChangeKg({ vehicle }: DayContext, round: Round, shift: Shift, to: LoadClass): number {
  const fullKg = vehicle.fullLoadKg;
  const onBoardKg = round.parts.reduce(
    (kg, part) => Math.max(0, kg + (part.kind === "stop" ? part.payloadChangeKg : 0)),
    shift.loadKg ?? LOAD_SHARE[shift.loadClass] * fullKg,
  );
  return LOAD_SHARE[to] * fullKg - onBoardKg;
}

/** There and back with a load of its own, at the end of the round. */
function withTrip(round: Round, km: number, loadKg: number): Round {
  const { name } = dayWords.now().trip;
  const like = round.parts.findLast((part): part is LegPart => part.kind === "leg");
  const trip: LegPart = {
    ...(like ?? {
      kind: "leg",
      surface: "wornAsphalt",
      surroundings: "town",
      stopsPerKm: 1.5,
    }),
    kind: "leg",
    name,
    km,
    minutes: Math.max(1, Math.round((km / MEAN_KMH) * 60)),
    climbM: 0,
    dropM: 0,
    headingDeg: null,
  };
  return { ...round, parts: [...round.parts, loadStop(name, loadKg), trip] };
}

/** The answer of the day with the trip; none while that of another trip stands. */
function useWithTrip(context: DayContext | null, km: number, load: LoadClass): DayAnswer | null {
  const [told, setTold] = useState<{ readonly of: string; readonly answer: DayAnswer } | null>(null);
  const of = `${context?.vehicle.id} ${km} ${load}`;
  const known = context ? answers.value.get(context.vehicle.id) : undefined;
  const shift = context && shiftFor(context);
  const round = roundOf(shift?.roundId ?? null);
  useEffect(() => {
    if (!known || !context || !round || !shift) return;
    const stop = new AbortController();
    const longer = withTrip(round, km, loadChangeKg(context, round, shift, load));
    const asked = { ...known.case, rounds: [...known.case.rounds.filter((one) => one.id !== round.id), longer] };
    askDay("answerDay", asked, stop.signal).then(
      (answer) => setTold({ of, answer }),
      (problem: unknown) => {
        if (!stop.signal.aborted) throw problem;
      },
    );
    return () => stop.abort();
  }, [known, round, shift?.id, of]);
  return told?.of === of ? told.answer : null;
}

const loadStop = (name: string, kg: number): Round["parts"][number] => ({
  kind: "stop",
  name,
  minutes: 1,
  shade: "open",
  sideDeg: null,
  payloadChangeKg: kg,
  socketKw: null,
});

/** The day's round with the trip, as a round of its own for this day. */
async function addTrip(context: DayContext, km: number, load: LoadClass): Promise<void> {
  const shift = shiftFor(context);
  const round = roundOf(shift?.roundId ?? null);
  if (!shift || !round) return;
  const words = dayWords.now().trip;
  const trip = withTrip(round, km, loadChangeKg(context, round, shift, load));
  const longer: Round = { ...trip, id: newId(), name: `${round.name} +${figures(km)}`.slice(-80) };
  const kept = await keep(
    () => [
      { kind: "round", put: longer },
      { kind: "shift", put: { ...(shiftFor(context) ?? shift), roundId: longer.id } },
    ],
    words.added,
  );
  if (kept) goBack("today");
}
