import { lastDone, takeBack } from "../undo.js";
import { newVersionWaits, notAllKept, otherWindowMoved, startNewVersion } from "../update.js";
import { core } from "../words/core.js";
import { Key } from "./keys.js";
import { Say } from "./Say.js";

/** Lines above the places: what was just kept, with its way back, and a new version that waits. Never a box over the page. */
export function Feet() {
  const words = core.now();
  const done = lastDone.value;
  return (
    <div class="feet" role="status">
      {notAllKept.value && <p class="foot-line">{words.notAllKept}</p>}
      {done ? (
        <Line text={done.says} word={words.keys.undo} onPress={() => void takeBack()} />
      ) : (
        (newVersionWaits.value || otherWindowMoved.value) && (
          <Line
            text={otherWindowMoved.value ? words.otherTabNew : words.newVersion}
            word={words.startIt}
            onPress={startNewVersion}
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
