import "../edit/edit.css";
import "./sky.css";
import { sunTimes } from "../../../calc/sun/times.js";
import { type Sky, skyId, type Vehicle, type Yard } from "../../../records/index.js";
import type { DayCase } from "../../../records/map/day.js";
import { dateAsked } from "../../../records/map/next-shift.js";
import { siteOf } from "../../../records/map/place.js";
import { shiftPlanOf } from "../../../records/map/shift-plan.js";
import { civilDate, dayNamed, minuteOfDay, plusDays, utcMsAt } from "../../../units/zone.js";
import { caseOf, current } from "../../answers.js";
import { book, keep, listed, shiftOn, skyOn, vehicles, yardOf, yards } from "../../fleet.js";
import { Caution } from "../../parts/Caution.js";
import { bright, dark, drop, flatRoad, mixed } from "../../parts/icons.js";
import { KeyRow, WayKey } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import type { ScreenProps } from "../../places.js";
import { goInstead } from "../../router.js";
import { nowUtcMs } from "../../state.js";
import { editWords } from "../../words/edit.js";
import { dayShort, inDigits, joined } from "../../words/format.js";
import { skyWords } from "../../words/sky.js";
import { cross } from "../edit/drawings.js";
import { leavesFull, Preview } from "../edit/Preview.js";
import { fullCase } from "../edit/preview-case.js";
import { useAnswer } from "../edit/useAnswer.js";
import { Air } from "./Air.js";
import { type Cover, type CoverChange, daylightHours, partsOf, SKY_WORDS, type SkyWord } from "./cover.js";
import { HourPaint } from "./HourPaint.js";
import { usedWords } from "./used.js";

export const words = [editWords, skyWords];

const DRAWINGS = { bright, mixed, dark };

/** How is the light? `sky` asks for the day that Today speaks of, `sky/DATE` for another. */
export function Screen({ params }: ScreenProps) {
  const vehicle = current.value;
  const yard = (vehicle && yardOf(vehicle)) ?? yards.value[0];
  if (!yard) return <NoYard />;
  const today = civilDate(nowUtcMs.value, yard.zone);
  const asked = vehicle ? dayOf(vehicle, yard) : today;
  const date = dayNamed(params[0], asked);
  return <SkyOf yard={yard} date={date} today={today} key={date} />;
}

function dayOf(vehicle: Vehicle, yard: Yard): string {
  const { round: rounds = [], shift: shifts = [] } = book.value;
  return dateAsked({ yard, vehicle, rounds, shifts }, nowUtcMs.value);
}

/** A sky of which nothing is said yet. */
const emptySky = (yard: Yard, date: string): Sky => ({
  id: skyId(yard.id, date),
  v: 1,
  yardId: yard.id,
  date,
  cover: null,
  airMinC: null,
  airMaxC: null,
  windMs: null,
  wet: false,
  haze: null,
});

function SkyOf({ yard, date, today }: { yard: Yard; date: string; today: string }) {
  const words = skyWords.now();
  const sky = skyOn(yard.id, date);
  const before = skyOn(yard.id, plusDays(date, -1));
  const cover = sky?.cover ?? undefined;
  const putWith = (more: (now: Sky | undefined) => Partial<Sky>) => {
    const now = () => skyOn(yard.id, date);
    return keep(() => [{ kind: "sky", put: { ...emptySky(yard, date), ...now(), ...more(now()) } }], words.kept);
  };
  const put = (more: Partial<Sky>) => putWith(() => more);
  const putCover = (to: CoverChange) => putWith((now) => ({ cover: to(now?.cover ?? undefined) }));
  return (
    <Page title={words.title} sub={joined(yard.name, dayShort(date))} place="today" above="today" narrow>
      <Days date={date} today={today} />
      <Answer yard={yard} date={date} />
      <p class="used">{usedWords(yard, date, sky, before)}</p>
      <Whole cover={cover} onCover={(cover) => put({ cover })} />
      <Parts cover={cover} onCover={putCover} />
      <section class="ask">
        <h2>{words.byHour}</h2>
        <HourPaint cover={cover} hours={sunHoursOf(yard, date)} onPaint={putCover} />
      </section>
      <section class="ask">
        <h2>{words.roads}</h2>
        <KeyRow
          asks={words.roads}
          chosen={sky?.wet ? "wet" : "dry"}
          onPick={(value) => put({ wet: value === "wet" })}
          choices={[
            { value: "dry", word: words.dry, icon: flatRoad },
            { value: "wet", word: words.wet, icon: drop },
          ]}
        />
        {sky?.wet && <Caution text={words.wetCare} />}
      </section>
      <Air yard={yard} date={date} sky={sky ?? emptySky(yard, date)} onChange={put} />
      <div class="ways spaced">
        {before?.cover && (
          <WayKey
            icon={DRAWINGS.mixed}
            title={words.asYesterday}
            onPress={() => put({ cover: before.cover, wet: before.wet, haze: before.haze })}
          />
        )}
        {sky && (
          <WayKey
            icon={cross}
            title={words.forget}
            onPress={() => keep([{ kind: "sky", drop: sky.id }], words.forgotten)}
          />
        )}
      </div>
    </Page>
  );
}

function Days({ date, today }: { date: string; today: string }) {
  const words = skyWords.now();
  const tomorrow = plusDays(today, 1);
  const other = date !== today && date !== tomorrow ? [{ value: date, word: dayShort(date) }] : [];
  return (
    <section class="ask days">
      <KeyRow
        asks={words.title}
        chosen={date}
        onPick={(value) => goInstead(`sky/${value}`)}
        choices={[{ value: today, word: words.today }, { value: tomorrow, word: words.tomorrow }, ...other]}
      />
    </section>
  );
}

/** The answer of the vehicle that is spoken of: as it stands where that is the day asked about, else as if it left full. */
function Answer({ yard, date }: { yard: Yard; date: string }) {
  const words = editWords.now().preview;
  const vehicle = current.value ?? vehicles.value[0];
  const asked = vehicle && yardOf(vehicle)?.id === yard.id ? caseFor(vehicle, yard, date) : null;
  const skies = listed(book.value, "sky").filter((sky) => sky.yardId === yard.id);
  const minute = asked && !isFull(asked) ? Math.floor(asked.nowUtcMs / 300_000) : 0;
  const answered = useAnswer(asked, JSON.stringify([vehicle?.id, vehicle, date, minute, skies]));
  return (
    <Preview
      asked={asked}
      answered={answered}
      says={asked && isFull(asked) ? leavesFull(asked) : dayShort(date)}
      empty={vehicle ? words.noRound : words.noVehicle}
    />
  );
}

const isFull = (asked: DayCase): boolean => asked.readings[0]?.id === "preview";

function caseFor(vehicle: Vehicle, yard: Yard, date: string): DayCase | null {
  if (dayOf(vehicle, yard) === date && listed(book.value, "reading").some((one) => one.vehicleId === vehicle.id))
    return caseOf(book.value, vehicle, yard, nowUtcMs.value);
  const plan = shiftPlanOf(vehicle, listed(book.value, "round"), listed(book.value, "shift"), date);
  if (!plan) return null;
  const skies = listed(book.value, "sky");
  return fullCase({ vehicle, yard, round: plan.round, date, shift: shiftOn(vehicle.id, date), skies });
}

interface CoverProps {
  readonly cover: Cover | undefined;
  readonly onCover: (cover: Cover) => void;
}

function Whole({ cover, onCover }: CoverProps) {
  const words = skyWords.now();
  return (
    <section class="ask">
      <h2>{words.whole}</h2>
      <KeyRow
        asks={words.whole}
        chosen={cover?.kind === "three" ? cover.value : null}
        onPick={(value) => onCover({ kind: "three", value })}
        choices={SKY_WORDS.map((value) => ({ value, word: words.words[value], icon: DRAWINGS[value] }))}
      />
    </section>
  );
}

function Parts({ cover, onCover }: { cover: Cover | undefined; onCover: (to: CoverChange) => void }) {
  const words = skyWords.now();
  const parts = partsOf(cover);
  const put = (nth: number, value: SkyWord) =>
    onCover((now) => ({ kind: "parts", values: partsOf(now).map((old, n) => (n === nth ? value : old)) }));
  return (
    <section class="ask">
      <h2>{words.parts}</h2>
      {words.partNames.map((name, nth) => (
        <div key={name} class="sky-part">
          <p>
            <b>{name}</b>
            <small>{inDigits(words.partHours[nth] ?? "")}</small>
          </p>
          <KeyRow
            asks={name}
            chosen={cover?.kind === "parts" ? (parts[nth] ?? null) : null}
            onPick={(value) => put(nth, value)}
            choices={SKY_WORDS.map((value) => ({ value, word: words.words[value] }))}
          />
        </div>
      ))}
    </section>
  );
}

function sunHoursOf(yard: Yard, date: string): readonly number[] {
  const { riseUtcMs, setUtcMs } = sunTimes(utcMsAt(date, 720, yard.zone), siteOf(yard));
  const hour = (utcMs: number | null) => (utcMs === null ? null : minuteOfDay(utcMs, yard.zone) / 60);
  return daylightHours(hour(riseUtcMs), hour(setUtcMs));
}

function NoYard() {
  const words = skyWords.now();
  return (
    <Page title={words.title} place="today" above="today">
      <div class="empty">
        <p>{words.noYard}</p>
      </div>
    </Page>
  );
}
