import {
  GUESS_DAYS,
  newLearned,
  type Part,
  type PartShown,
  partsShown,
  type VehicleLearned,
} from "../../../calc/learn/parts.js";
import { type PlaceSky, SKY_WORDS, skyGain } from "../../../calc/learn/sky.js";
import type { Learned, Vehicle } from "../../../records/index.js";
import { type Change, keep, vehicleOf } from "../../fleet.js";
import { learnedOf, learnFromLog } from "../../learning.js";
import { chalk } from "../../parts/icons.js";
import { WayKey } from "../../parts/keys.js";
import { Say } from "../../parts/Say.js";
import { here } from "../../state.js";
import { core } from "../../words/core.js";
import { fig, leftToRight, signed } from "../../words/format.js";
import { logWords } from "../../words/log.js";

const HIDDEN: readonly Part[] = ["level"];
/** A part that is nearly as wide as before anything was seen has taught nothing yet. */
const SURE_ENOUGH = 0.93;

/** Each part of what was learned with its spread, and the rule behind it in one sentence. */
export function Taught({ state, place }: { state: VehicleLearned | null; place: PlaceSky | null }) {
  const told = logWords.now();
  const start = partsShown(newLearned(""));
  const all = state ? partsShown(state) : [];
  const shown = all.filter((part, i) => !HIDDEN.includes(part.part) && isNarrower(part, start[i]));
  const gains = place ? SKY_WORDS.filter((_, k) => (place.gain[k]?.days ?? 0) >= 3) : [];
  return (
    <section>
      <h2>{told.taughtTitle}</h2>
      {state && state.days < GUESS_DAYS && (
        <p>
          <Say text={told.guess(state.days)} />
        </p>
      )}
      {shown.length === 0 && <p>{told.taughtNone}</p>}
      <dl class="taught">
        {shown.map((part) => (
          <div key={part.part}>
            <dt>
              {told.parts[part.part as Exclude<Part, "level">][0]}
              <small>{told.parts[part.part as Exclude<Part, "level">][1]}</small>
            </dt>
            <dd>
              <Say text={fig(offOf(part, part.middle))} />
              <small>{told.band(offOf(part, part.low), offOf(part, part.high))}</small>
            </dd>
          </div>
        ))}
        {place &&
          gains.map((word) => (
            <div key={word}>
              <dt>
                {core.now().sky[word]}
                <small>{told.placeRule}</small>
              </dt>
              <dd>
                <Say text={fig(percentOff(skyGain(place, word)))} />
              </dd>
            </div>
          ))}
      </dl>
      {shown.length > 0 && <small>{told.forgets}</small>}
    </section>
  );
}

const isNarrower = (now: PartShown, start: PartShown | undefined): boolean =>
  start !== undefined && widthOf(now) < SURE_ENOUGH * widthOf(start);
const widthOf = ({ part, low, high }: PartShown): number =>
  part === "gaugeOffset" ? high - low : Math.log(high / low);

/** A factor as the percent it lies off the figure of the sheet; the gauge's offset as percent of a full set. */
const offOf = ({ part }: PartShown, value: number): string =>
  part === "gaugeOffset" ? percentOff(1 + value) : percentOff(value);
const percentOff = (factor: number): string => leftToRight(`${signed(Math.round((factor - 1) * 100))}\u00a0%`);

/** Whether answers use it, and a new start; both can be taken back, and the log stays as it is. */
export function TaughtKeys({ vehicle, held }: { vehicle: Vehicle; held: Learned }) {
  const told = logWords.now();
  return (
    <div class="ways bare no-print">
      {!held.on && <p>{told.offSays}</p>}
      <WayKey title={held.on ? told.useOff : told.useOn} onPress={() => void turn(vehicle, held)} />
      <WayKey icon={chalk} title={told.anew} sub={told.anewHint} onPress={() => void startAnew(vehicle, held)} />
    </div>
  );
}

async function turn(vehicle: Vehicle, held: Learned): Promise<void> {
  const told = logWords.now();
  const on = !held.on;
  const changes = (): Change[] => [
    { kind: "learned", put: { ...(learnedOf(vehicle.id) ?? held), on } },
    ...(on ? [] : [withoutLearned(vehicle)]),
  ];
  if (await keep(changes, on ? told.nowOn : told.nowOff)) void learnFromLog([vehicle.id]);
}

const withoutLearned = (vehicle: Vehicle): Change => ({
  kind: "vehicle",
  put: { ...(vehicleOf(vehicle.id) ?? vehicle), learned: null },
});

async function startAnew(vehicle: Vehicle, held: Learned): Promise<void> {
  const put: Learned = {
    ...held,
    sinceDate: here.value.date,
    settled: null,
    state: null,
    pluggedUtcMs: null,
    score: null,
  };
  const kept = await keep(() => [{ kind: "learned", put }, withoutLearned(vehicle)], logWords.now().anewDone);
  if (kept) void learnFromLog([vehicle.id]);
}
