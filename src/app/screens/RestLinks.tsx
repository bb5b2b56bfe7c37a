import { useEffect, useState } from "preact/hooks";
import { plug } from "../parts/icons.js";
import { turnBack } from "../parts/icons-more.js";
import { WayKey } from "../parts/keys.js";
import { go } from "../router.js";
import { restWords } from "../words/rest.js";

/** Under the help of Today: what a driver asks on the way. */
export function RestLinks() {
  const [here, setHere] = useState(false);
  useEffect(() => {
    void restWords.load().then(() => setHere(true));
  }, []);
  if (!here) return null;
  const words = restWords.now();
  return (
    <div class="ways">
      <WayKey icon={plug} title={words.title} onPress={() => go("rest")} />
      <WayKey icon={turnBack} title={words.turnTitle} onPress={() => go("turn")} />
    </div>
  );
}
