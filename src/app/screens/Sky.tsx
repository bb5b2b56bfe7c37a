import { skyId } from "../../records/ids.js";
import type { Sky } from "../../records/index.js";
import { plusDays } from "../../units/zone.js";
import { keep, skyOn } from "../fleet.js";
import { Icon } from "../parts/Icon.js";
import { bright, dark, drop, mixed } from "../parts/icons.js";
import { Key, KeyRow, WayKey } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { goBack } from "../router.js";
import { say } from "../voice.js";
import { core } from "../words/core.js";
import { dayWords } from "../words/day.js";
import { figures } from "../words/format.js";
import { DayTop } from "./DayTop.js";
import { type DayContext, dayContext } from "./day-context.js";

type Word = "bright" | "mixed" | "dark";
const WORDS: readonly Word[] = ["bright", "mixed", "dark"];
const DRAWINGS = { bright, mixed, dark };
/** Middle of what each word stands for, in eighths of cloud; only to begin the row of hours. */
const OKTAS: Record<Word, number> = { bright: 1, mixed: 4, dark: 7 };
const FIRST_HOUR = 6;
const HOURS = Array.from({ length: 13 }, (_, i) => FIRST_HOUR + i);

/** How is the light? One tap for the day, three for its parts, or hour by hour. */
export function Screen() {
  const words = dayWords.now().sky;
  const context = dayContext();
  if (!context) return null;
  const { yard, date } = context;
  const sky = skyOn(yard.id, date);
  const choices = WORDS.map((value) => ({ value, word: words[value], icon: DRAWINGS[value] }));
  const parts = partsOf(sky);
  const hours = oktasOf(sky);
  const yesterday = skyOn(yard.id, plusDays(date, -1));
  return (
    <Page {...DayTop(context, words.title)} onSay={() => void say(words.spoken)} narrow>
      <section class="ask">
        <h2>{words.whole}</h2>
        <KeyRow
          asks={words.whole}
          chosen={sky?.cover.kind === "three" ? sky.cover.value : null}
          choices={choices}
          onPick={(value) => void keepSky(context, { cover: { kind: "three", value } }, true)}
        />
      </section>
      {words.parts.map((part, i) => (
        <section key={part} class="ask short">
          <h2>{part}</h2>
          <KeyRow
            asks={part}
            chosen={sky?.cover.kind === "parts" ? (sky.cover.values[i] ?? null) : null}
            choices={WORDS.map((value) => ({ value, word: words[value] }))}
            onPick={(value) =>
              void keepSky(context, {
                cover: { kind: "parts", values: parts.map((old, k) => (k === i ? value : old)) },
              })
            }
          />
        </section>
      ))}
      <section class="ask">
        <h2>{words.byHour}</h2>
        <p class="hint">{words.oktas}</p>
        <fieldset class="ks numbers" aria-label={words.byHour}>
          {HOURS.map((hour) => (
            <Key
              key={hour}
              kind="col"
              says={words.hourSays(hour, hours[hour] ?? 0)}
              onPress={() => void keepSky(context, { cover: { kind: "hours", ...nextOkta(hours, thinOf(sky), hour) } })}
            >
              <Cover eighths={hours[hour] ?? 0} set={sky?.cover.kind === "hours"} />
              <span class="small-fig">{figures(hour)}</span>
            </Key>
          ))}
        </fieldset>
      </section>
      <div class="ways spaced">
        <Key kind="way" chosen={sky?.wet ?? false} onPress={() => void keepSky(context, { wet: !(sky?.wet ?? false) })}>
          <Icon of={drop} size={28} />
          {words.rain}: {sky?.wet ? words.wet : words.dry}
        </Key>
        {yesterday && (
          <WayKey
            icon={DRAWINGS.mixed}
            title={words.asYesterday}
            onPress={() => void keepSky(context, { cover: yesterday.cover, wet: yesterday.wet }, true)}
          />
        )}
        {sky && <WayKey icon={DRAWINGS.bright} title={words.usual} onPress={() => void dropSky(sky)} />}
      </div>
    </Page>
  );
}

const partsOf = (sky: Sky | undefined): Word[] => {
  if (sky?.cover.kind === "parts") return [...sky.cover.values];
  const all = sky?.cover.kind === "three" ? sky.cover.value : "mixed";
  return [all, all, all];
};
function oktasOf(sky: Sky | undefined): number[] {
  if (sky?.cover.kind === "hours") return [...sky.cover.oktas];
  const [morning, midday, afternoon] = partsOf(sky) as [Word, Word, Word];
  return Array.from({ length: 24 }, (_, hour) => OKTAS[hour < 11 ? morning : hour < 14 ? midday : afternoon]);
}
const thinOf = (sky: Sky | undefined): boolean[] =>
  sky?.cover.kind === "hours" ? [...sky.cover.thin] : Array.from({ length: 24 }, () => false);

/** Clear, a quarter, half, three quarters, all cloud, and round again. */
function nextOkta(oktas: readonly number[], thin: readonly boolean[], hour: number) {
  const next = (Math.floor((oktas[hour] ?? 0) / 2) * 2 + 2) % 10;
  return { oktas: oktas.map((old, h) => (h === hour ? next : old)), thin: [...thin] };
}

/** A disc with so many eighths covered. */
function Cover({ eighths, set }: { eighths: number; set: boolean }) {
  const tall = (eighths / 8) * 22;
  return (
    <svg width="24" height="24" viewBox="0 0 24 24" aria-hidden="true">
      <rect
        x="1"
        y="1"
        width="22"
        height="22"
        fill={set ? "var(--sun)" : "none"}
        stroke="currentColor"
        stroke-width="2"
      />
      <rect x="1" y="1" width="22" height={tall} fill="currentColor" />
    </svg>
  );
}

async function keepSky(
  { yard, date }: DayContext,
  change: Partial<Pick<Sky, "cover" | "wet">>,
  thenBack = false,
): Promise<void> {
  const old = skyOn(yard.id, date);
  const put: Sky = {
    id: skyId(yard.id, date),
    v: 1,
    yardId: yard.id,
    date,
    cover: { kind: "three", value: "mixed" },
    airMinC: null,
    airMaxC: null,
    windMs: null,
    wet: false,
    haze: null,
    ...old,
    ...change,
  };
  if ((await keep([{ kind: "sky", put }], dayWords.now().sky.kept)) && thenBack) goBack("today");
}

async function dropSky(sky: Sky): Promise<void> {
  if (await keep([{ kind: "sky", drop: sky.id }], core.now().kept)) goBack("today");
}
