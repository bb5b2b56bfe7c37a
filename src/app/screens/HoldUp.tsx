import "./hold.css";
import { useEffect } from "preact/hooks";
import { Icon } from "../parts/Icon.js";
import { back, speak } from "../parts/icons.js";
import { Key } from "../parts/keys.js";
import { Mark } from "../parts/Mark.js";
import { Plate } from "../parts/Plate.js";
import { Say } from "../parts/Say.js";
import { goBack } from "../router.js";
import { here } from "../state.js";
import { hasVoice, say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { figures, plain, signed, weekday } from "../words/format.js";
import { dayContext, modelOf } from "./day-context.js";
import type { Said, TodayModel } from "./today-model.js";
import { stuckWords, verdictSentence, verdictWords } from "./today-words.js";

export const words = [dayWords];

/** Read it for me: at arm's length, with the phone's voice when it has one. */
export function Screen() {
  const words = dayWords.now().hold;
  const context = dayContext();
  const model = context && modelOf(context.vehicle.id);
  const sentence = model ? verdictSentence(core.now(), model) : "";
  useEffect(() => {
    if (sentence) say(sentence);
  }, [sentence]);
  if (!model) return null;
  return (
    <div class="page hold">
      <header>
        <Plate number={model.plate} size="l" />
        <Mark state={model.said.verdict} size={150} />
      </header>
      <main class="mid">
        <h1>{verdictWords(core.now(), model.said).word}</h1>
        <KmLeft said={model.said} />
        <Lines model={model} />
      </main>
      <footer class="acts foot hold-acts">
        {hasVoice() ? (
          <Key kind="main" onPress={() => void say(sentence)}>
            <Icon of={speak} size={32} />
            {words.say}
          </Key>
        ) : (
          <p class="hint">{words.noVoice}</p>
        )}
        <Key onPress={() => goBack("today")} says={core.now().keys.back}>
          <Icon of={back} size={30} />
        </Key>
      </footer>
    </div>
  );
}

function KmLeft({ said }: { said: Said }) {
  const words = dayWords.now().hold;
  const shown =
    said.verdict === "enough"
      ? { figure: figures(said.km), unit: words.kmLeft }
      : said.verdict === "tight"
        ? { figure: signed(said.upKm), unit: words.km }
        : said.verdict === "short"
          ? { figure: figures(said.km), unit: words.kmShort }
          : null;
  if (said.verdict === "short" && said.km === 0) return null;
  if (!shown) return null;
  return (
    <p class="hold-number">
      <b class="fig">{shown.figure}</b>
      <span>{shown.unit}</span>
    </p>
  );
}

function Lines({ model }: { model: TodayModel }) {
  const words = dayWords.now().hold;
  const { said, date } = model;
  const home = date > here.value.date ? words.homeOther(weekday(date)) : words.homeToday;
  const second = verdictWords(core.now(), said).second;
  const first = said.verdict === "notKnown" ? words.readGauge : home;
  const then =
    said.verdict === "enough"
      ? words.badDay(said.badKm)
      : said.verdict === "tight"
        ? core.now().orKm(said.upKm, said.downKm)
        : said.verdict === "short"
          ? said.fromH === null
            ? stuckWords(core.now(), model)
            : words.from(said.fromH)
          : plain(second ?? "");
  return (
    <>
      <p class="hold-first">{first}</p>
      <p class="hold-then">
        <Say text={then} />
      </p>
    </>
  );
}
