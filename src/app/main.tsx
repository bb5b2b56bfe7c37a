import { effect } from "@preact/signals";
import { render } from "preact";
import { App, showScreens } from "./App.js";
import { answers, current, keepAnswering } from "./answers.js";
import { followSun } from "./look.js";
import { digitsOf, settings } from "./settings.js";
import { openRecords, settleRecords } from "./shelf.js";
import { core } from "./words/core.js";
import { showLanguage, startIn } from "./words/load.js";

async function start(place: HTMLElement): Promise<void> {
  const { language } = settings.value;
  startIn(language, digitsOf(settings.value));
  showLanguage(language);
  await Promise.all([core.load(), openRecords().then(keepAnswering)]); // the answer does not wait for the words
  followSun();
  await showScreens();
  place.replaceChildren();
  render(<App />, place);
  // Beside the first screen: where a part has not come over the network, the screen stays.
  const beside = (what: () => Promise<void>) => () => void what().catch(() => undefined);
  afterFirstAnswer(beside(settleRecords)); // the strict door, once the first screen stands
  setTimeout(
    beside(async () => (await import("./update.js")).watchForNewVersion()),
    1500,
  ); // installing must not slow the first answer down
  setTimeout(
    beside(async () => (await import("./learning.js")).keepLearning()),
    4000,
  ); // when the answers stand
}

const LONGEST_WAIT_MS = 3000;
/** Once the vehicle that is spoken of has its answer, or there is none to wait for. */
function afterFirstAnswer(go: () => void): void {
  let done = false;
  const once = () => {
    if (!done) setTimeout(go, 50);
    done = true;
  };
  setTimeout(once, LONGEST_WAIT_MS);
  effect(() => {
    if (current.value === null || answers.value.has(current.value.id)) once();
  });
}

const place = document.getElementById("app");
if (place) void start(place);
