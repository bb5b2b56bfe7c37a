import { useState } from "preact/hooks";
import { careId } from "../../../records/ids.js";
import type { CareDone, Vehicle } from "../../../records/index.js";
import type { SetCare } from "../../../records/map/care.js";
import { keep } from "../../fleet.js";
import { drop } from "../../parts/icons.js";
import { spanner } from "../../parts/icons-more.js";
import { WayKey } from "../../parts/keys.js";
import { TextPad } from "../../parts/TextPad.js";
import { here } from "../../state.js";
import { careWords } from "../../words/care.js";
import { dayMonthYear } from "../../words/money/amount.js";

const DRAWINGS = { water: drop, equalise: spanner };

/** Care of a lead-acid set that was done: when last, and a key that writes it in. */
export function Done({ vehicle, care }: { vehicle: Vehicle; care: SetCare }) {
  const told = careWords.now();
  const [asks, setAsks] = useState<CareDone["what"] | null>(null);
  const all: readonly CareDone["what"][] =
    vehicle.battery.chemistry === "floodedLead" ? ["water", "equalise"] : ["equalise"];
  return (
    <section>
      <h2>{told.doneTitle}</h2>
      <div class="ways bare">
        {all.map((what) => (
          <WayKey
            key={what}
            icon={DRAWINGS[what]}
            title={told.done[what]}
            sub={care.lastDone[what] === null ? told.never : dayMonthYear(care.lastDone[what] ?? "")}
            onPress={() => setAsks(what)}
          />
        ))}
      </div>
      {asks && (
        <TextPad
          title={told.whenDone}
          type="date"
          start={here.value.date}
          onClose={() => setAsks(null)}
          onKeep={(date) => {
            setAsks(null);
            void keepDone(vehicle, date, asks);
          }}
        />
      )}
    </section>
  );
}

async function keepDone(vehicle: Vehicle, date: string, what: CareDone["what"]): Promise<void> {
  const put: CareDone = { id: careId(vehicle.id, date, what), v: 1, vehicleId: vehicle.id, date, what };
  await keep([{ kind: "care", put }], careWords.now().doneKept);
}
