import "./lists.css";
import { Icon } from "../parts/Icon.js";
import { pad } from "../parts/icons.js";
import { Key } from "../parts/keys.js";
import { go } from "../router.js";
import { listWords } from "../words/list.js";

/** At the foot of Vehicles: a number to find, a new vehicle, the rounds, and this phone. */
export function ListKeys({ onFind }: { onFind?: () => void }) {
  const words = listWords.now();
  return (
    <div class="list-keys">
      {onFind && (
        <Key onPress={onFind} says={words.find} kind="alt">
          <Icon of={pad} />
        </Key>
      )}
      {onFind && <Key onPress={() => go("paper")}>{words.slate}</Key>}
      {onFind && <Key onPress={() => go("log")}>{words.log}</Key>}
      <Key onPress={() => go("five-taps")}>{words.newVehicle}</Key>
      <Key onPress={() => go("rounds")}>{words.rounds}</Key>
      <Key onPress={() => go("phone")}>{words.phone}</Key>
    </div>
  );
}
