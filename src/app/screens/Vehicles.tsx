import "./lists.css";
import { useState } from "preact/hooks";
import { answers, current } from "../answers.js";
import { vehicles } from "../fleet.js";
import { DayStrip } from "../parts/DayStrip.js";
import { Fitted } from "../parts/Fitted.js";
import { Icon } from "../parts/Icon.js";
import { vehicle as vehicleDrawing } from "../parts/icons.js";
import { Key } from "../parts/keys.js";
import { LongList } from "../parts/LongList.js";
import { Mark } from "../parts/Mark.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { Say } from "../parts/Say.js";
import { go } from "../router.js";
import { set } from "../settings.js";
import { here, nowUtcMs } from "../state.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayShort } from "../words/format.js";
import { listWords } from "../words/list.js";
import { ListKeys } from "./ListKeys.js";
import type { TodayModel } from "./today-model.js";
import { stripWords, stuckWords, verdictWords } from "./today-words.js";
import { countOf, LIST_STATES, type Listed, type ListState, worstFirst } from "./tomorrow-list.js";

export const words = [listWords];

const ROW_PX = 71;

/** Who is short next? */
export function Screen() {
  return vehicles.value.length === 0 ? <NoVehicles /> : <List />;
}

function List() {
  const words = listWords.now();
  const [filter, setFilter] = useState<ListState | null>(null);
  const [finding, setFinding] = useState(false);
  const listed = worstFirst(vehicles.value, answers.value, nowUtcMs.value);
  const shown = filter === null ? listed : listed.filter((one) => one.state === filter);
  const day = listed.find((one) => one.model)?.model?.date ?? here.value.date;
  const counts = LIST_STATES.map((state) => countOf(listed, state)) as [number, number, number, number];
  return (
    <Page
      title={words.tomorrow(listed.length)}
      sub={day > here.value.date ? core.now().forTomorrow(dayShort(day)) : dayShort(day)}
      head={<Icon of={vehicleDrawing} size={40} />}
      place="vehicles"
      onSay={() => void say(words.spoken(...counts))}
    >
      <Tally listed={listed} filter={filter} onFilter={(state) => setFilter(state === filter ? null : state)} />
      <div class="two-columns">
        <div class="rows">
          <LongList items={shown} rowPx={ROW_PX} row={(one) => <Row key={one.vehicle.id} listed={one} />} />
        </div>
        <LargeStrip listed={listed} />
      </div>
      <ListKeys onFind={() => setFinding(true)} />
      {finding && (
        <NumberPad
          title={words.find}
          unit=""
          least={0}
          most={99_999_999}
          onClose={() => setFinding(false)}
          onKeep={(number) => openNumber(number)}
        />
      )}
    </Page>
  );
}

/** Opens the vehicle whose painted number, leading zeros apart, is the one typed. */
function openNumber(number: number): void {
  const found = vehicles.value.find((one) => Number(one.plate.replace(/\D/g, "")) === number);
  if (found) open(found.id);
}

function open(vehicleId: string): void {
  set({ vehicleId });
  go("today");
}

function Tally(props: {
  readonly listed: readonly Listed[];
  readonly filter: ListState | null;
  readonly onFilter: (state: ListState) => void;
}) {
  const words = listWords.now().tally;
  return (
    <fieldset class="tally">
      {LIST_STATES.map((state) => (
        <Key key={state} kind="col" chosen={props.filter === state} onPress={() => props.onFilter(state)}>
          <span class="count">
            <Mark state={state} size={34} />
            <span class="fig">{countOf(props.listed, state)}</span>
          </span>
          <span>{words[state]}</span>
        </Key>
      ))}
    </fieldset>
  );
}

function Row({ listed }: { listed: Listed }) {
  const { vehicle, model, state } = listed;
  const isCurrent = current.value?.id === vehicle.id;
  const told = rowWords(listed);
  return (
    <li>
      <button
        type="button"
        class={`row-key ${state}`}
        aria-current={isCurrent ? "true" : undefined}
        onClick={() => (state === "off" ? go(`sheet/${vehicle.id}`) : open(vehicle.id))}
      >
        <span class="plate lip">{vehicle.plate}</span>
        <span class="what">
          <b>
            <Say text={told.first} />
          </b>
          <span>
            <Say text={told.second} />
          </span>
        </span>
        {state !== "working" && <Mark state={state} size={40} />}
        {model?.strip && <DayStrip model={model.strip} words={stripWords(core.now(), model)} kind="row" width={100} />}
      </button>
    </li>
  );
}

function rowWords({ vehicle, model, state }: Listed): { first: string; second: string } {
  const words = listWords.now();
  const { states } = core.now();
  if (state === "off") return { first: states.off, second: vehicle.name };
  if (!model) return { first: vehicle.name, second: words.working };
  const { said } = model;
  if (said.verdict === "short")
    return {
      first: said.km > 0 ? words.shortKm(said.km) : states.short,
      second: stuckWords(core.now(), model) || vehicle.name,
    };
  if (said.verdict === "tight") return { first: states.tight, second: words.tight(said.upKm, said.downKm) };
  if (said.verdict === "enough") return { first: states.enough, second: words.enoughKm(said.km) };
  return { first: states.notKnown, second: said.why === "round" ? words.giveRound : words.readGauge };
}

/** On a desk the picture of the worst, or of the chosen one, stands beside the rows. */
function LargeStrip({ listed }: { listed: readonly Listed[] }) {
  if (innerWidth < 900) return null;
  const shown = listed.find((one) => one.vehicle.id === current.value?.id && one.model) ?? listed[0];
  const model: TodayModel | null = shown?.model ?? null;
  if (!model?.strip) return null;
  const strip = model.strip;
  const { word, number } = verdictWords(core.now(), model.said);
  return (
    <aside class="large">
      <h2>
        {model.plate} {model.name}: {word} <Say text={number} />
      </h2>
      <Fitted class="strip-room" guess={{ width: 760, height: 320 }}>
        {(box) => <DayStrip model={strip} words={stripWords(core.now(), model)} kind="large" width={box.width} />}
      </Fitted>
    </aside>
  );
}

function NoVehicles() {
  const words = listWords.now();
  return (
    <Page title={core.now().places.vehicles} place="vehicles">
      <div class="empty">
        <Mark state="notKnown" size={120} />
        <p>{words.empty}</p>
        <Key kind="main" onPress={() => go("five-taps")}>
          {words.five}
        </Key>
      </div>
      <ListKeys />
    </Page>
  );
}
