import "./rest.css";
import { useEffect, useState } from "preact/hooks";
import type { AdviceReason, BreakAdvice, ChoiceEnd } from "../../calc/day/advice.js";
import { planNow, withBreakNow } from "../../records/map/break.js";
import { utcMsAt } from "../../units/zone.js";
import { askDay } from "../../work/ask-day.js";
import { type Answered, answers, type Case } from "../answers.js";
import { book, keep, listed, newId, skyOn } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { DayStrip } from "../parts/DayStrip.js";
import { Fitted } from "../parts/Fitted.js";
import { Icon } from "../parts/Icon.js";
import { bright, type Drawing, plug, trip } from "../parts/icons.js";
import { turnBack } from "../parts/icons-more.js";
import { KeyRow, WayKey } from "../parts/keys.js";
import { Mark } from "../parts/Mark.js";
import { Page } from "../parts/Page.js";
import { kmLeft, kmMissing, tenMinutes } from "../parts/rounding.js";
import type { StripModel } from "../parts/strip-model.js";
import { go, goBack } from "../router.js";
import { nowUtcMs } from "../state.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { plain } from "../words/format.js";
import { restWords } from "../words/rest.js";
import { DayTop } from "./DayTop.js";
import { type DayContext, dayContext, modelOf } from "./day-context.js";

import { stripOf } from "./today-of.js";
import { stripWords } from "./today-words.js";
import { useTurn } from "./use-turn.js";

export const words = [restWords];

type Choice = "plug" | "wait" | "go";
const CHOICES: readonly Choice[] = ["plug", "wait", "go"];
const DRAWINGS: Record<Choice, Drawing> = { plug, wait: bright, go: trip };
/** Height of the picture: three choices and the turn must fit below it at 360 x 640. */
const PICTURE_PX = 146;
const COMPACT_PX = 186;
const MINUTES = [30, 60, 90, 120];
const USUAL_SOCKET_KW = 2; // a house socket; common practice, no source

/** Plug, wait or go? The rest of the day is worked out for each of the three. */
export function Screen() {
  const told = restWords.now();
  const [minutes, setMinutes] = useState(60);
  const context = dayContext();
  const known = context ? answers.value.get(context.vehicle.id) : undefined;
  const advice = useAdvice(context, known, minutes);
  const turn = useTurn(known, 0);
  if (!context) return null;
  const best = advice?.best ?? null;
  const tillH = tenMinutes(nowHour(context) + minutes / 60, "on");
  const headline = best === "plug" ? told.plugTill(tillH) : best === "wait" ? told.waitTill(tillH) : told.goNow;
  const reason = advice ? told[REASONS[advice.reason]] : core.now().working;
  return (
    <Page {...DayTop(context, told.title)} onSay={() => void say(plain(`${headline}. ${reason}`))} narrow>
      <section class="rest-says" aria-live="polite">
        {best && <Icon of={DRAWINGS[best]} size={44} />}
        <div>
          {best && <b>{headline}</b>}
          <p>{reason}</p>
        </div>
      </section>
      <Picture context={context} known={known} advice={advice} />
      <section class="ask rest-long">
        <KeyRow
          asks={told.howLong}
          chosen={minutes}
          onPick={setMinutes}
          choices={MINUTES.map((value) => ({ value, word: told.minutes(value) }))}
        />
      </section>
      <div class="ways rest-ways">
        {CHOICES.map((choice) => (
          <Option
            key={choice}
            choice={choice}
            end={advice?.choices[choice]}
            best={choice === best}
            shade={advice?.stand === "shade"}
            socketKw={socketKw(context)}
            onPress={() => take(context, known, choice, minutes)}
          />
        ))}
        <WayKey
          icon={turnBack}
          title={
            turn && !known?.answer.missing.includes("reading") ? told.turnBack(Math.floor(turn.km)) : told.turnTitle
          }
          onPress={() => go("turn")}
        />
      </div>
      {known?.answer.topUp.code === "cannotCharge" && <Caution id="cold" text={core.now().coldSet} />}
      {skyOn(context.yard.id, context.date)?.wet && <Caution id="flood" text={told.flood} />}
    </Page>
  );
}

function Option(props: {
  readonly choice: Choice;
  readonly end: ChoiceEnd | undefined;
  readonly best: boolean;
  /** The place to wait is in the shade. */
  readonly shade: boolean;
  readonly socketKw: number;
  readonly onPress: () => void;
}) {
  const told = restWords.now();
  const { choice, end, best, shade } = props;
  const subs = { plug: told.socket(props.socketKw), wait: told.sameTime, go: told.noBreak };
  const km = end?.likelyKm ?? 0;
  return (
    <WayKey
      picture={<Mark state={end?.verdict ?? "notKnown"} size={44} />}
      title={choice === "wait" && shade ? told.shade : told[choice]}
      sub={subs[choice]}
      brings={end ? told.spare(km < 0 ? -kmMissing(-km) : kmLeft(km)) : ""}
      {...(best ? { best: told.best } : {})}
      onPress={props.onPress}
    />
  );
}

const REASONS = {
  nothingNeeded: "goReason",
  sunIsEnough: "waitReason",
  plugNeeded: "plugReason",
  setNearlyFull: "nearlyFull",
  tooCold: "tooCold",
  tooHot: "tooHot",
  notEnough: "noneReason",
} as const satisfies Record<AdviceReason, string>;

const nowHour = ({ yard, date }: DayContext): number => (nowUtcMs.value - utcMsAt(date, 0, yard.zone)) / 3_600_000;
const socketKw = ({ yard }: DayContext): number => {
  const all = listed(book.value, "socket").filter((socket) => socket.yardId === yard.id);
  return all.length > 0 ? Math.max(...all.map((socket) => socket.limitKw)) : USUAL_SOCKET_KW;
};

/** The running shift with a break at this moment, and its round; null where there is nothing to change. */
function changeOf(context: DayContext, known: Answered, choice: Choice, minutes: number) {
  const given = { ...known.case, nowUtcMs: nowUtcMs.value };
  const plan = planNow(given);
  if (choice === "go" || !plan) return null;
  const changed = withBreakNow<Case>(given, plan, {
    minutes,
    shade: "open",
    socketKw: choice === "plug" ? socketKw(context) : null,
    name: restWords.now()[choice],
  });
  const [round, shift] = [changed.rounds.at(-1), changed.shifts.at(-1)];
  return round && shift ? { round, shift } : null;
}

/** The choice becomes part of the day: a round of its own for this shift, with the break in it. */
async function take(context: DayContext, known: Answered | undefined, choice: Choice, minutes: number): Promise<void> {
  if (!known) return goBack("today");
  const change = changeOf(context, known, choice, minutes);
  if (!change) return goBack("today");
  const round = { ...change.round, id: newId(), name: `${change.round.name}, ${restWords.now()[choice]}`.slice(0, 80) };
  const kept = await keep(
    [
      { kind: "round", put: round },
      { kind: "shift", put: { ...change.shift, roundId: round.id } },
    ],
    core.now().kept,
  );
  if (kept) goBack("today");
}

function useAdvice(context: DayContext | null, known: Answered | undefined, minutes: number): BreakAdvice | null {
  const [advice, setAdvice] = useState<BreakAdvice | null>(null);
  const kw = context ? socketKw(context) : USUAL_SOCKET_KW;
  useEffect(() => {
    if (!known) return;
    const stop = new AbortController();
    const given = { ...known.case, nowUtcMs: nowUtcMs.peek() };
    askDay("breakNow", { given, minutes, socketKw: kw }, stop.signal).then(setAdvice, (problem: unknown) => {
      if (!stop.signal.aborted) throw problem;
    });
    return () => stop.abort();
  }, [known, minutes, kw]);
  return advice;
}

/** The best choice drawn, the other dashed. */
function Picture(props: {
  readonly context: DayContext;
  readonly known: Answered | undefined;
  readonly advice: BreakAdvice | null;
}) {
  const { context, known, advice } = props;
  const model = modelOf(context.vehicle.id);
  const best = advice?.best;
  const answer = best && advice.choices[best].answer;
  if (!known || !model || !answer || answer.leaveUtcMs === null) return <div class="rest-picture" />;
  const strip = stripOf(answer, known.case, nowUtcMs.value);
  const other = advice.choices[best === "plug" ? "wait" : "go"].answer;
  const before: StripModel | null = best !== "go" ? stripOf(other, known.case, nowUtcMs.value) : null;
  return (
    <>
      <Fitted class="rest-picture" guess={{ width: Math.min(innerWidth, 560), height: PICTURE_PX }}>
        {(box) => (
          <DayStrip
            model={strip}
            words={{ ...stripWords(core.now(), model), flag: null, start: null }}
            kind="compact"
            taller={PICTURE_PX - COMPACT_PX}
            width={box.width}
            before={before}
          />
        )}
      </Fitted>
      {before && <p class="rest-dashed">{restWords.now().ifWait}</p>}
    </>
  );
}
