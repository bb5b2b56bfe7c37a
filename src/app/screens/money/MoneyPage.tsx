import "./money.css";
import type { ComponentChildren } from "preact";
import type { Vehicle } from "../../../records/index.js";
import { vehicles } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { money as moneyDrawing } from "../../parts/icons.js";
import { Key } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import { PlateKey } from "../../parts/Plate.js";
import { go } from "../../router.js";
import { handOver } from "../../settings.js";
import { core } from "../../words/core.js";
import { moneyWords } from "../../words/money.js";
import { uncovered } from "./cover.js";

/** Every money screen: covered until its owner taps, away while the phone is lent out. */
export function MoneyPage(props: {
  readonly title: string;
  readonly sub?: string;
  readonly vehicle?: Vehicle | null;
  /** Path above; left out on the place itself. */
  readonly above?: string;
  readonly onSay?: () => void;
  readonly narrow?: boolean;
  readonly children: ComponentChildren;
}) {
  const words = moneyWords.now();
  const { vehicle, above, onSay, sub } = props;
  const open = uncovered.value && !handOver.value;
  return (
    <Page
      title={props.title}
      {...(sub !== undefined ? { sub } : {})}
      head={vehicle ? <OtherPlate vehicle={vehicle} /> : <Icon of={moneyDrawing} size={36} />}
      {...(above !== undefined ? { above } : {})}
      {...(onSay && open ? { onSay } : {})}
      place="money"
      narrow={props.narrow ?? true}
    >
      {open ? props.children : <Covered says={handOver.value ? words.handedOver : null} />}
    </Page>
  );
}

/** With several vehicles the plate leads back to the list of all. */
function OtherPlate({ vehicle }: { vehicle: Vehicle }) {
  const many = vehicles.value.length > 1;
  if (!many) return <span class="plate">{vehicle.plate}</span>;
  return <PlateKey number={vehicle.plate} says={core.now().otherVehicle(vehicle.plate)} onPress={() => go("money")} />;
}

function Covered({ says }: { says: string | null }) {
  const words = moneyWords.now();
  return (
    <div class="empty">
      <Icon of={moneyDrawing} size={96} />
      {says === null ? (
        <>
          <p class="m-covered">{words.covered}</p>
          <Key kind="main" onPress={() => (uncovered.value = true)}>
            {words.show}
          </Key>
          <p class="hint">{words.coveredWhy}</p>
        </>
      ) : (
        <p class="m-covered">{says}</p>
      )}
    </div>
  );
}
