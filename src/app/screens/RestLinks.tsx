import { useEffect, useState } from "preact/hooks";
import { current } from "../answers.js";
import { bright, plug } from "../parts/icons.js";
import { turnBack } from "../parts/icons-more.js";
import { WayKey } from "../parts/keys.js";
import { go } from "../router.js";
import { logWords } from "../words/log.js";
import { restWords } from "../words/rest.js";

/** Under the help of Today: what a driver asks on the way. */
export function RestLinks() {
  const [here, setHere] = useState(false);
  const [log, setLog] = useState(false);
  const vehicle = current.value;
  useEffect(() => {
    void restWords.load().then(() => setHere(true));
    void logWords.load().then(
      () => setLog(true),
      () => undefined, // not over the network yet
    );
  }, []);
  if (!here) return null;
  const words = restWords.now();
  return (
    <div class="ways">
      <WayKey icon={plug} title={words.title} onPress={() => go("rest")} />
      <WayKey icon={turnBack} title={words.turnTitle} onPress={() => go("turn")} />
      {log && vehicle && <WayKey icon={bright} title={logWords.now().title} onPress={() => go(`log/${vehicle.id}`)} />}
    </div>
  );
}
