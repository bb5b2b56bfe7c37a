import { useState } from "preact/hooks";
import type { Shift } from "../../records/index.js";
import { LOAD_SHARE } from "../../records/map/shift-plan.js";
import { edited } from "../edited.js";
import { keep } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { emptyTray, fullTray, halfTray, pad } from "../parts/icons.js";
import { Key } from "../parts/keys.js";
import { NumberPad } from "../parts/NumberPad.js";
import { Page } from "../parts/Page.js";
import { goBack } from "../router.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { DayTop } from "./DayTop.js";
import { type DayContext, dayContext, shiftFor } from "./day-context.js";

export const words = [dayWords];

const CLASSES = ["empty", "half", "full"] as const;
const DRAWINGS = { empty: emptyTray, half: halfTray, full: fullTray };
const MOST_KG = 3000;

/** How much is on it? */
export function Screen() {
  const words = dayWords.now().load;
  const [exact, setExact] = useState(false);
  const context = dayContext();
  const shift = context && shiftFor(context);
  if (!context) return null;
  const { vehicle } = context;
  const kgOf = (of: (typeof CLASSES)[number]) => LOAD_SHARE[of] * vehicle.fullLoadKg;
  const over = (kg: number) => vehicle.legalLoadKg !== null && kg > vehicle.legalLoadKg;
  const pick = (change: Pick<Shift, "loadClass" | "loadKg">) => void keepLoad(context, change);
  return (
    <Page {...DayTop(context, words.title)} onSay={() => void say(words.spoken)} narrow>
      <div class="ways spaced">
        {CLASSES.map((value) => (
          <Key
            key={value}
            kind="way tall"
            chosen={shift?.loadKg == null && shift?.loadClass === value}
            onPress={() => pick({ loadClass: value, loadKg: null })}
          >
            <Icon of={DRAWINGS[value]} size={44} />
            <span class="what">
              <b>{words[value]}</b>
              <span>{words.kg(kgOf(value))}</span>
            </span>
          </Key>
        ))}
        <Key kind="way alt" chosen={shift?.loadKg != null} onPress={() => setExact(true)}>
          <Icon of={pad} size={28} />
          <span class="what">
            <b>{words.exactly}</b>
            {shift?.loadKg != null && <span>{words.kg(shift.loadKg)}</span>}
          </span>
        </Key>
      </div>
      {over(shift?.loadKg ?? kgOf("full")) && <Caution id="overLegal" text={words.overLegal} />}
      {exact && (
        <NumberPad
          title={words.exactly}
          unit="kg"
          least={0}
          most={MOST_KG}
          onClose={() => setExact(false)}
          onKeep={(kg) => pick({ loadKg: kg, loadClass: classOf(kg, vehicle.fullLoadKg) })}
        />
      )}
    </Page>
  );
}

const classOf = (kg: number, fullKg: number): Shift["loadClass"] =>
  kg < fullKg / 4 ? "empty" : kg < (3 * fullKg) / 4 ? "half" : "full";

async function keepLoad(context: DayContext, change: Pick<Shift, "loadClass" | "loadKg">): Promise<void> {
  const { loadClass } = change;
  const usual = edited("vehicle", context.vehicle.id, (now) => ({ ...now, usual: { ...now.usual, loadClass } }));
  const kept = shiftFor(context)
    ? await keep((now) => {
        const shift = shiftFor(context);
        return shift ? [{ kind: "shift", put: { ...shift, ...change } }] : usual(now);
      }, dayWords.now().load.kept)
    : await keep(usual, core.now().kept);
  if (kept) goBack("today");
}
