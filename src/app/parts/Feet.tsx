import { storageTrouble, trouble } from "../fleet.js";
import { lastDone, takeBack } from "../undo.js";
import { newVersionWaits, notAllKept, otherWindowMoved } from "../update-state.js";
import { core } from "../words/core.js";
import { Key } from "./keys.js";
import { Say } from "./Say.js";

/** Lines above the places: what was just kept, with its way back, and a new version that waits. Never a box over the page. */
export function Feet({ quiet = false }: { quiet?: boolean }) {
  const words = core.now();
  const done = quiet ? null : lastDone.value;
  const problem = trouble.value ?? storageTrouble.value;
  return (
    <div class="feet" role="status">
      {problem && <p class="foot-line">{troubleWords(problem.code)}</p>}
      {notAllKept.value && <p class="foot-line">{words.notAllKept}</p>}
      {done ? (
        <Line text={done.says} word={done.undo ? words.keys.undo : words.keys.close} onPress={() => void takeBack()} />
      ) : (
        (newVersionWaits.value || otherWindowMoved.value) && (
          <Line
            text={otherWindowMoved.value ? words.otherTabNew : words.newVersion}
            word={words.startIt}
            onPress={() => void import("../update.js").then(({ startNewVersion }) => startNewVersion())}
          />
        )
      )}
    </div>
  );
}

function Line({ text, word, onPress }: { text: string; word: string; onPress: () => void }) {
  return (
    <div class="foot-line">
      <p>
        <Say text={text} />
      </p>
      <Key onPress={onPress}>{word}</Key>
    </div>
  );
}

function troubleWords(code: string): string {
  const words = core.now();
  if (code === "storageFull") return words.notKept;
  if (code === "storageBlocked" || code === "storageNewer") return words.closeOthers;
  return code.startsWith("storage") ? words.storageGone : words.notKeptWhy;
}

/** On every screen of the yard that is not real. */
export function DemoBand() {
  const words = core.now();
  return (
    <div class="demo-band">
      <p>{words.demo}</p>
      <Key onPress={() => import("../demo.js").then(({ endDemo }) => endDemo())}>{words.endDemo}</Key>
    </div>
  );
}
