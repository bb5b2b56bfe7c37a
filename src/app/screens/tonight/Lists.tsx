import { useState } from "preact/hooks";
import type { Socket, Yard } from "../../../records/index.js";
import { shareAtKwh } from "../../../records/map/night-plan.js";
import { minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";
import { book } from "../../fleet.js";
import { Key } from "../../parts/keys.js";
import { LongList } from "../../parts/LongList.js";
import { Mark } from "../../parts/Mark.js";
import { Say } from "../../parts/Say.js";
import { go } from "../../router.js";
import { nowUtcMs } from "../../state.js";
import { tonightWords } from "../../words/tonight.js";
import { socketName, swapFor, type VehicleNight } from "./night-facts.js";
import { recordOf } from "./night-state.js";
import { noSlotText, thenText, underText, wayOut, whyText } from "./say-night.js";

interface ListProps {
  readonly yard: Yard;
  readonly shown: NightShown;
  readonly nights: readonly VehicleNight[];
}

/** Those who leave short or unread: how far, why, and the cheapest way out. */
export function Shorts({ yard, shown, nights }: ListProps) {
  const words = tonightWords.now();
  const short = nights.filter(({ state }) => state === "short");
  const unread = nights.filter(
    ({ state, stays }) => state !== "short" && stays.some(({ about }) => about.levelFrom === "worseGuess"),
  );
  if (short.length + unread.length === 0) return null;
  return (
    <section class="shorts">
      <h2>{words.shortList}</h2>
      <ul>
        {[...short, ...unread].slice(0, MOST).map((one) => (
          <li key={one.vehicle.id}>
            <button type="button" class="row-key" onClick={() => go(`night-vehicle/${one.vehicle.id}`)}>
              <span class="plate lip">{one.vehicle.plate}</span>
              <span class="what">
                <b>
                  <Say text={one.state === "short" ? underText(words, one) : words.unread} />
                </b>
                {one.state === "short" && (
                  <span>
                    <Say text={whyOf(one, shown, yard)} />
                  </span>
                )}
                <span class="way-out">
                  <Say text={wayOut(words, one, swapFor(one, nights))} />
                </span>
              </span>
              <Mark state={one.state} size={40} />
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
const MOST = 60;

export function whyOf(one: VehicleNight, shown: NightShown, yard: Yard): string {
  const words = tonightWords.now();
  const mine = one.stays.find(({ outcome }) => outcome.short) ?? one.stays[0];
  if (!mine) return words.ways.giveRound;
  const events = recordOf(book.value, yard, nowUtcMs.value)?.events ?? [];
  const dead = events.some((event) => event.kind === "chargerDead" && event.vehicleId === one.vehicle.id);
  return whyText(words, shown.short[mine.about.stayId], { about: mine.about, yard, dead });
}

const ROW_PX = 92;
/** Every plug-in with its time and why then; long lists draw only the rows near the glass. */
export function Slots({ yard, shown, nights, sockets }: ListProps & { readonly sockets: readonly Socket[] }) {
  const words = tonightWords.now();
  const [open, setOpen] = useState(false);
  const rows = nights
    .flatMap(({ vehicle, stays, state }) => stays.map((stay) => ({ vehicle, state, ...stay })))
    .sort(
      (a, b) => (a.outcome.session?.plugUtcMs ?? Number.MAX_VALUE) - (b.outcome.session?.plugUtcMs ?? Number.MAX_VALUE),
    );
  const hour = (utcMs: number) => minuteOfDay(utcMs, yard.zone) / 60;
  if (!open)
    return (
      <Key kind="alt wide" onPress={() => setOpen(true)}>
        {words.allSlots}
      </Key>
    );
  return (
    <section class="slots">
      <h2>{words.allSlots}</h2>
      <LongList
        items={rows}
        rowPx={ROW_PX}
        row={({ vehicle, outcome, about }) => (
          <li key={about.stayId} style={{ height: `${ROW_PX}px` }}>
            <button type="button" class="row-key" onClick={() => go(`night-vehicle/${vehicle.id}`)}>
              <span class="plate lip">{vehicle.plate}</span>
              <span class="what">
                <b>
                  <Say
                    text={
                      outcome.session
                        ? words.slot(
                            socketName(sockets, outcome.session.socket),
                            hour(outcome.session.plugUtcMs),
                            hour(outcome.session.unplugUtcMs),
                          )
                        : noSlotText(words, outcome)
                    }
                  />
                </b>
                <span>
                  <Say
                    text={
                      outcome.session
                        ? thenText(words, shown.then[about.stayId], yard)
                        : words.leaves(hour(outcome.stay.departUtcMs))
                    }
                  />
                </span>
                <span>
                  <Say
                    text={words.leavesWith(Math.floor(100 * shareAtKwh(about, outcome.departKwh)), outcome.gridKwh)}
                  />
                </span>
              </span>
            </button>
          </li>
        )}
      />
    </section>
  );
}
