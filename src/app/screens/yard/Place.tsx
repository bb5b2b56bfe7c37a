import { useState } from "preact/hooks";
import { nearestTown } from "../../../records/places.js";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { yardWords } from "../../words/yard.js";
import type { Editing } from "../edit/editing.js";
import { Fields } from "../edit/FieldRow.js";
import { typeIn } from "../edit/typing.js";
import { placeFields } from "./fields.js";

/** To a hundredth of a degree: about a kilometre, all that the sun asks for. */
const rounded = (deg: number): number => Math.round(deg * 100) / 100;

/** Where the yard lies, and how vehicles stand there. */
export function Place({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const yard = on.record;
  const phoneZone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const town = nearestTown(yard);
  const zones = [...new Set([yard.zone, phoneZone, town?.zone ?? yard.zone])];
  const currencies = [...new Set([yard.currency, town?.currency ?? yard.currency])];
  return (
    <>
      <Here on={on} />
      <Fields of={placeFields(zones, currencies)} on={on} />
      <p class="hint used">{words.hereAsks}</p>
    </>
  );
}

function Here({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const [refused, setRefused] = useState(false);
  if (!("geolocation" in navigator)) return null;
  const take = ({ coords }: GeolocationPosition) => {
    setRefused(false);
    const place = [
      { path: "latDeg", value: rounded(coords.latitude) },
      { path: "lonDeg", value: rounded(coords.longitude) },
    ];
    const high = coords.altitude === null ? [] : [{ path: "altitudeM", value: Math.round(coords.altitude) }];
    void typeIn("yard", on.record, [...place, ...high], core.now().kept);
  };
  const ask = () => navigator.geolocation.getCurrentPosition(take, () => setRefused(true), { timeout: 20_000 });
  return (
    <div class="ways spaced">
      <Key onPress={ask}>{words.here}</Key>
      {refused && <p role="status">{words.hereNot}</p>}
    </div>
  );
}
