import { useState } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import { nearestTown } from "../../../records/places.js";
import { monthIndex } from "../../../units/zone.js";
import { edited } from "../../edited.js";
import { keep } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { bright, dark, mixed } from "../../parts/icons.js";
import { Key, KeyRow, WayKey } from "../../parts/keys.js";
import { here } from "../../state.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { figures, monthName } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import type { Editing } from "../edit/editing.js";
import { FieldRow } from "../edit/FieldRow.js";
import { isGuess } from "../edit/spec.js";
import { typeIn } from "../edit/typing.js";
import { ValuePad } from "../edit/ValuePad.js";

const MONTHS = Array.from({ length: 12 }, (_, n) => n);
const WORDS = ["bright", "mixed", "dark"] as const;
const DRAWINGS = { bright, mixed, dark };
const HAZES = ["cleanHighland", "country", "town", "dustSmoke"] as const;
type Shares = NonNullable<Yard["usualSkyByMonth"]>[number];
const ALIKE: Shares = { bright: 0.34, mixed: 0.33, dark: 0.33 };

/** What a month is usually like here: it counts where nobody said anything about a day. */
export function Weather({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const yard = on.record;
  const [month, setMonth] = useState(monthIndex(here.value.date));
  return (
    <>
      <section class="ask">
        <fieldset class="months" aria-label={words.month}>
          {MONTHS.map((n) => (
            <Key key={n} chosen={n === month} onPress={() => setMonth(n)}>
              {monthName(n)}
            </Key>
          ))}
        </fieldset>
      </section>
      <Sky key={`sky${month}`} on={on} month={month} />
      <ul class="fields">
        <FieldRow
          on={on}
          of={{
            kind: "number",
            path: `airMinCByMonth.${month}`,
            name: "airMin",
            unit: "celsius",
            signed: true,
            usual: [5, 10, 15, 20, 25],
          }}
        />
        <FieldRow
          on={on}
          of={{
            kind: "number",
            path: `airMaxCByMonth.${month}`,
            name: "airMax",
            unit: "celsius",
            signed: true,
            usual: [20, 25, 30, 35, 40],
          }}
        />
      </ul>
      <section class="ask">
        <h2>{words.haze}</h2>
        <KeyRow
          asks={words.haze}
          chosen={yard.hazeByMonth[month] ?? null}
          onPick={(value) => void typeIn("yard", yard, [{ path: `hazeByMonth.${month}`, value }], core.now().kept)}
          choices={HAZES.map((value) => ({ value, word: words.hazes[value] }))}
        />
      </section>
      <AsTown yard={yard} />
    </>
  );
}

/** Of a hundred days: two of the three are typed, the third is what is left. */
function Sky({ on, month }: { on: Editing<"yard">; month: number }) {
  const words = yardWords.now();
  const edit = editWords.now();
  const yard = on.record;
  const [asking, setAsking] = useState<"bright" | "dark" | null>(null);
  const shares = yard.usualSkyByMonth?.[month] ?? ALIKE;
  const guess = isGuess(yard, `usualSkyByMonth.${month}`) || yard.usualSkyByMonth === null;
  const days = (word: (typeof WORDS)[number]) => Math.round(shares[word] * 100);
  const put = (word: "bright" | "dark", typed: number) => {
    setAsking(null);
    const typedIn = ({ usualSkyByMonth: now }: Yard) => {
      const all = MONTHS.map((n) => now?.[n] ?? ALIKE);
      const value = all.map((old, n) => (n === month ? withShare(old, word, typed / 100) : old));
      return now === null
        ? { path: "usualSkyByMonth", value }
        : { path: `usualSkyByMonth.${month}`, value: value[month] };
    };
    void typeIn("yard", yard, (now) => [typedIn(now)], core.now().kept);
  };
  return (
    <section class="ask">
      <h2>
        {words.skyShares}
        {guess && <small>{edit.guess}</small>}
      </h2>
      <div class="ks">
        {WORDS.map((word) =>
          word === "mixed" ? (
            <div key={word} class="share-left">
              <Icon of={DRAWINGS[word]} size={28} />
              <span class="fig">{figures(days(word))}</span>
              <span>{words.skyWords[word]}</span>
            </div>
          ) : (
            <Key key={word} kind="col" onPress={() => setAsking(word)}>
              <Icon of={DRAWINGS[word]} size={28} />
              <span class="fig">{figures(days(word))}</span>
              <span>{words.skyWords[word]}</span>
            </Key>
          ),
        )}
      </div>
      {asking && (
        <ValuePad
          title={`${words.skyShares}: ${words.skyWords[asking]}`}
          unit="days"
          now={days(asking)}
          usual={[10, 20, 40, 60, 80]}
          refuses={(typed) => {
            const most = 100 - days(asking === "bright" ? "dark" : "bright");
            return typed >= 0 && typed <= most ? null : edit.atMost(figures(most), edit.units.days);
          }}
          onKeep={(typed) => put(asking, typed)}
          onClose={() => setAsking(null)}
        />
      )}
    </section>
  );
}

/** Shares with one changed and the mixed days taking up the rest. */
function withShare(old: Shares, word: "bright" | "dark", share: number): Shares {
  const other = word === "bright" ? old.dark : old.bright;
  const mixedShare = Math.max(0, 1 - share - other);
  return word === "bright"
    ? { bright: share, mixed: mixedShare, dark: other }
    : { bright: other, mixed: mixedShare, dark: share };
}

/** All months as in the nearest town that is known; what was typed of the weather is overwritten, and can be taken back. */
function AsTown({ yard }: { yard: Yard }) {
  const words = yardWords.now();
  const town = nearestTown(yard);
  if (!town) return null;
  const { usualSkyByMonth, hazeByMonth, airMinCByMonth, airMaxCByMonth } = town;
  const weather = { usualSkyByMonth, hazeByMonth, airMinCByMonth, airMaxCByMonth };
  const change = edited("yard", yard.id, (now) => ({ ...now, ...weather, guesses: asGuesses(now) }));
  return (
    <div class="ways spaced">
      <WayKey
        icon={bright}
        title={words.asTown(town.name)}
        sub={words.asTownSub}
        onPress={() => keep(change, words.asTownKept(town.name))}
      />
    </div>
  );
}

const WEATHER = ["usualSkyByMonth", "hazeByMonth", "airMinCByMonth", "airMaxCByMonth"] as const;
/** Guesses of the yard with all of its weather among them. */
function asGuesses(yard: Yard): readonly string[] {
  const others = yard.guesses.filter((path) => !WEATHER.some((name) => path === name || path.startsWith(`${name}.`)));
  return [...others, ...WEATHER];
}
