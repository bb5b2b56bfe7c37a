import { Mark } from "../../parts/Mark.js";
import { go } from "../../router.js";
import { core } from "../../words/core.js";
import type { VehicleNight } from "./night-facts.js";

/** All vehicles in number order, number above mark: the eye finds the odd shape before reading. */
export function RollCall({ nights }: { nights: readonly VehicleNight[] }) {
  const { states } = core.now();
  return (
    <ul class="roll-call">
      {nights.map(({ vehicle, state }) => (
        <li key={vehicle.id}>
          <button
            type="button"
            class={state === "short" ? "trouble" : ""}
            onClick={() => go(`night-vehicle/${vehicle.id}`)}
          >
            <span class="fig">{vehicle.plate}</span>
            <Mark state={state} size={26} says={states[state]} />
          </button>
        </li>
      ))}
    </ul>
  );
}
