import "./sheet.css";
import { useState } from "preact/hooks";
import type { Vehicle } from "../../records/index.js";
import { answers } from "../answers.js";
import { book, keep, listed, vehicleOf } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { chalk, dome } from "../parts/icons.js";
import { Key } from "../parts/keys.js";
import { Mark } from "../parts/Mark.js";
import { Page } from "../parts/Page.js";
import { Say } from "../parts/Say.js";
import { TextPad } from "../parts/TextPad.js";
import type { ScreenProps } from "../places.js";
import { go, goBack } from "../router.js";
import { set } from "../settings.js";
import { core } from "../words/core.js";
import { fleetWords } from "../words/fleet.js";
import { plain } from "../words/format.js";
import { modelOf } from "./day-context.js";
import { FieldRow } from "./FieldRow.js";
import { ListKeys } from "./ListKeys.js";
import { faceFields, SECTIONS } from "./sheet-fields.js";
import { verdictWords } from "./today-words.js";

/** What is this vehicle? Every field can be changed; what nobody typed says that it is a guess. */
export function Screen({ params }: ScreenProps) {
  const vehicle = vehicleOf(params[0] ?? "");
  if (!vehicle) return <Gone />;
  return <SheetPage vehicle={vehicle} above="vehicles" />;
}

/** The place "My vehicle" of a phone with one vehicle. */
export function OneVehicle({ id }: { id: string }) {
  const vehicle = vehicleOf(id);
  return vehicle ? <SheetPage vehicle={vehicle} /> : null;
}

function SheetPage({ vehicle, above }: { vehicle: Vehicle; above?: string }) {
  const words = fleetWords.now().sheet;
  return (
    <Page
      title={vehicle.name || words.title}
      sub={words.choices[vehicle.class]}
      plate={vehicle.plate}
      place="vehicles"
      {...(above === undefined ? {} : { above })}
      narrow
    >
      <Head vehicle={vehicle} />
      {SECTIONS.map(([section, fields]) => (
        <details key={section} class="section" open={section === "what" || section === "set"}>
          <summary>{words.parts[section]}</summary>
          <ul>
            {fields.map((field) => (
              <FieldRow key={field.path} vehicle={vehicle} field={field} />
            ))}
          </ul>
          {section === "roof" && <Faces vehicle={vehicle} />}
          {section === "set" && vehicle.battery.nominalV > 60 && <Caution text={words.shock} />}
        </details>
      ))}
      <Remove vehicle={vehicle} />
      {above === undefined && <ListKeys />}
    </Page>
  );
}

function Head({ vehicle }: { vehicle: Vehicle }) {
  const words = fleetWords.now().sheet;
  const answered = answers.value.get(vehicle.id)?.answer;
  const model = modelOf(vehicle.id);
  const kmPerCharge = answered && answered.whPerKm > 0 ? Math.floor(answered.usableWh / answered.whPerKm) : null;
  const told = model && verdictWords(core.now(), model.said);
  const days = vehicle.learned?.days ?? 0;
  return (
    <section class="sheet-head">
      {model && <Mark state={model.said.verdict} size={56} />}
      <div>
        {told && (
          <b>
            {told.word} <Say text={told.number} />
          </b>
        )}
        {kmPerCharge !== null && (
          <p>
            <Say text={days > 0 ? words.learned(kmPerCharge, days) : words.guessed(kmPerCharge)} />
          </p>
        )}
      </div>
      <div class="sheet-keys">
        <Key
          onPress={() => {
            set({ vehicleId: vehicle.id });
            go("today");
          }}
        >
          <Icon of={dome} size={22} />
          {words.openToday}
        </Key>
        <Key
          onPress={() => {
            set({ vehicleId: vehicle.id });
            go("write");
          }}
        >
          <Icon of={chalk} size={22} />
          {core.now().keys.write}
        </Key>
      </div>
    </section>
  );
}

const NEW_FACE = { ratedW: 105, tiltDeg: 0, sideDeg: 0, gammaPerC: -0.004 };
const MOST_FACES = 8;

function Faces({ vehicle }: { vehicle: Vehicle }) {
  const words = fleetWords.now().sheet;
  const { faces } = vehicle.roof;
  const put = (changed: readonly Vehicle["roof"]["faces"][number][]) =>
    void keep([{ kind: "vehicle", put: { ...vehicle, roof: { ...vehicle.roof, faces: changed } } }], words.kept);
  return (
    <>
      {faces.map((face, index) => (
        <div key={`${face.name}${index}`} class="face">
          <h3>
            {words.fields["roof.face"]} {index + 1}
          </h3>
          <ul>
            {faceFields(index).map((field) => (
              <FieldRow key={field.path} vehicle={vehicle} field={field} />
            ))}
          </ul>
          <Key kind="plain" onPress={() => put(faces.filter((_, i) => i !== index))}>
            {words.dropFace}
          </Key>
        </div>
      ))}
      {faces.length < MOST_FACES && (
        <Key onPress={() => put([...faces, { name: String(faces.length + 1), ...NEW_FACE }])}>{words.addFace}</Key>
      )}
      <Caution text={words.roofCare} />
    </>
  );
}

/** Its number has to be typed: nothing destructive is one tap. */
function Remove({ vehicle }: { vehicle: Vehicle }) {
  const words = fleetWords.now().sheet;
  const [asking, setAsking] = useState(false);
  const remove = async (typed: string) => {
    if (typed !== vehicle.plate) return;
    setAsking(false);
    const its = <K extends "shift" | "reading">(kind: K) =>
      listed(book.value, kind)
        .filter((record) => record.vehicleId === vehicle.id)
        .map((record) => ({ kind, drop: record.id }));
    const kept = await keep(
      [{ kind: "vehicle", drop: vehicle.id }, ...its("shift"), ...its("reading")],
      plain(words.removed(vehicle.plate)),
    );
    if (kept) goBack("vehicles");
  };
  return (
    <div class="ways spaced">
      <Key kind="plain" onPress={() => setAsking(true)}>
        {words.remove}
      </Key>
      {asking && (
        <TextPad
          title={words.removeAsk(vehicle.plate)}
          start=""
          longest={16}
          onClose={() => setAsking(false)}
          onKeep={(typed) => void remove(typed)}
        />
      )}
    </div>
  );
}

function Gone() {
  const words = fleetWords.now();
  return (
    <Page title={words.sheet.title} place="vehicles" above="vehicles">
      <div class="empty">
        <p>{words.list.noneFound}</p>
      </div>
    </Page>
  );
}
