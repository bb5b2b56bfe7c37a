import { useState } from "preact/hooks";
import { shiftId } from "../../records/ids.js";
import type { Round } from "../../records/index.js";
import { edited } from "../edited.js";
import { book, type Change, keep, listed, roundOf, vehicleOf } from "../fleet.js";
import { chalk, flatRoad, hills, road, someHills } from "../parts/icons.js";
import { Key, KeyRow, WayKey } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { go } from "../router.js";
import { say } from "../voice.js";
import { dayWords } from "../words/day.js";
import { clock, figures } from "../words/format.js";
import { DayTop } from "./DayTop.js";
import { type DayContext, dayContext, shiftFor } from "./day-context.js";
import type { RoadClass } from "./today-model.js";
import { roadClassOf } from "./today-of.js";

export const words = [dayWords];

/** Metres of climb and drop per km that a word stands for; common practice, no source. */
const CLIMB_PER_KM: Record<RoadClass, number> = { flat: 0, some: 10, hills: 25 };
const DRAWINGS = { flat: flatRoad, some: someHills, hills };
const CLASSES: readonly RoadClass[] = ["flat", "some", "hills"];
const STEP_MIN = 30;
const DAY_MIN = 1440;

export const kmOf = (round: Round): number =>
  round.parts.reduce((total, part) => total + (part.kind === "leg" ? part.km : 0), 0);

/** Where does it go, how hilly, and when does it leave? */
export function Screen() {
  const words = dayWords.now().road;
  const [everyDay, setEveryDay] = useState(false);
  const context = dayContext();
  if (!context) return null;
  const { vehicle, yard } = context;
  const shift = shiftFor(context);
  const chosen = roundOf(shift?.roundId ?? vehicle.usual.roundId);
  const rounds = listed(book.value, "round").filter((round) => round.yardId === yard.id);
  const leave = shift?.leaveMinute ?? vehicle.usual.leaveMinute;
  const change = (what: { roundId?: string; leaveMinute?: number }) =>
    void keep(() => roadChanges(context, what, everyDay), words.kept);
  return (
    <Page {...DayTop(context, words.title)} onSay={() => void say(words.spoken)} narrow>
      <section class="ask">
        <KeyRow
          asks={words.round}
          chosen={everyDay ? "every" : "day"}
          onPick={(value) => setEveryDay(value === "every")}
          choices={[
            { value: "day", word: words.thatDay },
            { value: "every", word: words.everyDay },
          ]}
        />
      </section>
      <section class="ask">
        <h2>{words.round}</h2>
        <div class="ways bare">
          {rounds.map((round) => (
            <WayKey
              key={round.id}
              icon={road}
              title={round.name}
              sub={words.km(Math.round(kmOf(round)))}
              main={round.id === chosen?.id}
              onPress={() => change({ roundId: round.id })}
            />
          ))}
        </div>
      </section>
      <section class="ask">
        <h2>
          {words.leaves}
          <small class="fig">{clock(leave / 60)}</small>
        </h2>
        <div class="ks times">
          {[-2, -1, 1, 2]
            .map((steps) => leave + steps * STEP_MIN)
            .filter((minute) => minute >= 0 && minute < DAY_MIN)
            .map((leaveMinute) => (
              <Key key={leaveMinute} onPress={() => change({ leaveMinute })}>
                <span class="fig">{clock(leaveMinute / 60)}</span>
              </Key>
            ))}
        </div>
      </section>
      {chosen && (
        <section class="ask">
          <h2>{words.hills}</h2>
          <KeyRow
            asks={words.hills}
            chosen={roadClassOf(chosen.parts)}
            onPick={(value) =>
              void keep(
                edited("round", chosen.id, (round) => withHills(round, value)),
                words.kept,
              )
            }
            choices={CLASSES.map((value) => ({
              value,
              word: value === "hills" ? words.steep : words[value],
              icon: DRAWINGS[value],
            }))}
          />
        </section>
      )}
      <div class="ways spaced">
        {chosen && <WayKey icon={chalk} title={words.editRound} onPress={() => go(`round/${chosen.id}`)} />}
        <WayKey icon={road} title={words.newRound} sub={figures(0)} onPress={() => go("round/new")} />
      </div>
    </Page>
  );
}

/** The same round with climb and drop of a class spread over its legs. */
const withHills = (round: Round, of: RoadClass): Round => ({
  ...round,
  parts: round.parts.map((part) =>
    part.kind === "leg"
      ? { ...part, climbM: Math.round(part.km * CLIMB_PER_KM[of]), dropM: Math.round(part.km * CLIMB_PER_KM[of]) }
      : part,
  ),
});

function roadChanges(
  context: DayContext,
  change: { roundId?: string; leaveMinute?: number },
  everyDay: boolean,
): readonly Change[] {
  const { date } = context;
  const vehicle = vehicleOf(context.vehicle.id);
  if (!vehicle) return [];
  const changes: Change[] = [];
  const shift = shiftFor(context);
  if (everyDay) changes.push({ kind: "vehicle", put: { ...vehicle, usual: { ...vehicle.usual, ...change } } });
  const isSet = listed(book.value, "shift").some((one) => one.vehicleId === vehicle.id && one.date === date);
  if (shift && (isSet || !everyDay)) changes.push({ kind: "shift", put: { ...shift, ...change } });
  else if (!shift && !everyDay && change.roundId !== undefined)
    changes.push({
      kind: "shift",
      put: {
        id: shiftId(vehicle.id, date),
        v: 1,
        vehicleId: vehicle.id,
        roundId: change.roundId,
        date,
        leaveMinute: change.leaveMinute ?? vehicle.usual.leaveMinute,
        loadKg: null,
        loadClass: vehicle.usual.loadClass,
        driver: null,
      },
    });
  return changes;
}
