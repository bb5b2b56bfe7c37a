import { useState } from "preact/hooks";
import type { Vehicle } from "../../../records/index.js";
import { type FaceShape, withFace, withoutFace } from "../../../records/roof-faces.js";
import { edited } from "../../edited.js";
import { keep } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { figures } from "../../words/format.js";
import { sheetWords } from "../../words/sheet.js";
import { cross, plus } from "../edit/drawings.js";
import type { Editing } from "../edit/editing.js";
import { Fields, Finer } from "../edit/FieldRow.js";
import { Sheet } from "../edit/ValuePad.js";
import { faceFields } from "./fields.js";
import { RoofPicture, sideOf } from "./pictures.js";

const MOST_FACES = 8;
const SHAPES: readonly FaceShape[] = ["flat", "left", "right", "front", "back"];

/** The roof from above, then its faces; one is open at a time. */
export function Faces({ on }: { on: Editing<"vehicle"> }) {
  const words = sheetWords.now();
  const { faces } = on.record.roof;
  const [open, setOpen] = useState(faces.length === 1 ? 0 : -1);
  const [adding, setAdding] = useState(false);
  const put = (to: (vehicle: Vehicle) => Vehicle, says: string) => keep(edited("vehicle", on.record.id, to), says);
  return (
    <section class="list">
      <div class="roof-place">
        <RoofPicture vehicle={on.record} />
      </div>
      {faces.map((face, n) => {
        const side = words.sides[sideOf(face)];
        return (
          <div key={`${n}:${faces.length}`} class={`part ${open === n ? "open" : ""}`}>
            <button
              type="button"
              class="part-row"
              aria-expanded={open === n}
              onClick={() => setOpen(open === n ? -1 : n)}
            >
              <span class="no fig">{figures(n + 1)}</span>
              <b>{side}</b>
              <span class="fig">{figures(face.ratedW)} W</span>
            </button>
            {open === n && (
              <>
                <Fields of={faceFields(n).plain} on={on} />
                <Finer of={faceFields(n).finer} on={on} />
                <div class="acts">
                  <Key onPress={() => put((vehicle) => withoutFace(vehicle, n), words.faceGone)}>
                    <Icon of={cross} size={20} />
                    {words.removeFace}
                  </Key>
                </div>
              </>
            )}
          </div>
        );
      })}
      {faces.length < MOST_FACES && (
        <div class="acts">
          <Key onPress={() => setAdding(true)}>
            <Icon of={plus} size={20} />
            {words.addFace}
          </Key>
        </div>
      )}
      {adding && (
        <Sheet title={words.addFace} onClose={() => setAdding(false)}>
          <div class="pad-list">
            {SHAPES.map((shape) => (
              <Key
                key={shape}
                onPress={() => {
                  setAdding(false);
                  void put((vehicle) => withFace(vehicle, shape, words.sides[shape]), words.faceAdded);
                  setOpen(faces.length);
                }}
              >
                {words.sides[shape]}
              </Key>
            ))}
          </div>
          <div class="pad-ends one">
            <Key onPress={() => setAdding(false)}>{core.now().pad.close}</Key>
          </div>
        </Sheet>
      )}
    </section>
  );
}
