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
  // Beside the first screen: where a part has not come over the network, the screen stays.
  const beside = (atMs: number, what: () => Promise<void>) => setTimeout(() => what().catch(() => undefined), atMs);
  beside(300, settleRecords); // the strict door, once the first screen stands
  beside(1500, async () => (await import("./update.js")).watchForNewVersion()); // after the first answer: installing must not slow it down
  beside(4000, async () => (await import("./learning.js")).keepLearning()); // when the answers stand
}

const place = document.getElementById("app");
if (place) void start(place);
