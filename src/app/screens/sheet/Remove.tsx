import { useState } from "preact/hooks";
import type { AnyRecord, KindName, Vehicle } from "../../../records/index.js";
import { kindNames } from "../../../records/index.js";
import { type Change, keep } from "../../fleet.js";
import { WayKey } from "../../parts/keys.js";
import { TextPad } from "../../parts/TextPad.js";
import { goBack } from "../../router.js";
import { openedStore } from "../../shelf.js";
import { sheetWords } from "../../words/sheet.js";
import { cross } from "../edit/drawings.js";
import { isPlate } from "./sums.js";

/** Its number has to be typed: nothing destructive is one tap. What belongs to it goes with it, and comes back with it. */
export function RemoveVehicle({ vehicle, above }: { vehicle: Vehicle; above: string | undefined }) {
  const words = sheetWords.now();
  const [asking, setAsking] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const typed = (text: string) => {
    if (!isPlate(vehicle, text)) return setRefused(words.removeNot);
    setAsking(false);
    void removeVehicle(vehicle).then((kept) => kept && above !== undefined && goBack(above));
  };
  return (
    <>
      <WayKey icon={cross} title={words.remove} onPress={() => setAsking(true)} />
      {asking && (
        <TextPad
          title={words.remove}
          hint={refused ?? words.removeHow(vehicle.plate)}
          start=""
          does={words.remove}
          longest={16}
          onClose={() => {
            setAsking(false);
            setRefused(null);
          }}
          onKeep={typed}
        />
      )}
    </>
  );
}

const isOf = (record: AnyRecord, vehicleId: string): boolean => "vehicleId" in record && record.vehicleId === vehicleId;

/** With its whole history: the app holds only the last days of it. */
async function removeVehicle({ id, plate }: Vehicle): Promise<boolean> {
  const store = await openedStore();
  const all = await store.listMany(kindNames);
  if (!all.ok) return false;
  const its = kindNames.flatMap((kind: KindName) =>
    (all.value[kind].records as readonly AnyRecord[])
      .filter((record) => isOf(record, id))
      .map((record): Change => ({ kind, drop: record.id })),
  );
  return keep([...its, { kind: "vehicle", drop: id }], sheetWords.now().removed(plate));
}
