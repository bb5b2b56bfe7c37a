import type { Place } from "../places.js";
import { onLink } from "../router.js";
import { handOver } from "../settings.js";
import { core } from "../words/core.js";
import { Icon } from "./Icon.js";
import { dome, money, slate, vehicle } from "./icons.js";

const DRAWINGS = { today: dome, tonight: slate, vehicles: vehicle, money };
const PLACES: readonly Place[] = ["today", "tonight", "vehicles", "money"];
/** Neither the money nor the yard's night is for other hands. */
const OWNERS: readonly Place[] = ["tonight", "money"];

/** The four places. With one vehicle the third bears its own name. */
export function Places({ current, oneVehicle }: { current: Place; oneVehicle: boolean }) {
  const words = core.now().places;
  return (
    <nav class="nav">
      {PLACES.filter((place) => !handOver.value || !OWNERS.includes(place)).map((place) => (
        <a key={place} {...onLink(place)} aria-current={place === current ? "page" : undefined}>
          <Icon of={DRAWINGS[place]} size={22} />
          <span>{place === "vehicles" && oneVehicle ? words.myVehicle : words[place]}</span>
        </a>
      ))}
    </nav>
  );
}
