import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import { kitReminders } from "../../calc/sizing/kit-checks.js";
import { PANEL_KG_PER_W, SET_KG_PER_WH } from "../../records/kit-weights.js";
import { askDay } from "../../work/ask-day.js";
import type { Reach } from "../../work/what-if.js";
import { answerBroke, caseOf } from "../answers.js";
import { book } from "../fleet.js";
import { Caution } from "../parts/Caution.js";
import { Icon } from "../parts/Icon.js";
import { print } from "../parts/icons-more.js";
import { Key } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import type { ScreenProps } from "../places.js";
import { here, nowUtcMs } from "../state.js";
import { dayAndMonth, figures } from "../words/format.js";
import { kitWords } from "../words/kit.js";
import { AS_IS, askYear, cellAt, dialled, dialledVehicle, type KitSubject, kitSubject, kitYear } from "./kit-state.js";
import { stringVolts } from "./kit-volts.js";
import "./kit.css";

export const words = [kitWords];

/** What does the customer get? One page for paper, black only. */
export function Screen({ params }: ScreenProps) {
  const words = kitWords.now().sheet;
  const subject = kitSubject(params[0]);
  if (!subject?.round)
    return (
      <Page title={words.title} place="vehicles" above="vehicles">
        <p class="kit-working">{kitWords.now().kit.noRound}</p>
      </Page>
    );
  return <SheetOf subject={subject} />;
}

function SheetOf({ subject: asIs }: { subject: KitSubject }) {
  const words = kitWords.now().sheet;
  const { yard } = asIs;
  useEffect(() => askYear(asIs));
  const state = kitYear.value;
  const year = state.step === "done" && state.of.vehicle === asIs.vehicle ? state.year : null;
  const at = dialled.value.get(asIs.vehicle.id) ?? AS_IS;
  // Sizes, ranges, weights and volts speak of one and the same kit
  const vehicle = useMemo(() => dialledVehicle(asIs.vehicle, year), [asIs.vehicle, year, at]);
  const subject = { ...asIs, vehicle };
  return (
    <Page
      title={words.title}
      sub={vehicle.name || vehicle.plate}
      plate={vehicle.plate}
      place="vehicles"
      above={`kit/${vehicle.id}`}
      narrow
    >
      <article class="kit-sheet">
        <p>
          {words.date}: {dayAndMonth(here.value.date)}{" "}
          {figures(Number(here.value.date.slice(0, 4))).replace(/[^\p{Nd}]/gu, "")}. {yard.name}.
        </p>
        <Range subject={subject} />
        <Sizes subject={subject} cell={year && cellAt(year, at)} />
        <Weights subject={subject} />
        <Volts subject={subject} />
        <TestLog />
        <section>
          <h2>{words.remember}</h2>
          <ul>
            {kitReminders(vehicle.drive, ratedW(subject)).map((reminder) => (
              <li key={reminder}>{words.reminders[reminder]}</li>
            ))}
            {vehicle.guesses.length > 0 && <li>{words.guesses}</li>}
          </ul>
        </section>
        <div class="signs">
          <span>{words.fitter}</span>
          <span>{words.owner}</span>
          <span>{words.date}</span>
        </div>
      </article>
      {vehicle.battery.nominalV > 60 && <Caution text={kitWords.now().kit.shock} />}
      <Caution text={kitWords.now().kit.caution} />
      <div class="ways no-print">
        <Key kind="main" onPress={() => globalThis.print()}>
          <Icon of={print} />
          {words.print}
        </Key>
      </div>
    </Page>
  );
}

const ratedW = ({ vehicle }: KitSubject): number => vehicle.roof.faces.reduce((sum, face) => sum + face.ratedW, 0);

function Range({ subject }: { subject: KitSubject }) {
  const words = kitWords.now().sheet;
  const { vehicle, yard } = subject;
  const [reaches, setReaches] = useState<readonly Reach[] | null>(null);
  useEffect(() => {
    const control = new AbortController();
    askDay("reaches", caseOf(book.value, vehicle, yard, nowUtcMs.peek()), control.signal)
      .then(setReaches)
      .catch((why: unknown) => {
        if (!control.signal.aborted) answerBroke.value = why;
      });
    return () => control.abort();
  }, [vehicle, yard]);
  const km = (value: number | undefined): string => (value === undefined ? "" : figures(downTo(value)));
  return (
    <section>
      <h2>{words.range}</h2>
      <table>
        <thead>
          <tr>
            <th>{words.load}</th>
            <th>{words.noSun}</th>
            <th>{words.dark}</th>
            <th>{words.bright}</th>
          </tr>
        </thead>
        <tbody>
          {(["empty", "full"] as const).map((load, i) => (
            <tr key={load}>
              <th>{load === "empty" ? words.empty : words.full(vehicle.fullLoadKg)}</th>
              <td class="fig">{km(reaches?.[i]?.noSun)}</td>
              <td class="fig">{km(reaches?.[i]?.dark)}</td>
              <td class="fig">{km(reaches?.[i]?.bright)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{words.rangeNote}</p>
      <Blank label={words.approved} />
    </section>
  );
}

/** What is left is rounded down; by whole km, so that a few km of sun show. */
const downTo = (km: number): number => Math.floor(km);

/** A box to write in, framed, where a figure is missing. */
const Blank = ({ label, count = 1 }: { label: string; count?: number }) => (
  <p>
    {label}{" "}
    {Array.from({ length: count }, (_, i) => i).map((i) => (
      <span key={i} class="blank" />
    ))}
  </p>
);

function Sizes({ subject, cell }: { subject: KitSubject; cell: ReturnType<typeof cellAt> | null }) {
  const words = kitWords.now().sheet;
  const { vehicle } = subject;
  const { battery, drive, charger } = vehicle;
  const packWh = battery.nominalV * battery.ratedAh;
  return (
    <section>
      <h2>{words.kit}</h2>
      <ul>
        <li>{words.roof(ratedW(subject), Math.max(1, vehicle.roof.faces.length))}</li>
        <li>{words.set(battery.nominalV, Math.round(packWh / battery.nominalV), packWh / 1000)}</li>
        <li>{words.motor(drive.motorRatedW, drive.gears.length)}</li>
        <li>{words.charger(charger.ratedW)}</li>
        {cell && <li>{words.yearLine(Math.floor(cell.daysWithoutPlug), cell.poorYear, cell.goodYear)}</li>}
      </ul>
    </section>
  );
}

function Weights({ subject }: { subject: KitSubject }) {
  const words = kitWords.now().sheet;
  const { vehicle } = subject;
  const { battery, legalLoadKg, fullLoadKg } = vehicle;
  const over = legalLoadKg === null ? 0 : fullLoadKg - legalLoadKg;
  const setKg = battery.nominalV * battery.ratedAh * SET_KG_PER_WH[battery.chemistry];
  return (
    <section>
      <h2>{words.weights}</h2>
      <dl>
        <Row term={words.kerb}>{figures(vehicle.kerbKg)}</Row>
        <Row term={words.ofWhichSet}>{figures(Math.round(setKg))}</Row>
        <Row term={words.ofWhichRoof}>{figures(Math.round(ratedW(subject) * PANEL_KG_PER_W))}</Row>
        <Row term={words.fullLoad}>{figures(fullLoadKg)}</Row>
        <Row term={words.legal}>{legalLoadKg === null ? <span class="blank" /> : figures(legalLoadKg)}</Row>
      </dl>
      {over > 0 && <p class="bad">{words.over(Math.ceil(over))}</p>}
      <Blank label={words.weighed} count={2} />
    </section>
  );
}

const TESTS = 3;

/** Room for what was measured on the first drives; a row may stay empty. */
function TestLog() {
  const words = kitWords.now().sheet;
  return (
    <section>
      <h2>{words.testLog}</h2>
      <table class="test-log">
        <tbody>
          {[words.date, ...words.tested].map((name) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {Array.from({ length: TESTS }, (_, i) => i).map((i) => (
                <td key={i} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const Row = ({ term, children }: { term: string; children: ComponentChildren }) => (
  <>
    <dt>{term}</dt>
    <dd>{children}</dd>
  </>
);

function Volts({ subject }: { subject: KitSubject }) {
  const words = kitWords.now().sheet;
  const { vehicle, yard } = subject;
  const { controllerMaxV, controllerMinV } = vehicle.roof;
  const strings = stringVolts(vehicle, yard);
  return (
    <section>
      <h2>{words.strings}</h2>
      {strings.length === 0 && (
        <p>
          {words.notTyped} <span class="blank" />
        </p>
      )}
      {strings.map((string) => (
        <dl key={string.name}>
          <Row
            term={`${string.name}. ${words.cold(string.coldestC)}${controllerMaxV === null ? "" : `, ${words.most(controllerMaxV)}`}`}
          >
            {words.volts(string.coldV)}
          </Row>
          <Row term={`${words.hot}${controllerMinV === null ? "" : `, ${words.least(controllerMinV)}`}`}>
            {words.volts(string.hotV)}
          </Row>
          <Row term={words.weak}>{words.volts(string.weakV)}</Row>
        </dl>
      ))}
      {strings.some((string) => !string.coldOk) && <p class="bad">{words.tooHigh}</p>}
      {strings.some((string) => !string.hotOk) && <p class="bad">{words.tooLow}</p>}
    </section>
  );
}
