import { render } from "preact";
import { useState } from "preact/hooks";
import { DayStrip } from "../../../src/app/parts/DayStrip.js";
import { Icon } from "../../../src/app/parts/Icon.js";
import * as icons from "../../../src/app/parts/icons.js";
import * as more from "../../../src/app/parts/icons-more.js";
import { Mark, type MarkState } from "../../../src/app/parts/Mark.js";
import { Page } from "../../../src/app/parts/Page.js";
import { PlateKey } from "../../../src/app/parts/Plate.js";
import { Hatches } from "../../../src/app/parts/strip-text.js";
import { TodayView } from "../../../src/app/screens/TodayView.js";
import { stripWords } from "../../../src/app/screens/today-words.js";
import { nowUtcMs, sunHours, zone } from "../../../src/app/state.js";
import { core } from "../../../src/app/words/core.js";
import { LANGUAGES } from "../../../src/app/words/format.js";
import { showLanguage, startIn } from "../../../src/app/words/load.js";
import { TODAY } from "../../app/fixtures/today.js";

// Parts on their own, drawn from invented days: what the tests of marks and strips look at. Not part of the app.
const asked = new URLSearchParams(location.search);
const language = LANGUAGES.find((one) => one === asked.get("language")) ?? "en";
document.documentElement.dataset.look = asked.get("look") ?? "day";
document.documentElement.dataset.size = asked.get("size") ?? "1";
const nothing = () => undefined;
const keys = {
  gauge: nothing,
  sky: nothing,
  load: nothing,
  road: nothing,
  oneMore: nothing,
  write: nothing,
  pluggedAllNight: nothing,
  chooseRound: nothing,
  take: nothing,
};

function Today({ state }: { state: string }) {
  const model = TODAY[state];
  const [open, setOpen] = useState(asked.has("help"));
  if (!model) return null;
  return (
    <Page
      title={model.name}
      sub="Wed 10 Feb, 04:10"
      place="today"
      plate={model.plate}
      onSay={nothing}
      help={{ open, toggle: () => setOpen(!open) }}
    >
      <TodayView model={model} keys={keys} helping={open} />
    </Page>
  );
}

const STATES: readonly MarkState[] = ["enough", "tight", "short", "notKnown", "done", "off"];

function Parts() {
  const words = core.now();
  return (
    <div class="specimen">
      <Hatches />
      {(["large", "print", "compact", "card", "row"] as const).map((kind) => (
        <div key={kind}>
          {["enough", "tight", "short", "plugged", "unknown"].map((state) => {
            const model = TODAY[state];
            if (!model?.strip) return null;
            const width = kind === "row" ? 120 : kind === "card" || kind === "compact" ? 360 : 780;
            return (
              <DayStrip key={state} model={model.strip} words={stripWords(words, model)} kind={kind} width={width} />
            );
          })}
        </div>
      ))}
      {[84, 40, 24, 20].map((size) => (
        <p key={size} id={`marks-${size}`} class="ks">
          {STATES.map((state) => (
            <Mark key={state} state={state} size={size} says={state} />
          ))}
        </p>
      ))}
      <p class="ks">
        {Object.entries({ ...icons, ...more }).flatMap(([name, drawing]) =>
          typeof drawing === "object" ? [<Icon key={name} of={drawing} size={40} />] : [],
        )}
      </p>
      <PlateKey number="07" says="07" onPress={nothing} />
    </div>
  );
}

startIn(language, asked.get("digits") === "own" ? "own" : "latin");
showLanguage(language);
zone.value = "UTC";
nowUtcMs.value = Date.UTC(2027, 1, 10, 4, 10);
sunHours.value = { riseH: 6.3, setH: 18.5 };
await core.load();
const place = document.getElementById("app");
const state = asked.get("today");
if (place) render(state ? <Today state={state} /> : <Parts />, place);
