import { render } from "preact";
import { App, showScreens } from "./App.js";
import { keepAnswering } from "./answers.js";
import { followSun } from "./look.js";
import { digitsOf, settings } from "./settings.js";
import { openRecords, settleRecords } from "./shelf.js";
import { core } from "./words/core.js";
import { showLanguage, startIn } from "./words/load.js";

async function start(place: HTMLElement): Promise<void> {
  const { language } = settings.value;
  startIn(language, digitsOf(settings.value));
  showLanguage(language);
  await Promise.all([core.load(), openRecords()]);
  keepAnswering();
  followSun();
  await showScreens();
  place.replaceChildren();
  render(<App />, place);
  setTimeout(() => void settleRecords(), 300); // the strict door, once the first screen stands
  setTimeout(
    () =>
      void import("./learning.js").then(
        ({ keepLearning }) => keepLearning(),
        () => undefined,
      ),
    4000,
  ); // beside, when the answers stand
  setTimeout(() => void import("./update.js").then(({ watchForNewVersion }) => watchForNewVersion()), 1500); // after the first answer: installing must not slow it down
}

const place = document.getElementById("app");
if (place) void start(place);
