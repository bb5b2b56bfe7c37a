import type { Vehicle, Yard } from "../../../records/index.js";
import { book, listed, yardOf } from "../../fleet.js";
import { Caution } from "../../parts/Caution.js";
import { Page } from "../../parts/Page.js";
import { sheetWords } from "../../words/sheet.js";
import type { Editing } from "../edit/editing.js";
import { Fields, Finer } from "../edit/FieldRow.js";
import type { Spec } from "../edit/spec.js";
import { Hills, PanelVolts, Weights } from "./checks.js";
import { Faces } from "./Faces.js";
import { GROUPS, type GroupName } from "./fields.js";
import { Gears } from "./Gears.js";
import { RoundOf } from "./RoundOf.js";
import { doubled, groupSum, warningsOf } from "./sums.js";

const SHOCK_ABOVE_V = 60;

/** One group of fields, with what follows from them. */
export function Group({ vehicle, group }: { vehicle: Vehicle; group: GroupName }) {
  const words = sheetWords.now();
  const yard = yardOf(vehicle);
  const on: Editing<"vehicle"> = {
    kind: "vehicle",
    record: vehicle,
    fields: words.fields,
    choices: words.choices,
    warnings: warningsOf(vehicle),
    refuses: (path, value) =>
      path === "plate" && doubled(vehicle, String(value))
        ? { code: "doublePlate", where: path, figures: { found: String(value) } }
        : null,
  };
  const { plain, finer } = GROUPS[group];
  return (
    <Page
      title={words.groups[group]}
      sub={groupSum(vehicle, group)}
      plate={vehicle.plate}
      place="vehicles"
      above={`sheet/${vehicle.id}`}
      narrow
    >
      <Before group={group} on={on} yard={yard} />
      <Fields of={plain.map((of) => withOffers(of, vehicle))} on={on} />
      {group === "drive" && <Gears on={on} />}
      {finer.length > 0 && <Finer of={finer} on={on} />}
      {group === "drive" && yard && <Hills vehicle={vehicle} yard={yard} />}
      {group === "roof" && yard && <PanelVolts vehicle={vehicle} yard={yard} />}
    </Page>
  );
}

function Before({ group, on, yard }: { group: GroupName; on: Editing<"vehicle">; yard: Yard | undefined }) {
  const words = sheetWords.now();
  const vehicle = on.record;
  switch (group) {
    case "body":
      return <Weights vehicle={vehicle} />;
    case "set":
      return vehicle.battery.nominalV > SHOCK_ABOVE_V ? <Caution text={words.shock} /> : null;
    case "roof":
      return (
        <>
          <Caution text={words.roofCare} />
          <Faces on={on} />
        </>
      );
    case "usual":
      return yard ? <RoundOf vehicle={vehicle} /> : null;
    default:
      return null;
  }
}

/** Plugs of the yard's sockets and of its other vehicles, as keys. */
function withOffers(of: Spec, vehicle: Vehicle): Spec {
  if (of.kind !== "text" || of.path !== "charger.plug") return of;
  const sockets = listed(book.value, "socket").filter((socket) => socket.yardId === vehicle.yardId);
  const others = listed(book.value, "vehicle").filter((other) => other.yardId === vehicle.yardId);
  const offers = [...sockets.map((socket) => socket.plug), ...others.map((other) => other.charger.plug)];
  return { ...of, offers: [...new Set(offers)].slice(0, 8) };
}
