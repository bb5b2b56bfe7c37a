import "../parts/pads.css";
import "./start.css";
import { useState } from "preact/hooks";
import { startYard } from "../first/begin.js";
import { Feet } from "../parts/Feet.js";
import { Icon } from "../parts/Icon.js";
import { type Drawing, slate, speak, vehicle } from "../parts/icons.js";
import { eye, spanner } from "../parts/icons-more.js";
import { Key } from "../parts/keys.js";
import { go, goInstead } from "../router.js";
import { set, settings } from "../settings.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { LANGUAGE_NAMES, LANGUAGES, type Language, usualDigits } from "../words/format.js";
import { turnTo } from "../words/load.js";
import { startWords } from "../words/start.js";

/** Four ways in; language and voice on the same page; no account, no permission asked. */
export function Screen() {
  const words = startWords.now();
  const app = core.now();
  const { vehicle: mine, yard, kits, look } = words.ways;
  return (
    <div class="page start">
      <header class="hero">
        <div>
          <h1>{app.app}</h1>
          <p>{app.question}</p>
        </div>
        <svg class="half-sun" viewBox="0 0 124 100" aria-hidden="true">
          <path d="M0 62a62 62 0 0 1 124 0z" />
          <path d="M28 62h15v38H28zM81 62h15v38H81z" />
        </svg>
        <p class="promise">{words.promise.join(" ")}</p>
      </header>
      <main class="mid">
        <Languages />
        <div class="ways first">
          <Way icon={vehicle} told={mine} main onPress={() => go("five-taps")} />
          <Way icon={slate} told={yard} onPress={() => startYard(words.yardName)} />
          <Way icon={spanner} told={kits} onPress={beginKits} />
          <Way icon={eye} told={look} onPress={() => import("../demo.js").then(({ startDemo }) => startDemo())} />
        </div>
        <p class="stays">{words.staysHere}</p>
      </main>
      <Feet />
    </div>
  );
}

function beginKits(): void {
  set({ role: "fitter" });
  goInstead("kit");
}

function Way(props: { icon: Drawing; told: { title: string; sub: string }; main?: boolean; onPress: () => unknown }) {
  return (
    <Key kind={props.main ? "way main" : "way"} onPress={props.onPress}>
      <Icon of={props.icon} size={46} />
      <span class="what">
        <b>{props.told.title}</b>
        <span>{props.told.sub}</span>
      </span>
    </Key>
  );
}

/** The phone's language first; the rest behind one more key. */
function Languages() {
  const words = startWords.now();
  const [all, setAll] = useState(false);
  const { language } = settings.value;
  const [first, second] = LANGUAGES.filter((one) => one !== language);
  const shown: readonly Language[] = all ? LANGUAGES : [language, first ?? "en", second ?? "hi"];
  return (
    <fieldset class="ks langs" aria-label={words.languages}>
      {shown.map((one) => (
        <Key key={one} chosen={one === language} onPress={() => choose(one)}>
          <span lang={one}>{LANGUAGE_NAMES[one]}</span>
        </Key>
      ))}
      {!all && (
        <Key onPress={() => setAll(true)} says={words.moreLanguages}>
          …
        </Key>
      )}
      <Key onPress={() => void say(words.spoken)} says={words.voice}>
        <Icon of={speak} />
      </Key>
    </fieldset>
  );
}

function choose(language: Language): void {
  turnTo(language, usualDigits(language)).then(
    () => set({ language, digits: null }),
    () => undefined, // its words have not come: the page stays as it is
  );
}
