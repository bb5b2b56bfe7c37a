import { core } from "../words/core.js";
import { Key } from "./keys.js";

const told = (problem: unknown): string =>
  problem instanceof Error ? (problem.stack ?? problem.message) : String(problem);

/** What a person may hand on: the bug and the browser, nothing that was typed. */
function shareWhatHappened(problem: unknown): void {
  const text = `Noonplug\n${new Date().toISOString()}\n${navigator.userAgent}\n\n${told(problem)}\n`;
  void import("../files.js").then(
    ({ saveFile }) => saveFile("noonplug-what-happened.txt", text, "text/plain"),
    () => undefined, // a part that has not come either
  );
}

const isMissingPart = (problem: unknown): boolean => /TypeError.*(import|fetch|module)/i.test(String(problem)); // a worker hands on its text alone

/** The page stopped; what was written is kept. */
export function Broke({ problem, onGoOn }: { problem: unknown; onGoOn: () => void }) {
  const words = core.now();
  return (
    <div class="page">
      <main class="mid narrow">
        <div class="empty" role="alert">
          <h1>{isMissingPart(problem) ? words.missingPart : words.broke}</h1>
          <Key kind="main" onPress={onGoOn}>
            {words.goOn}
          </Key>
          <Key onPress={() => shareWhatHappened(problem)}>{words.shareWhatHappened}</Key>
        </div>
      </main>
    </div>
  );
}
