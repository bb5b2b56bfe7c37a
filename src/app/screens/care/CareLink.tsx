import { useEffect, useState } from "preact/hooks";
import { WayKey } from "../../parts/keys.js";
import { go } from "../../router.js";
import { careWords } from "../../words/care.js";
import { setDrawing } from "../edit/drawings.js";

/** On a vehicle's sheet: what its set asks for. */
export function CareLink({ vehicleId }: { vehicleId: string }) {
  const [here, setHere] = useState(false);
  useEffect(() => {
    void careWords.load().then(() => setHere(true));
  }, []);
  if (!here) return null;
  return <WayKey icon={setDrawing} title={careWords.now().title} onPress={() => go(`care/${vehicleId}`)} />;
}
