import { useState } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import { DAY_MS } from "../../../units/numbers.js";
import { civilDate, minuteOfDay, plusDays, utcMsAt } from "../../../units/zone.js";
import { Icon } from "../../parts/Icon.js";
import { Key } from "../../parts/keys.js";
import { nowUtcMs } from "../../state.js";
import { core } from "../../words/core.js";
import { clock, dayShort } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import { plus } from "../edit/drawings.js";
import type { Editing } from "../edit/editing.js";
import { typeIn } from "../edit/typing.js";
import { Sheet } from "../edit/ValuePad.js";
import { Lines } from "./Lines.js";
import { SpanPad } from "./SpanPad.js";

type Cut = Yard["cuts"][number];
const DAYS_SHOWN = 7;
const KEPT_MS = 30 * DAY_MS;

/** Cuts that are not over yet. */
export const cutsToCome = (yard: Yard): readonly Cut[] =>
  [...yard.cuts].filter((cut) => cut.toUtcMs > nowUtcMs.value).sort((a, b) => a.fromUtcMs - b.fromUtcMs);

function cutText(yard: Yard, cut: Cut): string {
  const words = yardWords.now();
  const [from, to] = [civilDate(cut.fromUtcMs, yard.zone), civilDate(cut.toUtcMs, yard.zone)];
  const at = (utcMs: number) => clock(minuteOfDay(utcMs, yard.zone) / 60);
  const end = from === to ? at(cut.toUtcMs) : words.nextDay(at(cut.toUtcMs));
  return words.cutSays(dayShort(from), at(cut.fromUtcMs), end);
}

/** Hours announced without supply. */
export function Cuts({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const yard = on.record;
  const [day, setDay] = useState<string | null>(null);
  const [asking, setAsking] = useState(false);
  const cuts = cutsToCome(yard);
  const today = civilDate(nowUtcMs.value, yard.zone);
  const put = (to: (cuts: readonly Cut[]) => readonly Cut[]) =>
    typeIn("yard", yard, (now) => [{ path: "cuts", value: to(now.cuts).filter(isRecent) }], core.now().kept);
  const add = (date: string, from: number, to: number) => {
    setDay(null);
    const fromUtcMs = utcMsAt(date, from, yard.zone);
    // an end at or before the start is meant for the day after
    const toUtcMs = utcMsAt(date, to > from ? to : to + 1440, yard.zone);
    void put((all) => [...all, { fromUtcMs, toUtcMs }]);
  };
  return (
    <section class="list">
      <p class="hint">{cuts.length === 0 ? `${words.cutsHint} ${words.sums.noCuts}.` : words.cutsHint}</p>
      <Lines
        lines={cuts.map((cut) => cutText(yard, cut))}
        removeWord={words.removeCut}
        onDrop={(n) => put((all) => all.filter((cut) => !isSame(cut, cuts[n])))}
      />
      <div class="acts adding">
        <Key onPress={() => setAsking(true)}>
          <Icon of={plus} size={20} />
          {words.addCut}
        </Key>
      </div>
      {asking && (
        <Sheet title={words.day} onClose={() => setAsking(false)}>
          <div class="pad-list two">
            {Array.from({ length: DAYS_SHOWN }, (_, n) => plusDays(today, n)).map((date) => (
              <Key
                key={date}
                onPress={() => {
                  setAsking(false);
                  setDay(date);
                }}
              >
                {dayShort(date)}
              </Key>
            ))}
          </div>
          <div class="pad-ends one">
            <Key onPress={() => setAsking(false)}>{core.now().pad.close}</Key>
          </div>
        </Sheet>
      )}
      {day !== null && (
        <SpanPad
          title={dayShort(day)}
          from={14 * 60}
          to={16 * 60}
          onClose={() => setDay(null)}
          onKeep={(from, to) => add(day, from, to)}
        />
      )}
    </section>
  );
}

const isSame = (a: Cut, b: Cut | undefined): boolean => a.fromUtcMs === b?.fromUtcMs && a.toUtcMs === b.toUtcMs;
const isRecent = (cut: Cut): boolean => cut.toUtcMs > nowUtcMs.peek() - KEPT_MS;
