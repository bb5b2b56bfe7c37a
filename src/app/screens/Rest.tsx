import "./rest.css";
import { useEffect, useState } from "preact/hooks";
import type { DayAnswer } from "../../calc/day/answer.js";
import { withBreak } from "../../records/map/break.js";
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
import { type DayContext, dayContext, modelOf, shiftFor } from "./day-context.js";
import { turnBackOf } from "./range.js";
import { stripOf } from "./today-of.js";
import { stripWords } from "./today-words.js";

export const words = [restWords];

type Choice = "plug" | "wait" | "go";
const CHOICES: readonly Choice[] = ["plug", "wait", "go"];
const DRAWINGS: Record<Choice, Drawing> = { plug, wait: bright, go: trip };
const MINUTES = [30, 60, 90, 120];
const USUAL_SOCKET_KW = 2; // a house socket; common practice, no source
type Told = Partial<Record<Choice, DayAnswer>>;

/** Plug, wait or go? The rest of the day is worked out for each of the three. */
export function Screen() {
  const told = restWords.now();
  const [minutes, setMinutes] = useState(60);
  const context = dayContext();
  const known = context ? answers.value.get(context.vehicle.id) : undefined;
  const found = useChoices(context, known, minutes);
  if (!context) return null;
  const best = bestOf(found);
  const tillH = tenMinutes(nowHour(context) + minutes / 60, "on");
  const headline = best === "plug" ? told.plugTill(tillH) : best === "wait" ? told.waitTill(tillH) : told.goNow;
  const reason = reasonOf(found, best);
  return (
    <Page {...DayTop(context, told.title)} onSay={() => void say(plain(`${headline}. ${reason}`))} narrow>
      <section class="rest-says" aria-live="polite">
        {best && (
          <>
            <Icon of={DRAWINGS[best]} size={52} />
            <div>
              <b>{headline}</b>
              <p>{reason}</p>
            </div>
          </>
        )}
      </section>
      <Picture context={context} known={known} found={found} best={best} />
      <section class="ask">
        <h2>{told.howLong}</h2>
        <KeyRow
          asks={told.howLong}
          chosen={minutes}
          onPick={setMinutes}
          choices={MINUTES.map((value) => ({ value, word: told.minutes(value) }))}
        />
      </section>
      <div class="ways spaced">
        {CHOICES.map((choice) => (
          <Option
            key={choice}
            choice={choice}
            answer={found[choice]}
            best={choice === best}
            socketKw={socketKw(context)}
            onPress={() => void take(context, known, choice, minutes)}
          />
        ))}
        {known && (
          <WayKey
            icon={turnBack}
            title={told.turnBack(turnBackOf(known, nowUtcMs.value, 0))}
            onPress={() => go("turn")}
          />
        )}
      </div>
      {known?.answer.topUp.code === "cannotCharge" && <Caution id="cold" text={told.cold} />}
      {skyOn(context.yard.id, context.date)?.wet && <Caution id="flood" text={told.flood} />}
    </Page>
  );
}

function Option(props: {
  readonly choice: Choice;
  readonly answer: DayAnswer | undefined;
  readonly best: boolean;
  readonly socketKw: number;
  readonly onPress: () => void;
}) {
  const told = restWords.now();
  const { choice, answer, best } = props;
  const subs = { plug: told.socket(props.socketKw), wait: told.sameTime, go: told.noBreak };
  const km = answer ? kmAtHome(answer) : 0;
  return (
    <WayKey
      picture={<Mark state={answer ? answer.verdict : "notKnown"} size={44} />}
      title={told[choice]}
      sub={subs[choice]}
      brings={answer ? told.spare(km < 0 ? -kmMissing(-km) : kmLeft(km)) : ""}
      {...(best ? { best: told.best } : {})}
      onPress={props.onPress}
    />
  );
}

/** km above the line on coming home: what a break changes, where the lowest point may lie behind it. */
const kmAtHome = ({ home, reserveShare, usableWh, whPerKm }: DayAnswer): number =>
  whPerKm > 0 ? ((home.p50 - reserveShare) * usableWh) / whPerKm : 0;

const RANK = { enough: 0, tight: 1, short: 2, notKnown: 3 };
/** The least trouble that is enough: go on, else wait, else plug; where none is enough, the one with the most left. */
function bestOf(found: Told): Choice | null {
  const known = (["go", "wait", "plug"] as const).filter((choice) => found[choice]);
  if (known.length < CHOICES.length) return null;
  const rank = (choice: Choice) => RANK[found[choice]?.verdict ?? "notKnown"];
  const least = Math.min(...known.map(rank));
  const fit = known.filter((choice) => rank(choice) === least);
  if (least === 0) return fit[0] ?? null;
  const left = (choice: Choice) => found[choice]?.home.p10 ?? 0;
  return fit.reduce((best, choice) => (left(choice) > left(best) + 0.01 ? choice : best));
}

function reasonOf(found: Told, best: Choice | null): string {
  const told = restWords.now();
  if (!best) return core.now().working;
  if (found[best]?.verdict !== "enough") return told.noneReason;
  return best === "plug" ? told.plugReason : best === "wait" ? told.waitReason : told.goReason;
}

const nowHour = ({ yard, date }: DayContext): number => (nowUtcMs.value - utcMsAt(date, 0, yard.zone)) / 3_600_000;
const socketKw = ({ yard }: DayContext): number => {
  const all = listed(book.value, "socket").filter((socket) => socket.yardId === yard.id);
  return all.length > 0 ? Math.max(...all.map((socket) => socket.limitKw)) : USUAL_SOCKET_KW;
};

/** The case with a break put into its round at this moment. */
function caseWith(context: DayContext, known: Answered, choice: Choice, minutes: number): Case {
  const shift = shiftFor(context);
  const round = known.case.rounds.find((one) => one.id === shift?.roundId);
  if (choice === "go" || !shift || !round) return known.case;
  const since = nowHour(context) * 60 - shift.leaveMinute;
  const taken = { minutes, shade: "open", socketKw: choice === "plug" ? socketKw(context) : null } as const;
  const changed = withBreak(round, since, {
    ...taken,
    name: choice === "plug" ? restWords.now().plug : restWords.now().wait,
  });
  return { ...known.case, rounds: known.case.rounds.map((one) => (one.id === round.id ? changed : one)) };
}

/** The choice becomes part of the day: a round of its own for this day, with the break in it. */
async function take(context: DayContext, known: Answered | undefined, choice: Choice, minutes: number): Promise<void> {
  const shift = shiftFor(context);
  if (choice === "go" || !known || !shift) return goBack("today");
  const changed = caseWith(context, known, choice, minutes).rounds.find((one) => one.id === shift.roundId);
  if (!changed) return;
  const round = { ...changed, id: newId(), name: `${changed.name}, ${restWords.now()[choice]}`.slice(0, 80) };
  const kept = await keep(
    [
      { kind: "round", put: round },
      { kind: "shift", put: { ...shift, roundId: round.id } },
    ],
    core.now().kept,
  );
  if (kept) goBack("today");
}

function useChoices(context: DayContext | null, known: Answered | undefined, minutes: number): Told {
  const [found, setFound] = useState<Told>({});
  useEffect(() => {
    if (!context || !known) return;
    const stop = new AbortController();
    const asked = CHOICES.map((choice) => askDay("answerDay", caseWith(context, known, choice, minutes), stop.signal));
    Promise.all(asked).then(
      ([plugged, waited, gone]) =>
        setFound({ ...(plugged && waited && gone ? { plug: plugged, wait: waited, go: gone } : {}) }),
      (problem: unknown) => {
        if (!stop.signal.aborted) throw problem;
      },
    );
    return () => stop.abort();
  }, [known, minutes]);
  return found;
}

/** The best choice drawn, the other dashed. */
function Picture(props: {
  readonly context: DayContext;
  readonly known: Answered | undefined;
  readonly found: Told;
  readonly best: Choice | null;
}) {
  const { context, known, found, best } = props;
  const model = modelOf(context.vehicle.id);
  const answer = best ? found[best] : undefined;
  if (!known || !model || !answer || !best || answer.leaveUtcMs === null) return <div class="rest-picture" />;
  const strip = stripOf(answer, caseWith(context, known, best, 60), nowUtcMs.value);
  const other = best === "plug" ? found.wait : found.go;
  const before: StripModel | null = best !== "go" && other ? stripOf(other, known.case, nowUtcMs.value) : null;
  return (
    <>
      <Fitted class="rest-picture" guess={{ width: Math.min(innerWidth, 560), height: 206 }}>
        {(box) => (
          <DayStrip
            model={strip}
            words={stripWords(core.now(), model)}
            kind="compact"
            width={box.width}
            before={before}
          />
        )}
      </Fitted>
      {before && <p class="rest-dashed">{restWords.now().ifWait}</p>}
    </>
  );
}
