import { useEffect, useState } from "preact/hooks";
import { mixed, vehicle as vehicleDrawing } from "../parts/icons.js";
import { WayKey } from "../parts/keys.js";
import { go } from "../router.js";
import { kitWords } from "../words/kit.js";

/** True once the words for kits are here; links to them are no part of the first screens. */
function useKitWords(): boolean {
  const [here, setHere] = useState(false);
  useEffect(() => {
    kitWords.load().then(
      () => setHere(true),
      () => undefined, // they have not come over the network: no link then
    );
  }, []);
  return here;
}

/** On a vehicle's sheet: how many days the sun spares the plug. */
export function KitLink({ vehicleId }: { vehicleId: string }) {
  if (!useKitWords()) return null;
  const words = kitWords.now().links;
  return <WayKey icon={vehicleDrawing} title={words.kit} sub={words.kitSub} onPress={() => go(`kit/${vehicleId}`)} />;
}

/** Under the help of Today: what makes the answer unsure, and what costs km. */
export function MovesLink() {
  if (!useKitWords()) return null;
  return (
    <div class="ways">
      <WayKey icon={mixed} title={kitWords.now().moves.title} onPress={() => go("moves")} />
    </div>
  );
}
