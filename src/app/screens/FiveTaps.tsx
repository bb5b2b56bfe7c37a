import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { VehicleClass } from "../../records/index.js";
import { addVehicle, startVehicle } from "../first/begin.js";
import type { Taps } from "../first/make.js";
import { vehicles, yards } from "../fleet.js";
import { Icon } from "../parts/Icon.js";
import { pad } from "../parts/icons.js";
import { Key, KeyRow } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { Body, Panels } from "../parts/shapes.js";
import { go, goInstead } from "../router.js";
import { set } from "../settings.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { figures, joined } from "../words/format.js";
import { startWords } from "../words/start.js";

type Draft = { readonly [K in keyof Taps]: Taps[K] | null };
const NOTHING: Draft = { looks: null, fullChargeKm: null, usualDayKm: null, panels: null, dash: null };
const LOOKS: readonly VehicleClass[] = ["passenger", "goodsLarge", "eRickshaw", "vendingCart"];
const FULL_KM = [40, 50, 60, 80];
const DAY_KM = [30, 45, 60, 80];
const PANELS = [0, 1, 2, 4];
const DASH = ["volts", "bars", "percent", "nothing"] as const;

/** Five taps, then the first answer in km. */
export function Screen() {
  const words = startWords.now();
  const [draft, setDraft] = useState<Draft>(NOTHING);
  const [pads, setPads] = useState<"fullChargeKm" | "usualDayKm" | null>(null);
  const left = Object.values(draft).filter((value) => value === null).length;
  const pick = <K extends keyof Taps>(name: K, value: Taps[K]) => setDraft({ ...draft, [name]: value });
  const next = (Object.keys(draft) as (keyof Taps)[]).find((name) => draft[name] === null);
  const ask = (name: keyof Taps, no: number, title: string, unit = "") => ({
    name,
    no,
    title,
    unit,
    answered: draft[name] !== null,
    next: next === name,
  });
  return (
    <Page
      title={words.ways.vehicle.title}
      sub={words.fiveTaps}
      above={yards.value.length > 0 ? "vehicles" : "start"}
      place="today"
      onSay={() => void say(words.spokenTaps)}
      narrow
      foot={
        <footer class="acts foot">
          <Key kind="main" waitsFor={left > 0 ? words.tapsToGo(left) : null} onPress={() => finish(draft)}>
            {words.seeTomorrow}
          </Key>
        </footer>
      }
    >
      <Ask {...ask("looks", 1, words.looksLike)}>
        <KeyRow
          asks={words.looksLike}
          chosen={draft.looks}
          onPick={(value) => pick("looks", value)}
          choices={LOOKS.map((value) => ({ value, word: words.looks[value], picture: <Body of={value} /> }))}
        />
      </Ask>
      <KmAsk
        {...ask("fullChargeKm", 2, words.fullCharge, words.km)}
        chosen={draft.fullChargeKm}
        usual={FULL_KM}
        onPick={(km) => pick("fullChargeKm", km)}
        onPad={() => setPads("fullChargeKm")}
      />
      <KmAsk
        {...ask("usualDayKm", 3, words.usualDay, words.km)}
        chosen={draft.usualDayKm}
        usual={DAY_KM}
        onPick={(km) => pick("usualDayKm", km)}
        onPad={() => setPads("usualDayKm")}
      />
      <Ask {...ask("panels", 4, words.panels)}>
        <KeyRow
          asks={words.panels}
          chosen={draft.panels}
          onPick={(value) => pick("panels", value)}
          choices={PANELS.map((value) => ({
            value,
            word: value === 0 ? words.none : figures(value),
            picture: <Panels count={value} />,
          }))}
        />
      </Ask>
      <Ask {...ask("dash", 5, words.dashShows)}>
        <KeyRow
          asks={words.dashShows}
          chosen={draft.dash}
          onPick={(value) => pick("dash", value)}
          choices={DASH.map((value) => ({ value, word: words.dash[value] }))}
        />
      </Ask>
      {pads && (
        <NumberPad
          title={pads === "fullChargeKm" ? words.fullCharge : words.usualDay}
          unit={words.km}
          least={1}
          most={300}
          onClose={() => setPads(null)}
          onKeep={(km) => {
            pick(pads, km);
            setPads(null);
          }}
        />
      )}
    </Page>
  );
}

interface AskProps {
  readonly no: number;
  readonly title: string;
  readonly unit: string;
  readonly answered: boolean;
  readonly next: boolean;
}

function Ask(props: AskProps & { readonly children: ComponentChildren }) {
  return (
    <section class={`ask ${props.answered ? "answered" : ""} ${props.next ? "next" : ""}`}>
      <h2>
        <span class="no fig">{figures(props.no)}</span>
        {props.title}
        {props.unit && <small>{props.unit}</small>}
      </h2>
      {props.children}
    </section>
  );
}

function KmAsk(
  props: AskProps & {
    readonly chosen: number | null;
    readonly usual: readonly number[];
    readonly onPick: (km: number) => void;
    readonly onPad: () => void;
  },
) {
  const { chosen, usual } = props;
  const other = chosen !== null && !usual.includes(chosen);
  return (
    <Ask {...props}>
      <KeyRow
        asks={props.title}
        chosen={chosen}
        onPick={props.onPick}
        choices={usual.map((value) => ({ value, word: figures(value), figure: true }))}
      >
        <Key
          kind={other ? "" : "alt"}
          chosen={other}
          onPress={props.onPad}
          says={joined(other && figures(chosen), core.now().pad.another)}
        >
          {other ? <span class="fig">{figures(chosen)}</span> : <Icon of={pad} />}
        </Key>
      </KeyRow>
    </Ask>
  );
}

async function finish(draft: Draft): Promise<void> {
  const { looks, fullChargeKm, usualDayKm, panels, dash } = draft;
  if (looks === null || fullChargeKm === null || usualDayKm === null || panels === null || dash === null) return;
  const words = startWords.now();
  const taps: Taps = { looks, fullChargeKm, usualDayKm, panels, dash };
  const names = {
    vehicle: words.vehicleName,
    plate: nextPlate(),
    round: words.usualRound,
    out: words.halfOut,
    midday: words.midday,
    back: words.halfBack,
    stall: words.stallStop,
  };
  const yard = yards.value[0];
  if (!yard) return startVehicle(taps, names, words.yardName);
  const id = await addVehicle(yard.id, taps, names);
  if (id === null) return;
  set({ vehicleId: id });
  goInstead("today");
  go(`sheet/${id}`);
}

/** The next free number, as painted: 01, 02, ... */
function nextPlate(): string {
  const taken = new Set(vehicles.value.map((vehicle) => vehicle.plate));
  let number = 1;
  while (taken.has(String(number).padStart(2, "0"))) number++;
  return String(number).padStart(2, "0");
}
