import { useEffect, useState } from "preact/hooks";
import { bright } from "../../parts/icons.js";
import { WayKey } from "../../parts/keys.js";
import { go } from "../../router.js";
import { careWords } from "../../words/care.js";
import { logWords } from "../../words/log.js";
import { setDrawing } from "../edit/drawings.js";

/** On a vehicle's sheet: how far its guesses missed, and what its set asks for. */
export function CareLink({ vehicleId }: { vehicleId: string }) {
  const [here, setHere] = useState(false);
  useEffect(() => {
    void Promise.all([careWords.load(), logWords.load()]).then(
      () => setHere(true),
      () => undefined, // not over the network yet
    );
  }, []);
  if (!here) return null;
  return (
    <>
      <WayKey icon={bright} title={logWords.now().title} onPress={() => go(`log/${vehicleId}`)} />
      <WayKey icon={setDrawing} title={careWords.now().title} onPress={() => go(`care/${vehicleId}`)} />
    </>
  );
}
