import { useEffect, useState } from "preact/hooks";
import type { MonthCause, SizingCell, SizingYear } from "../../calc/sizing/input.js";
import { DAY_MARK } from "../../calc/sizing/input.js";
import { Caution } from "../parts/Caution.js";
import { Fitted } from "../parts/Fitted.js";
import { Icon } from "../parts/Icon.js";
import { vehicle as vehicleDrawing } from "../parts/icons.js";
import { share as shareDrawing } from "../parts/icons-more.js";
import { KitLegend, KitYear, type LegendMark } from "../parts/KitYear.js";
import { Key } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { Say } from "../parts/Say.js";
import type { ScreenProps } from "../places.js";
import { go } from "../router.js";
import { say } from "../voice.js";
import { figures, joined, monthName } from "../words/format.js";
import { kitWords } from "../words/kit.js";
import { KitDial } from "./KitDial.js";
import { AS_IS, askYear, cellAt, dialled, type KitSubject, kitSubject, kitYear, sizesOf } from "./kit-state.js";
import { monthLetters } from "./month-letters.js";
import { kmOf } from "./round-km.js";
import "./kit.css";

export const words = [kitWords];

/** How many days a year does this roof and set spare the plug? */
export function Screen({ params }: ScreenProps) {
  const words = kitWords.now().kit;
  const subject = kitSubject(params[0]);
  if (!subject) return <Nothing text={words.noVehicle} does={words.again} to="five-taps" />;
  if (!subject.round) return <Nothing text={words.noRound} does={words.giveRound} to="road" />;
  return <KitOf subject={subject} />;
}

function KitOf({ subject }: { subject: KitSubject }) {
  const words = kitWords.now().kit;
  const { vehicle, round } = subject;
  const [help, setHelp] = useState(false);
  useEffect(() => askYear(subject));
  const state = kitYear.value;
  const at = dialled.value.get(vehicle.id) ?? AS_IS;
  const year = state.step === "done" && state.of.vehicle === vehicle ? state.year : null;
  const cell = year && cellAt(year, at);
  const spoken = cell && words.spoken(Math.floor(cell.daysWithoutPlug), cell.poorYear, cell.goodYear);
  return (
    <Page
      title={words.title(vehicle.name || vehicle.plate)}
      sub={words.sub(round ? Math.round(kmOf(round)) : 0, words.loads[vehicle.usual.loadClass])}
      place="vehicles"
      above={`sheet/${vehicle.id}`}
      foot={<KitKeys vehicleId={vehicle.id} />}
      help={{ open: help, toggle: () => setHelp(!help) }}
      {...(spoken ? { onSay: () => void say(spoken) } : {})}
      narrow
    >
      {year && cell ? <Year subject={subject} year={year} cell={cell} help={help} /> : <Working subject={subject} />}
      {vehicle.battery.nominalV > 60 && <Caution text={words.shock} />}
      <Caution text={words.caution} />
    </Page>
  );
}

function Year({
  subject,
  year,
  cell,
  help,
}: {
  subject: KitSubject;
  year: SizingYear;
  cell: SizingCell;
  help: boolean;
}) {
  const words = kitWords.now().kit;
  const months = cell.months.map((month) => figures(Math.round(month.daysWithoutPlug)));
  const shown: LegendMark[] = ["sun", "plug"];
  const shortDays = cell.marks.filter((mark) => mark === DAY_MARK.short).length;
  if (shortDays > 0) shown.push("short");
  if (cell.marks.includes(DAY_MARK.rest)) shown.push("rest");
  const says = `${words.picture}. ${cell.months.map((month, m) => words.month(monthName(m), Math.round(month.daysWithoutPlug), DAYS[m] ?? 30)).join(". ")}.`;
  return (
    <>
      <section class="kit-big">
        <b class="fig">{figures(Math.floor(cell.daysWithoutPlug))}</b>
        <div>
          <b>{words.daysAYear}</b>
          <span>{words.sunEnough}</span>
        </div>
      </section>
      <p class="kit-doubt">
        <Say text={words.years(cell.poorYear, cell.goodYear)} /> {!subject.vehicle.learned && words.noLog}
        <br />
        <Say text={words.units(Math.ceil(cell.gridKwh), Math.floor(sunKwhOf(cell)))} />
      </p>
      <Fitted class="kit-room" guess={{ width: 360, height: 180 }}>
        {(box) => <KitYear marks={cell.marks} width={box.width} letters={monthLetters()} counts={months} says={says} />}
      </Fitted>
      <KitLegend words={{ ...words.legend, short: words.short(shortDays) }} shown={shown} />
      {help && <Help subject={subject} causes={year.causes} />}
      <Dials vehicleId={subject.vehicle.id} year={year} />
    </>
  );
}

const sunKwhOf = (cell: SizingCell): number => cell.months.reduce((sum, month) => sum + month.sunTakenKwh, 0);
const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function Dials({ vehicleId, year }: { vehicleId: string; year: SizingYear }) {
  const words = kitWords.now().kit;
  const at = dialled.value.get(vehicleId) ?? AS_IS;
  const { roofW, packWh } = sizesOf(year);
  const turn = (to: { roof: number; set: number }) => {
    dialled.value = new Map(dialled.peek()).set(vehicleId, to);
  };
  const days = (to: { roof: number; set: number }): number | null => {
    if (to.roof < 0 || to.set < 0 || to.roof >= roofW.length || to.set >= packWh.length) return null;
    return Math.floor(cellAt(year, to)?.daysWithoutPlug ?? 0);
  };
  const units = (wh: number | undefined): string => figures((wh ?? 0) / 1000, 1);
  const side = (of: "roof" | "set", by: number) => {
    const to = { ...at, [of]: at[of] + by };
    const name = of === "roof" ? words.watts(roofW[to.roof] ?? 0) : units(packWh[to.set]);
    return { name, days: days(to), turn: () => turn(to) };
  };
  return (
    <div class="kit-dials">
      {(["roof", "set"] as const).map((of) => (
        <KitDial
          key={of}
          value={of === "roof" ? figures(roofW[at.roof] ?? 0) : units(packWh[at.set])}
          unit={words[of]}
          less={{ ...side(of, -1), says: words.less[of] }}
          more={{ ...side(of, 1), says: words.more[of] }}
          words={words}
        />
      ))}
    </div>
  );
}

/** Three lines to the picture, and why the months differ. */
function Help({ subject, causes }: { subject: KitSubject; causes: readonly MonthCause[] }) {
  const words = kitWords.now().kit;
  const named = (["lowSun", "cloud", "dust"] as const).flatMap((cause) => {
    const months = causes.flatMap((of, m) => (of === cause ? [monthName(m)] : []));
    return months.length > 0 ? [words.causes[cause](joined(...months))] : [];
  });
  return (
    <ul class="legend">
      <li>{named.length > 0 ? named.join(" ") : words.even}</li>
      {subject.yard.usualSkyByMonth === null && <li>{words.skyNotKnown}</li>}
      <li>{words.help.cells}</li>
      <li>{words.help.dials}</li>
      <li>{words.help.uses}</li>
    </ul>
  );
}

function Working({ subject }: { subject: KitSubject }) {
  const words = kitWords.now().kit;
  const state = kitYear.value;
  if (state.step === "refused") return <p class="kit-working">{words.tooLong}</p>;
  const share = state.step === "working" ? state.share : 0;
  return (
    <div class="kit-working">
      <p aria-live="polite">{state.step === "working" ? words.working : words.sunEnough}</p>
      <progress max={1} value={share} aria-label={words.working} />
      {state.step === "working" ? (
        <Key onPress={state.stop}>{words.stop}</Key>
      ) : (
        <Key kind="main" onPress={() => askYear(subject, true)}>
          {words.again}
        </Key>
      )}
    </div>
  );
}

function KitKeys({ vehicleId }: { vehicleId: string }) {
  const words = kitWords.now().kit;
  return (
    <div class="acts two kit-keys">
      <Key kind="main" onPress={() => go(`kit-sheet/${vehicleId}`)}>
        <Icon of={shareDrawing} />
        {words.sheet}
      </Key>
      <Key onPress={() => go(`compare/${vehicleId}`)}>
        <Icon of={vehicleDrawing} />
        {words.beside}
      </Key>
    </div>
  );
}

function Nothing({ text, does, to }: { text: string; does: string; to: string }) {
  return (
    <Page title={kitWords.now().sheet.kit} place="vehicles" above="vehicles">
      <div class="empty">
        <p>{text}</p>
        <Key kind="main" onPress={() => go(to)}>
          {does}
        </Key>
      </div>
    </Page>
  );
}
