import { useState } from "preact/hooks";
import { readingId } from "../../records/ids.js";
import { answers, current } from "../answers.js";
import { keep, vehicles } from "../fleet.js";
import { Key } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { Plate, PlateKey } from "../parts/Plate.js";
import type { Place } from "../places.js";
import { go } from "../router.js";
import { here, nowUtcMs } from "../state.js";
import { core } from "../words/core.js";
import { clock, dayShort, joined } from "../words/format.js";
import { TodayView } from "./TodayView.js";
import type { Way } from "./today-model.js";
import { isOut, todayModelOf } from "./today-of.js";
import { useLeaveOut } from "./use-leave-out.js";

/** Enough for today? */
export function Screen() {
  const words = core.now();
  const [helping, setHelping] = useState(false);
  const vehicle = current.value;
  const answered = vehicle ? answers.value.get(vehicle.id) : undefined;
  const leaveOutKm = useLeaveOut(answered);
  if (!vehicle) return <NothingHere place="today" />;
  const model = answered ? todayModelOf(answered, nowUtcMs.value, leaveOutKm) : null;
  const day = model?.date ?? here.value.date;
  const sub = joined(dayShort(day), clock(here.value.nowH));
  return (
    <Page
      title={vehicle.name}
      sub={day > here.value.date ? words.forTomorrow(dayShort(day)) : sub}
      place="today"
      head={
        vehicles.value.length > 1 ? (
          <PlateKey number={vehicle.plate} says={words.otherVehicle(vehicle.plate)} onPress={() => go("vehicles")} />
        ) : (
          <Plate number={vehicle.plate} />
        )
      }
      onSay={() => go("hold-up")}
      help={{ open: helping, toggle: () => setHelping(!helping) }}
    >
      {model ? <TodayView model={model} keys={keysFor(vehicle.id)} helping={helping} /> : <Working />}
    </Page>
  );
}

const keysFor = (vehicleId: string) => ({
  gauge: () => go("gauge"),
  sky: () => go("sky"),
  load: () => go("load"),
  road: () => go("road"),
  oneMore: () => go("trip"),
  write: () => go("write"),
  chooseRound: () => go("road"),
  pluggedAllNight: () => void keepFull(vehicleId),
  take: (way: Way) => go(way.kind === "leaveOut" ? "road" : plugPlace()),
});

/** A plug before leaving is the night's business, one on the way is the break's. */
function plugPlace(): string {
  const vehicle = current.peek();
  const answered = vehicle && answers.peek().get(vehicle.id);
  return answered && isOut(answered.answer, nowUtcMs.peek()) ? "rest" : "tonight";
}

/** "It was plugged all night": as good as a reading of full. */
async function keepFull(vehicleId: string): Promise<void> {
  const reading = {
    id: readingId(vehicleId, Date.now()),
    v: 1,
    vehicleId,
    atUtcMs: Date.now(),
    kind: "full",
    value: 100,
    restedMin: null,
    perBlock: false,
  } as const;
  await keep([{ kind: "reading", put: reading }], core.now().kept);
}

function Working() {
  return (
    <section class="verdict" aria-live="polite">
      <p class="late soon">{core.now().working}</p>
    </section>
  );
}

/** In place of a screen that has nothing to speak of: what is missing, and the way to it. */
export function NothingHere({ place }: { readonly place: Place }) {
  const words = core.now();
  const some = vehicles.value.length > 0;
  return (
    <Page title={words.app} sub={words.question} place={place}>
      <div class="empty">
        <p>{some ? words.gone : words.noVehicle}</p>
        <Key kind="main" onPress={() => go(some ? "vehicles" : "five-taps")}>
          {some ? words.places.vehicles : words.fiveTaps}
        </Key>
      </div>
    </Page>
  );
}
