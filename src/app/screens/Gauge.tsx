import { useState } from "preact/hooks";
import { readingId } from "../../records/ids.js";
import type { Reading } from "../../records/index.js";
import { answers } from "../answers.js";
import { keep } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { pad, plug } from "../parts/icons.js";
import { Key, KeyRow, WayKey } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { goBack } from "../router.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { figures } from "../words/format.js";
import { DayTop } from "./DayTop.js";
import { dayContext } from "./day-context.js";
import { gaugeValues } from "./gauge-values.js";
import type { GaugeKind } from "./today-model.js";

export const words = [dayWords];

const KINDS: readonly GaugeKind[] = ["volts", "bars", "percent"];
const MINUTES_OF_REST = 10;

/** What does it read? One tap keeps it. */
export function Screen() {
  const words = dayWords.now().gauge;
  const context = dayContext();
  const [kind, setKind] = useState<GaugeKind>(context?.vehicle.gauge.kind ?? "percent");
  const [rested, setRested] = useState<"yes" | "no" | null>(null);
  const [asks, setAsks] = useState<"value" | "km" | null>(null);
  if (!context) return null;
  const { vehicle } = context;
  const answer = answers.value.get(vehicle.id)?.answer;
  const values = gaugeValues(kind, vehicle, answer?.start.p50 ?? 0.8, kind === "bars" ? 21 : 9);
  const decimals = kind === "volts" ? 1 : 0;
  const done = (reading: Pick<Reading, "kind" | "value" | "perBlock">) => void keepReading(vehicle.id, reading, rested);
  const pick = (value: number) =>
    done({ kind, value, perBlock: kind === "volts" && value < vehicle.battery.nominalV / 2 });
  return (
    <Page {...DayTop(context, words.title)} onSay={() => void say(words.spoken)} narrow>
      <section class="ask">
        <KeyRow
          asks={words.title}
          chosen={kind}
          onPick={setKind}
          choices={KINDS.map((value) => ({ value, word: core.now().units[value] }))}
        />
      </section>
      {kind === "volts" && (
        <section class="ask">
          <h2>{words.rested}</h2>
          <KeyRow
            asks={words.rested}
            chosen={rested}
            onPick={setRested}
            choices={[
              { value: "yes", word: words.yes },
              { value: "no", word: words.no },
            ]}
          />
          {vehicle.battery.chemistry === "lfp" && <Caution text={words.lfpVolts} />}
        </section>
      )}
      <section class="ask">
        <h2>{words.ask[kind]}</h2>
        <fieldset class="ks numbers" aria-label={words.ask[kind]}>
          {values.map((value) => (
            <Key key={value} onPress={() => pick(value)}>
              <span class="fig">{figures(value, decimals)}</span>
            </Key>
          ))}
          <Key kind="alt" onPress={() => setAsks("value")} says={words.another}>
            <Icon of={pad} />
          </Key>
        </fieldset>
      </section>
      <div class="ways spaced">
        <WayKey icon={plug} title={words.full} onPress={() => done({ kind: "full", value: 100, perBlock: false })} />
        <WayKey icon={pad} title={words.noGauge} sub={words.sinceFull} onPress={() => setAsks("km")} />
      </div>
      {asks === "value" && (
        <NumberPad
          title={words.ask[kind]}
          unit={core.now().units[kind]}
          least={0}
          most={kind === "percent" ? 100 : kind === "bars" ? (vehicle.gauge.bars ?? 5) : 199}
          decimals={decimals}
          onClose={() => setAsks(null)}
          onKeep={pick}
        />
      )}
      {asks === "km" && (
        <NumberPad
          title={words.sinceFull}
          unit={dayWords.now().hold.km}
          least={0}
          most={400}
          onClose={() => setAsks(null)}
          onKeep={(km) => done({ kind: "percent", value: levelAfter(km, answer), perBlock: false })}
        />
      )}
    </Page>
  );
}

/** % left after so many km since full, at the vehicle's own Wh per km. */
function levelAfter(km: number, answer: { whPerKm: number; usableWh: number } | undefined): number {
  const used = answer && answer.usableWh > 0 ? (km * answer.whPerKm) / answer.usableWh : 0.5;
  return Math.round(Math.max(0, 1 - used) * 100);
}

async function keepReading(
  vehicleId: string,
  reading: Pick<Reading, "kind" | "value" | "perBlock">,
  rested: "yes" | "no" | null,
): Promise<void> {
  const put: Reading = {
    id: readingId(vehicleId, Date.now()),
    v: 1,
    vehicleId,
    atUtcMs: Date.now(),
    ...reading,
    restedMin: rested === "yes" ? MINUTES_OF_REST : rested === "no" ? 0 : null,
  };
  if (await keep([{ kind: "reading", put }], core.now().kept)) goBack("today");
}
