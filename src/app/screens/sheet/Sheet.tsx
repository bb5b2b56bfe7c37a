import "../edit/edit.css";
import type { Vehicle } from "../../../records/index.js";
import { answers } from "../../answers.js";
import { edited } from "../../edited.js";
import { keep, vehicleOf, vehicles } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { chalk, type Drawing, dome, pad, plug, road, vehicle as vehicleDrawing } from "../../parts/icons.js";
import { spanner } from "../../parts/icons-more.js";
import { Key, WayKey } from "../../parts/keys.js";
import { Mark } from "../../parts/Mark.js";
import { Page } from "../../parts/Page.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { go } from "../../router.js";
import { set } from "../../settings.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { listWords } from "../../words/list.js";
import { sheetWords } from "../../words/sheet.js";
import { CareLink } from "../care/CareLink.js";
import { dial, gears, lamp, line, panel, setDrawing, weight } from "../edit/drawings.js";
import { isGuess, valueAt } from "../edit/spec.js";
import { heldOf } from "../edit/typing.js";
import { KitLink } from "../KitLinks.js";
import { ListKeys } from "../ListKeys.js";
import { fieldsOf, GROUP_NAMES, type GroupName, isGroup } from "./fields.js";
import { Group } from "./Group.js";
import { RoofPicture } from "./pictures.js";
import { RemoveVehicle } from "./Remove.js";
import { groupSum, warningsOf } from "./sums.js";

export const words = [editWords, sheetWords, listWords];

/** What is this vehicle? `sheet/ID` and, one step under it, `sheet/ID/GROUP`. */
export function Screen({ params }: ScreenProps) {
  const last = params.at(-1) ?? "";
  const group = params.length > 1 && isGroup(last) ? last : null;
  const vehicle = vehicleOf((group ? params.slice(0, -1) : params).join("/"));
  if (!vehicle) return <Gone />;
  return group ? <Group vehicle={vehicle} group={group} /> : <Home vehicle={vehicle} above="vehicles" />;
}

/** The place "My vehicle" of a phone with one vehicle. */
export function OneVehicle() {
  const vehicle = vehicles.value[0];
  return vehicle ? <Home vehicle={vehicle} /> : <Gone />;
}

function Home({ vehicle, above }: { vehicle: Vehicle; above?: string }) {
  const words = sheetWords.now();
  const off = vehicle.status === "offRoad";
  return (
    <Page
      title={vehicle.name || words.title}
      sub={off ? words.choices.offRoad : words.choices[vehicle.class]}
      plate={vehicle.plate}
      place="vehicles"
      {...(above === undefined ? {} : { above })}
      narrow
    >
      <Facts vehicle={vehicle} />
      <ul class="groups">
        {GROUP_NAMES.map((group) => (
          <GroupRow key={group} vehicle={vehicle} group={group} />
        ))}
      </ul>
      <div class="ways spaced">
        <CareLink vehicleId={vehicle.id} />
        <KitLink vehicleId={vehicle.id} />
        <WayKey
          icon={off ? dome : spanner}
          title={off ? words.toRoad : words.offRoad}
          onPress={() => keepStatus(vehicle, off ? "working" : "offRoad")}
        />
        <RemoveVehicle vehicle={vehicle} above={above} />
      </div>
      {above === undefined && <ListKeys />}
    </Page>
  );
}

async function keepStatus({ id }: Vehicle, status: Vehicle["status"]): Promise<void> {
  const words = sheetWords.now();
  const change = edited("vehicle", id, (vehicle) => ({ ...vehicle, status }));
  await keep(change, status === "offRoad" ? words.nowOff : words.nowOn);
}

/** km on one full charge, and the roof from above. */
function Facts({ vehicle }: { vehicle: Vehicle }) {
  const words = sheetWords.now();
  const answer = answers.value.get(vehicle.id)?.answer;
  const km = answer && answer.whPerKm > 0 ? Math.floor(answer.usableWh / answer.whPerKm) : null;
  const days = vehicle.learned?.days ?? 0;
  const open = (to: string) => () => {
    set({ vehicleId: vehicle.id });
    go(to);
  };
  return (
    <section class="facts">
      <RoofPicture vehicle={vehicle} />
      <div>
        {vehicle.status === "offRoad" && (
          <p class="off-word">
            <Mark state="off" size={34} /> {words.choices.offRoad}
          </p>
        )}
        {km !== null && (
          <p class="big-fact">
            <Say text={words.perCharge(km)} />
            <span>{words.onFull}</span>
            <small>
              <Say text={days > 0 ? words.learned(days) : words.guessed} />
            </small>
          </p>
        )}
        <div class="acts two-keys">
          <Key onPress={open("today")}>
            <Icon of={dome} size={22} />
            {words.itsDay}
          </Key>
          <Key onPress={open("write")}>
            <Icon of={chalk} size={22} />
            {words.write}
          </Key>
        </div>
      </div>
    </section>
  );
}

const DRAWINGS: Readonly<Record<GroupName, Drawing>> = {
  plate: vehicleDrawing,
  body: weight,
  drive: gears,
  set: setDrawing,
  charger: plug,
  roof: panel,
  extras: lamp,
  gauge: dial,
  usual: road,
  line,
};

function GroupRow({ vehicle, group }: { vehicle: Vehicle; group: GroupName }) {
  const words = sheetWords.now();
  const edit = editWords.now();
  const fields = fieldsOf(group, vehicle);
  const guesses = fields.filter(
    (field) => valueAt(vehicle, field.path) !== null && isGuess(vehicle, field.path),
  ).length;
  const held = heldOf("vehicle", vehicle.id).some((one) => fields.some((field) => field.path === one.path));
  const odd = warningsOf(vehicle).some((warning) => fields.some((field) => field.path === warning.where));
  return (
    <li>
      <button type="button" class="group-row" onClick={() => go(`sheet/${vehicle.id}/${group}`)}>
        <span class="tile">
          <Icon of={DRAWINGS[group] ?? pad} size={26} />
        </span>
        <span class="what">
          <b>{words.groups[group]}</b>
          <small>{groupSum(vehicle, group)}</small>
        </span>
        {held || odd ? (
          <strong>{held ? edit.notKept : edit.look}</strong>
        ) : (
          guesses > 0 && <small class="to-check">{edit.guesses(guesses)}</small>
        )}
      </button>
    </li>
  );
}

function Gone() {
  const words = sheetWords.now();
  return (
    <Page title={words.title} place="vehicles" above="vehicles">
      <div class="empty">
        <p>{words.gone}</p>
        <Key kind="main" onPress={() => go("vehicles")}>
          {core.now().places.vehicles}
        </Key>
      </div>
    </Page>
  );
}
