import { core } from "../words/core.js";
import { Key } from "./keys.js";

const told = (problem: unknown): string =>
  problem instanceof Error ? (problem.stack ?? problem.message) : String(problem);

/** What a person may hand on: the bug and the browser, nothing that was typed. */
async function shareWhatHappened(problem: unknown): Promise<void> {
  const text = `Noonplug\n${new Date().toISOString()}\n${navigator.userAgent}\n\n${told(problem)}\n`;
  if (navigator.share) {
    await navigator.share({ text }).catch(() => undefined); // closed without sharing: nothing to say
    return;
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
  link.download = "noonplug-what-happened.txt";
  link.click();
  URL.revokeObjectURL(link.href);
}

const isMissingPart = (problem: unknown): boolean =>
  problem instanceof TypeError && /import|fetch|module/i.test(problem.message);

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
          <Key onPress={() => void shareWhatHappened(problem)}>{words.shareWhatHappened}</Key>
        </div>
      </main>
    </div>
  );
}
