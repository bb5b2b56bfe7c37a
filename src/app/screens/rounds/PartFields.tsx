import { useState } from "preact/hooks";
import type { LegPart, StopPart } from "../../../records/index.js";
import { flatRoad, hills, someHills } from "../../parts/icons.js";
import { Key, KeyRow } from "../../parts/keys.js";
import { editWords } from "../../words/edit.js";
import { figures } from "../../words/format.js";
import { roundsWords } from "../../words/rounds.js";
import { LadderRow } from "../edit/LadderRow.js";
import { Choices, NameRow, Row } from "../edit/rows.js";

import { type HillWord, hillWordOf, STOPS_PER_KM, type StopWord, withHills, withKm } from "./new-parts.js";
import { Rose } from "./Rose.js";

const KM = [1, 2, 3, 5, 8, 12, 18, 25, 40, 60];
const MINUTES = [5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 300];
const METRES = [0, 10, 20, 40, 60, 80, 120, 200, 300, 500];
const SOCKET_KW = [1, 2.3, 3.3, 7.4];
const SURFACES = ["asphalt", "wornAsphalt", "gravel", "earth", "sand"] as const;
const AROUND = ["openRoad", "suburb", "town", "narrow"] as const;
const SHADES = ["open", "part", "deep", "roofed"] as const;
const HILLS: readonly HillWord[] = ["flat", "some", "hills"];
const HILL_DRAWINGS = { flat: flatRoad, some: someHills, hills };
const MACHINES = ["lampOn", "fridgeOn", "grinderOn", "fanOn"] as const;

export interface PartProps<Part> {
  readonly part: Part;
  readonly onChange: (part: Part) => void;
  /** Why a changed part cannot be taken; null when it can. */
  readonly refuses: (part: Part) => string | null;
}

/** What a way is: length, time, hills, ground, what stands around it. */
export function WayFields({ part, onChange, refuses }: PartProps<LegPart>) {
  const words = roundsWords.now();
  const [minutesTyped, setMinutesTyped] = useState(false);
  const change = (more: Partial<LegPart>) => onChange({ ...part, ...more });
  const why = (more: Partial<LegPart>) => refuses({ ...part, ...more });
  return (
    <>
      <LadderRow
        title={words.km}
        unit="km"
        decimals={1}
        value={part.km}
        ladder={KM}
        refuses={(km) => why({ km })}
        onPick={(km) => onChange(withKm(part, km, minutesTyped))}
      />
      <LadderRow
        title={words.minutes}
        unit="minute"
        value={part.minutes}
        ladder={MINUTES}
        refuses={(minutes) => why({ minutes })}
        onPick={(minutes) => {
          setMinutesTyped(true);
          change({ minutes });
        }}
      />
      <Row title={words.hills}>
        <KeyRow
          asks={words.hills}
          chosen={hillWordOf(part)}
          onPick={(word) => onChange(withHills(part, word))}
          choices={HILLS.map((value) => ({ value, word: words.hillWords[value], icon: HILL_DRAWINGS[value] }))}
        />
      </Row>
      <Row title={words.around}>
        <Choices
          of={AROUND}
          words={words.surroundings}
          chosen={part.surroundings}
          asks={words.around}
          onPick={(surroundings) => change({ surroundings })}
        />
      </Row>
      <Row title={words.surface}>
        <Choices
          of={SURFACES}
          words={words.surfaces}
          chosen={part.surface}
          asks={words.surface}
          onPick={(surface) => change({ surface })}
        />
      </Row>
      <details class="finer">
        <summary class="key">{editWords.now().finer}</summary>
        <LadderRow
          title={words.climb}
          unit="metre"
          value={part.climbM}
          ladder={METRES}
          refuses={(climbM) => why({ climbM })}
          onPick={(climbM) => change({ climbM })}
        />
        <LadderRow
          title={words.drop}
          unit="metre"
          value={part.dropM}
          ladder={METRES}
          refuses={(dropM) => why({ dropM })}
          onPick={(dropM) => change({ dropM })}
        />
        <StopsPerKm
          value={part.stopsPerKm}
          refuses={(stopsPerKm) => why({ stopsPerKm })}
          onPick={(stopsPerKm) => change({ stopsPerKm })}
        />
        <Rose title={words.heading} value={part.headingDeg} onPick={(headingDeg) => change({ headingDeg })} />
        <NameRow
          title={words.wayName}
          name={part.name ?? ""}
          mayBeEmpty
          onName={(name) => onChange(named(part, name))}
        />
      </details>
    </>
  );
}

/** Without a name, the field is left out. */
function named({ name: _old, ...part }: LegPart, name: string): LegPart {
  return name === "" ? part : { ...part, name };
}

function StopsPerKm(props: {
  readonly value: number;
  readonly refuses: (value: number) => string | null;
  readonly onPick: (value: number) => void;
}) {
  const words = roundsWords.now();
  const chosen = (Object.keys(STOPS_PER_KM) as StopWord[]).find((word) => STOPS_PER_KM[word] === props.value) ?? null;
  return (
    <Row title={words.stopping}>
      <KeyRow
        asks={words.stopping}
        chosen={chosen}
        onPick={(word) => props.onPick(STOPS_PER_KM[word])}
        choices={(Object.keys(STOPS_PER_KM) as StopWord[]).map((value) => ({
          value,
          word: `${words.stoppings[value]} ${figures(STOPS_PER_KM[value], Number.isInteger(STOPS_PER_KM[value]) ? 0 : 1)}`,
        }))}
      />
    </Row>
  );
}

interface StopProps extends PartProps<StopPart> {
  /** What "full" weighs on the vehicle that the preview speaks of. */
  readonly fullKg: number;
  readonly afterKg: number;
}

/** What a stop is: how long, in which light, what is put on or off, what runs there. */
export function StopFields({ part, onChange, refuses, fullKg, afterKg }: StopProps) {
  const words = roundsWords.now();
  const change = (more: Partial<StopPart>) => onChange({ ...part, ...more });
  const why = (more: Partial<StopPart>) => refuses({ ...part, ...more });
  return (
    <>
      <NameRow title={words.stopName} name={part.name} onName={(name) => change({ name })} />
      <LadderRow
        title={words.minutes}
        unit="minute"
        value={part.minutes}
        ladder={MINUTES}
        refuses={(minutes) => why({ minutes })}
        onPick={(minutes) => change({ minutes })}
      />
      <Row title={words.shade}>
        <Choices
          of={SHADES}
          words={words.shades}
          chosen={part.shade}
          asks={words.shade}
          onPick={(shade) => change({ shade })}
        />
      </Row>
      <LoadSteps
        part={part}
        fullKg={fullKg}
        afterKg={afterKg}
        onPick={(payloadChangeKg) => change({ payloadChangeKg })}
      />
      <Row title={words.running}>
        <fieldset class="ks" aria-label={words.running}>
          {MACHINES.map((machine) => (
            <Key key={machine} chosen={part[machine] ?? false} onPress={() => change({ [machine]: !part[machine] })}>
              {words.machines[machine]}
            </Key>
          ))}
        </fieldset>
      </Row>
      <details class="finer">
        <summary class="key">{editWords.now().finer}</summary>
        <LadderRow
          title={`${words.load}: ${words.exactly}`}
          unit="kg"
          signed
          value={part.payloadChangeKg}
          ladder={[-100, -50, 50, 100]}
          refuses={(payloadChangeKg) => why({ payloadChangeKg })}
          onPick={(payloadChangeKg) => change({ payloadChangeKg })}
        />
        <SocketRow
          value={part.socketKw}
          refuses={(socketKw) => why({ socketKw })}
          onPick={(socketKw) => change({ socketKw })}
        />
        <Rose title={words.parkedTo} value={part.sideDeg} onPick={(sideDeg) => change({ sideDeg })} />
      </details>
    </>
  );
}

const STEPS = { off: -1, half: -0.5, none: 0, on: 0.5, full: 1 } as const;
type Step = keyof typeof STEPS;

function LoadSteps(props: { part: StopPart; fullKg: number; afterKg: number; onPick: (kg: number) => void }) {
  const words = roundsWords.now();
  const steps = Object.keys(STEPS) as Step[];
  const kgOf = (step: Step) => Math.round(STEPS[step] * props.fullKg);
  return (
    <section class="ask words">
      <h2>
        {words.load}
        <small>{words.loadOn(figures(props.afterKg))}</small>
      </h2>
      <KeyRow
        asks={words.load}
        chosen={steps.find((step) => kgOf(step) === props.part.payloadChangeKg) ?? null}
        onPick={(step) => props.onPick(kgOf(step))}
        choices={steps.map((value) => ({ value, word: words.loadSteps[value] }))}
      />
    </section>
  );
}

function SocketRow(props: {
  readonly value: number | null;
  readonly refuses: (kw: number) => string | null;
  readonly onPick: (kw: number | null) => void;
}) {
  const words = roundsWords.now();
  return (
    <>
      <Row title={words.socket}>
        <Choices
          of={["none", "here"] as const}
          words={{ none: words.noSocket, here: `${figures(props.value ?? SOCKET_KW[1] ?? 2, 1)} kW` }}
          chosen={props.value === null ? "none" : "here"}
          asks={words.socket}
          onPick={(value) => props.onPick(value === "none" ? null : (props.value ?? SOCKET_KW[1] ?? 2))}
        />
      </Row>
      {props.value !== null && (
        <LadderRow
          title={words.socket}
          unit="kw"
          decimals={1}
          value={props.value}
          ladder={SOCKET_KW}
          refuses={props.refuses}
          onPick={props.onPick}
        />
      )}
    </>
  );
}
